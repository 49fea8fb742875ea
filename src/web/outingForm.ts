import { html } from 'hono/html';
import type { LakeConfig } from '../config/index.ts';
import { PATHS } from '../delivery/index.ts';
import { kindsOf, namedPlaces, UNTOLD, type WrittenOuting } from '../outings/index.ts';
import { readNumber, type UnitSystem } from '../units/index.ts';
import { LURES, PLACE } from '../vocabulary/index.ts';
import type { Words } from '../words/index.ts';
import { field } from './forms.ts';
import type { Names } from './names.ts';
import type { Markup } from './page.ts';

/** What a form holds: fields as typed, numbers apart from their units. */
export interface OutingFields {
  readonly written: WrittenOuting;
  /** As they stood in their boxes, to be shown again. */
  readonly boxes: Readonly<Record<'biggest' | 'biggestUnit' | 'water' | 'depth' | 'clarity', string>>;
  readonly units: UnitSystem;
  /** The reader has looked at the water again and says that it is right. */
  readonly sure: boolean;
}

const UNITS = {
  us: { water: '°F', length: 'ft', biggest: ['lb', 'in'] },
  metric: { water: '°C', length: 'm', biggest: ['kg', 'cm'] },
} as const;
const BIGGEST_UNITS = [...UNITS.us.biggest, ...UNITS.metric.biggest];

export const emptyFields = (units: UnitSystem, date: string, shared: boolean): OutingFields => ({
  written: { ...UNTOLD, date, shared },
  boxes: { biggest: '', biggestUnit: UNITS[units].biggest[0], water: '', depth: '', clarity: '' },
  units,
  sure: false,
});

/** A form as posted. A decimal comma is taken for a point: telephones of half the world have no other key. */
export function readFields(data: FormData): OutingFields {
  const units = field(data, 'units') === 'metric' ? 'metric' : 'us';
  const number = (name: string): string =>
    field(data, name)
      .trim()
      .replace(/^(\d+),(\d+)(?![\d,.])/, '$1.$2');
  const all = (name: string): string[] => data.getAll(name).filter((value) => typeof value === 'string');
  const biggestUnit =
    BIGGEST_UNITS.find((unit) => unit === field(data, 'biggestUnit')) ?? UNITS[units].biggest[0];
  const boxes = {
    biggest: number('biggest'),
    biggestUnit,
    water: number('water'),
    depth: number('depth'),
    clarity: number('clarity'),
  };
  // Who writes a unit behind the number means that one, whatever stands beside the box.
  const withUnit = (value: string, unit: string): string =>
    value === '' || readNumber(value)?.unit != null ? value : `${value} ${unit}`;
  const more = number('fishMore');
  return {
    written: {
      date: field(data, 'date'),
      from: field(data, 'from'),
      to: field(data, 'to'),
      hours: number('hours'),
      places: all('place'),
      lures: all('lure'),
      bites: number('bites'),
      fish: more === '' ? field(data, 'fish') : more,
      biggest: withUnit(boxes.biggest, biggestUnit),
      water: withUnit(boxes.water, UNITS[units].water),
      depth: withUnit(boxes.depth, UNITS[units].length),
      clarity: withUnit(boxes.clarity, UNITS[units].length),
      plan: field(data, 'plan'),
      note: field(data, 'note'),
      shared: field(data, 'shared') === 'yes',
    },
    boxes,
    units,
    sure: field(data, 'sure') === 'yes',
  };
}

const on = (is: boolean, word: 'checked' | 'selected' | 'open'): string => (is ? word : '');
const FISH = ['0', '1', '2', '3', '4', '5'];

export interface FormOf {
  readonly lake: LakeConfig;
  readonly token: string;
  readonly today: string;
  /** When the page was made, epoch ms: one that a telephone kept for days asks about another today. */
  readonly made: number;
  readonly names: Names;
  readonly words: Words['outingPage']['form'];
  /** What speaks against the water, to be confirmed. */
  readonly asks?: boolean;
}

/** The one-minute form: what counts first, with fields a thumb can hit; the rest behind a fold. */
export function outingForm(
  { written, boxes, units, sure }: OutingFields,
  { lake, token, today, made, names, words: w, asks = false }: FormOf,
): Markup {
  const chip = (
    type: 'checkbox' | 'radio',
    name: string,
    value: string,
    words: string,
    is: boolean,
  ): Markup =>
    html`<label class="chip"
      ><input type="${type}" name="${name}" value="${value}" ${on(is, 'checked')} /><span
        >${words}</span
      ></label
    >`;
  const place = (value: string, words: string): Markup =>
    chip('checkbox', 'place', value, words, written.places.includes(value));
  const kinds = kindsOf(lake);
  const usual = kinds.filter((kind) => PLACE[kind].on[lake.waterBody] === 'usual');
  const others = kinds.filter((kind) => !usual.includes(kind));
  const unit = UNITS[units];
  const number = (name: string, words: string, value: string, mode: 'numeric' | 'decimal'): Markup =>
    html`<label
      >${words}
      <input
        type="text"
        name="${name}"
        value="${value}"
        inputmode="${mode}"
        autocomplete="off"
        maxlength="12"
    /></label>`;
  const hasMore =
    written.lures.length > 0 ||
    written.plan !== '' ||
    written.note !== '' ||
    written.bites !== '' ||
    Object.entries(boxes).some(([name, value]) => name !== 'biggestUnit' && value !== '');
  return html`
    <form method="post" action="${PATHS.outing}" data-outing data-made="${made}">
      <input type="hidden" name="t" value="${token}" />
      <input type="hidden" name="lake" value="${lake.id}" />
      <input type="hidden" name="units" value="${units}" />
      <fieldset>
        <legend>${w.when}</legend>
        <label
          >${w.day} <input type="date" name="date" value="${written.date}" max="${today}" required
        /></label>
        <div class="pair">
          <label>${w.from} <input type="time" name="from" value="${written.from}" /></label>
          <label>${w.until} <input type="time" name="to" value="${written.to}" /></label>
        </div>
        ${number('hours', w.hours, written.hours, 'decimal')}
      </fieldset>
      <fieldset>
        <legend>${w.landed}</legend>
        <p class="note">${w.landedNote}</p>
        <div class="chips">
          ${FISH.map((count) => chip('radio', 'fish', count, count === '0' ? w.none : count, written.fish === count))}
        </div>
        ${number('fishMore', w.orMore, FISH.includes(written.fish) ? '' : written.fish, 'numeric')}
      </fieldset>
      <fieldset>
        <legend>${w.where}</legend>
        <p class="note">${w.whereNote}</p>
        <div class="chips">
          ${namedPlaces(lake).map(({ name = '' }) => place(name, name))}
          ${usual.map((kind) => place(kind, names.place(kind)))}
        </div>
        ${
          others.length === 0
            ? ''
            : html`<details
                ${on(
                  others.some((kind) => written.places.includes(kind)),
                  'open',
                )}
              >
                <summary>${w.otherKinds}</summary>
                <div class="chips">${others.map((kind) => place(kind, names.place(kind)))}</div>
              </details>`
        }
      </fieldset>
      <details ${on(hasMore || asks, 'open')}>
        <summary>${w.more}</summary>
        <fieldset>
          <legend>${w.lures}</legend>
          <div class="chips">
            ${LURES.map((lure) => chip('checkbox', 'lure', lure, names.lure(lure), written.lures.includes(lure)))}
          </div>
        </fieldset>
        <fieldset>
          <legend>${w.water}</legend>
          <p class="note">${w.waterNote}</p>
          ${number('water', w.temperature(unit.water), boxes.water, 'decimal')}
          ${number('depth', w.depth(unit.length), boxes.depth, 'decimal')}
          ${number('clarity', w.clarity(unit.length), boxes.clarity, 'decimal')}
          ${
            asks
              ? html`<label
                  ><input type="checkbox" name="sure" value="yes" ${on(sure, 'checked')} /> ${w.sure}</label
                >`
              : ''
          }
        </fieldset>
        <fieldset>
          <legend>${w.fish}</legend>
          ${number('bites', w.bites, written.bites, 'numeric')}
          ${number('biggest', w.biggest, boxes.biggest, 'decimal')}
          <label
            >${w.biggestIn}
            <select name="biggestUnit">
              ${BIGGEST_UNITS.map(
                (one) =>
                  html`<option value="${one}" ${on(one === boxes.biggestUnit, 'selected')}>${one}</option>`,
              )}
            </select></label
          >
        </fieldset>
        <fieldset>
          <legend>${w.plan}</legend>
          <div class="chips">
            ${chip('radio', 'plan', '', w.planOf[''], written.plan === '')}
            ${chip('radio', 'plan', 'followed', w.planOf.followed, written.plan === 'followed')}
            ${chip('radio', 'plan', 'elsewhere', w.planOf.elsewhere, written.plan === 'elsewhere')}
          </div>
        </fieldset>
        <label
          >${w.note}
          <input type="text" name="note" value="${written.note}" maxlength="1000" autocomplete="off"
        /></label>
      </details>
      <p>
        <label
          ><input type="checkbox" name="shared" value="yes" ${on(written.shared, 'checked')} />
          ${w.shared(lake.name)}</label
        >
      </p>
      <button>${w.send}</button>
      <p role="status" data-outing-status></p>
    </form>
  `;
}
