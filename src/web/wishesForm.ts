import { html } from 'hono/html';
import type { LakeConfig } from '../config/types.ts';
import { DEFAULT_WISHES, EVERY_DAY, type ReaderWishes } from '../delivery/index.ts';
import { LANGUAGES, type Language } from '../vocabulary/index.ts';
import type { Markup } from './page.ts';

const DAY_NAMES = ['Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday', 'Sunday'];
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
export function wishesFields(lakes: readonly LakeConfig[], wishes?: ReaderWishes): Markup {
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
        <option value="">open</option>
        ${HALF_HOURS.map((at) => html`<option value="${at}" ${selected(at === is)}>${at}</option>`)}
      </select></label
    >`;
  const radio = (name: string, value: string, words: string, is: boolean): Markup =>
    html`<label class="inline"
      ><input type="radio" name="${name}" value="${value}" ${checked(is)} /> ${words}</label
    >`;
  return html`
    <fieldset>
      <legend>Lakes</legend>
      ${lakes.map((lake) => box('lake', lake.id, lake.name, chosen.lakes.includes(lake.id)))}
    </fieldset>
    <fieldset>
      <legend>Units</legend>
      ${radio('units', 'us', 'feet and °F', chosen.units === 'us')}
      ${radio('units', 'metric', 'metres and °C', chosen.units === 'metric')}
    </fieldset>
    <fieldset>
      <legend>Form</legend>
      ${radio('form', 'full', 'full page', chosen.form === 'full')}
      ${radio('form', 'short', 'short text', chosen.form === 'short')}
    </fieldset>
    <fieldset>
      <legend>Days</legend>
      ${EVERY_DAY.map((day) => box('day', String(day), DAY_NAMES[day - 1] ?? '', chosen.days.includes(day)))}
    </fieldset>
    <label
      >Not before
      <select name="earliest">
        ${HOURS.map(
          (hour) =>
            html`<option value="${hour}" ${selected(hour === chosen.earliestHour)}>
              ${hour === 0 ? 'as soon as it is out' : `${hour}:00 at the lake`}
            </option>`,
        )}
      </select></label
    >
    <fieldset>
      <legend>Hours you fish</legend>
      <p class="note">
        The plan of the day is made for these hours at the lake. Leave both open for the whole light of the
        day.
      </p>
      ${time('fishFrom', 'from', chosen.fishing?.from)} ${time('fishTo', 'to', chosen.fishing?.to)}
    </fieldset>
    <label
      >Language
      <select name="language">
        <option value="">as the lake has it</option>
        ${LANGUAGES.map(
          (language) =>
            html`<option value="${language}" ${selected(language === chosen.language)}>
              ${nameOfLanguage(language)}
            </option>`,
        )}
      </select></label
    >
    <p>
      ${box('amendments', 'yes', 'also send amendments when the danger level or the first choice changes', chosen.amendments)}
    </p>
    <p>
      ${box('asksReading', 'yes', 'ask me for a reading of the water at the top of the mail', chosen.asksReading)}
    </p>
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
