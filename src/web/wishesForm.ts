import { html } from 'hono/html';
import type { LakeConfig } from '../config/index.ts';
import { DEFAULT_WISHES, EVERY_DAY, type ReaderWishes } from '../delivery/index.ts';
import { LANGUAGES, type Language } from '../vocabulary/index.ts';
import type { Words } from '../words/index.ts';
import type { Markup } from './page.ts';

const HOURS = [0, 4, 5, 6, 7, 8, 9, 10, 11, 12];

const HALF_HOURS = Array.from(
  { length: 48 },
  (_, half) => `${String(Math.floor(half / 2)).padStart(2, '0')}:${half % 2 === 0 ? '00' : '30'}`,
);

/** A language by its own name. */
const nameOfLanguage = (language: Language): string =>
  new Intl.DisplayNames([language], { type: 'language' }).of(language) ?? language;

const checked = (is: boolean): string => (is ? 'checked' : '');
const selected = (is: boolean): string => (is ? 'selected' : '');

/** Fields for what a reader may choose, filled with what they chose. */
export function wishesFields(
  lakes: readonly LakeConfig[],
  m: Words['web']['wishes'],
  wishes?: ReaderWishes,
): Markup {
  const chosen = wishes ?? {
    ...DEFAULT_WISHES,
    lakes: lakes.length === 1 ? lakes.map(({ id }) => id) : [],
  };
  const box = (name: string, value: string, words: string, is: boolean): Markup =>
    html`<label class="inline"
      ><input type="checkbox" name="${name}" value="${value}" ${checked(is)} /> ${words}</label
    >`;
  const time = (name: string, words: string, is: string | undefined): Markup =>
    html`<label class="inline"
      >${words}
      <select name="${name}">
        <option value="">${m.open}</option>
        ${HALF_HOURS.map((at) => html`<option value="${at}" ${selected(at === is)}>${at}</option>`)}
      </select></label
    >`;
  const radio = (name: string, value: string, words: string, is: boolean): Markup =>
    html`<label class="inline"
      ><input type="radio" name="${name}" value="${value}" ${checked(is)} /> ${words}</label
    >`;
  return html`
    <fieldset>
      <legend>${m.lakes}</legend>
      ${lakes.map((lake) => box('lake', lake.id, lake.name, chosen.lakes.includes(lake.id)))}
    </fieldset>
    <fieldset>
      <legend>${m.units}</legend>
      ${radio('units', 'us', m.unitsOf.us, chosen.units === 'us')}
      ${radio('units', 'metric', m.unitsOf.metric, chosen.units === 'metric')}
    </fieldset>
    <fieldset>
      <legend>${m.form}</legend>
      ${radio('form', 'full', m.formOf.full, chosen.form === 'full')}
      ${radio('form', 'short', m.formOf.short, chosen.form === 'short')}
    </fieldset>
    <fieldset>
      <legend>${m.days}</legend>
      ${EVERY_DAY.map((day) => box('day', String(day), m.dayNames[day - 1] ?? '', chosen.days.includes(day)))}
    </fieldset>
    <label
      >${m.earliest}
      <select name="earliest">
        ${HOURS.map(
          (hour) =>
            html`<option value="${hour}" ${selected(hour === chosen.earliestHour)}>
              ${hour === 0 ? m.atOnce : m.atHour(hour)}
            </option>`,
        )}
      </select></label
    >
    <fieldset>
      <legend>${m.hours}</legend>
      <p class="note">${m.hoursNote}</p>
      ${time('fishFrom', m.from, chosen.fishing?.from)} ${time('fishTo', m.to, chosen.fishing?.to)}
    </fieldset>
    <label
      >${m.language}
      <select name="language">
        <option value="">${m.asTheLake}</option>
        ${LANGUAGES.map(
          (language) =>
            html`<option value="${language}" ${selected(language === chosen.language)}>
              ${nameOfLanguage(language)}
            </option>`,
        )}
      </select></label
    >
    <p>${box('amendments', 'yes', m.amendments, chosen.amendments)}</p>
    <p>${box('asksReading', 'yes', m.asksReading, chosen.asksReading)}</p>
  `;
}

/** Hours as chosen; one end alone is handed on, so that it is refused and not forgotten. */
function readHours(form: FormData): ReaderWishes['fishing'] {
  const [from, to] = ['fishFrom', 'fishTo'].map((name) => {
    const value = form.get(name);
    return typeof value === 'string' ? value : '';
  });
  return from === '' && to === '' ? null : { from: from ?? '', to: to ?? '' };
}

/** Wishes as posted; out-of-range values are refused where they are stored. */
export function readWishes(form: FormData): ReaderWishes {
  const all = (name: string): string[] => form.getAll(name).filter((value) => typeof value === 'string');
  return {
    lakes: [...new Set(all('lake'))],
    units: form.get('units') === 'metric' ? 'metric' : 'us',
    form: form.get('form') === 'short' ? 'short' : 'full',
    days: [...new Set(all('day').map(Number))].sort((a, b) => a - b),
    earliestHour: Number(form.get('earliest') ?? 0),
    amendments: form.get('amendments') === 'yes',
    language: LANGUAGES.find((language) => language === form.get('language')) ?? null,
    fishing: readHours(form),
    asksReading: form.get('asksReading') === 'yes',
  };
}
