import { html } from 'hono/html';
import { whatIfSchema, type WhatIfForm } from '../advice/whatIf/index.ts';
import { SPECIES, WATER_BODIES } from '../signals/types.ts';
import type { Markup } from './page.ts';
import { cellWords, HOUR_NAMES, hourTable, writtenHours } from './whatIfHours.ts';

/** A quantity of the form: dotted field of the conditions, words, unit and span of its slider. */
interface QuantityField {
  readonly name: string;
  readonly words: string;
  readonly unit: string;
  readonly low: number;
  readonly high: number;
  readonly step: number;
  readonly start: number;
}

const QUANTITIES: readonly { readonly group: string; readonly fields: readonly QuantityField[] }[] = [
  {
    group: 'Water',
    fields: [
      {
        name: 'water.main',
        words: 'Main lake, about 3 ft down',
        unit: 'F',
        low: 34,
        high: 92,
        step: 1,
        start: 50,
      },
      {
        name: 'water.change3d',
        words: 'Its change over 3 days',
        unit: 'F',
        low: -8,
        high: 8,
        step: 0.5,
        start: 0,
      },
      {
        name: 'water.pocket',
        words: 'Warmest inflow pocket',
        unit: 'F',
        low: 34,
        high: 92,
        step: 1,
        start: 50,
      },
      {
        name: 'water.clarity',
        words: 'A white disc disappears at',
        unit: 'ft',
        low: 0.5,
        high: 20,
        step: 0.5,
        start: 4,
      },
      {
        name: 'level.change24h',
        words: 'Level, change in 24 hours',
        unit: 'ft',
        low: -4,
        high: 4,
        step: 0.1,
        start: 0,
      },
    ],
  },
  {
    group: 'Weather',
    fields: [
      {
        name: 'air.mean24h',
        words: 'Mean air of the last 24 hours',
        unit: 'F',
        low: 10,
        high: 100,
        step: 1,
        start: 50,
      },
      {
        name: 'air.drop24h',
        words: 'Fall of the air behind a front',
        unit: 'F',
        low: 0,
        high: 40,
        step: 1,
        start: 0,
      },
      {
        name: 'rain.last24h',
        words: 'Rain of the last 24 hours',
        unit: 'in',
        low: 0,
        high: 5,
        step: 0.1,
        start: 0,
      },
      {
        name: 'rain.temperature',
        words: 'Temperature of the rain',
        unit: 'F',
        low: 33,
        high: 80,
        step: 1,
        start: 50,
      },
      { name: 'wind.speed', words: 'Mean wind of the day', unit: 'mph', low: 0, high: 40, step: 1, start: 5 },
    ],
  },
];

const CHOICES: readonly {
  readonly name: string;
  readonly words: string;
  readonly values: readonly string[];
}[] = [
  { name: 'sky', words: 'Sky', values: ['clear', 'partly', 'overcast'] },
  { name: 'time', words: 'Time of day', values: ['dawn', 'morning', 'midday', 'afternoon', 'dusk', 'night'] },
  { name: 'bank', words: 'Banks', values: ['gentle', 'medium', 'steep'] },
  { name: 'flow.generation', words: 'Water through the turbines', values: ['on', 'off'] },
  { name: 'species', words: 'Bass looked for', values: SPECIES },
  { name: 'waterBody', words: 'Kind of water', values: WATER_BODIES },
];

const NAMES: readonly string[] = [
  'units',
  'date',
  'latitude',
  ...QUANTITIES.flatMap(({ fields }) => fields.map(({ name }) => name)),
  ...CHOICES.map(({ name }) => name),
  ...HOUR_NAMES,
  'fishing.from',
  'fishing.to',
];

/** What the address or the form said: field -> text; only fields that the form has, none that is empty. */
export function givenFields(query: Readonly<Record<string, string>>): Record<string, string> {
  return Object.fromEntries(
    NAMES.flatMap((name) => {
      const text = (query[name] ?? '').trim().slice(0, 40);
      return text === '' ? [] : [[name, text]];
    }),
  );
}

/** The conditions form that the fields make, or what is wrong with them. */
export function conditionsForm(
  given: Readonly<Record<string, string>>,
): { readonly form: WhatIfForm } | { readonly problems: readonly string[] } {
  const nested: Record<string, unknown> = {};
  const { hours, columns } = writtenHours(given);
  if (hours.length > 0) nested['hours'] = hours;
  for (const [name, text] of Object.entries({ units: 'us', ...given })) {
    if (HOUR_NAMES.includes(name)) continue;
    const [outer = '', inner] = name.split('.');
    if (inner === undefined) nested[outer] = text;
    else nested[outer] = { ...(nested[outer] as object | undefined), [inner]: text };
  }
  const parsed = whatIfSchema.safeParse(nested);
  if (parsed.success) return { form: parsed.data };
  const words = new Map(QUANTITIES.flatMap(({ fields }) => fields.map((f) => [f.name, f.words] as const)));
  return {
    problems: parsed.error.issues.map(({ path, message }) => {
      const name = path.join('.');
      const [field, index, cell] = path;
      const told =
        field === 'hours' && typeof index === 'number'
          ? cellWords(given, columns[index] ?? 0, typeof cell === 'string' ? cell : undefined)
          : (words.get(name) ?? name);
      return `${told}: ${message}.`;
    }),
  };
}

const quantityInput = (f: QuantityField, value: string): Markup => html`
  <label
    >${f.words}
    <input
      type="text"
      name="${f.name}"
      value="${value}"
      placeholder="unknown, or for example ${f.start} ${f.unit}"
      data-low="${f.low}"
      data-high="${f.high}"
      data-step="${f.step}"
      data-start="${f.start}"
      data-unit="${f.unit}"
      data-name="${f.words}"
  /></label>
`;

const choice = (name: string, words: string, values: readonly string[], chosen: string): Markup => html`
  <label
    >${words}
    <select name="${name}">
      <option value="">unknown</option>
      ${values.map(
        (value) =>
          html`<option value="${value}" ${value === chosen ? 'selected' : ''}>
            ${value.replaceAll('-', ' ')}
          </option>`,
      )}
    </select></label
  >
`;

/** The form itself: sent as a GET, so that an answer has an address and nothing is changed by asking. */
export const whatIfFields = (given: Readonly<Record<string, string>>): Markup => html`
  <form method="get" action="/what-if" data-live>
    <label
      >Units of the answer
      <select name="units">
        <option value="us" ${given['units'] === 'metric' ? '' : 'selected'}>feet and °F</option>
        <option value="metric" ${given['units'] === 'metric' ? 'selected' : ''}>metres and °C</option>
      </select></label
    >
    ${QUANTITIES.map(
      ({ group, fields }) =>
        html`<fieldset>
          <legend>${group}</legend>
          ${fields.map((f) => quantityInput(f, given[f.name] ?? ''))}
        </fieldset>`,
    )}
    <fieldset>
      <legend>Place and day</legend>
      <label>Date <input type="date" name="date" value="${given['date'] ?? ''}" /></label>
      <label
        >Latitude, degrees north
        <input
          type="text"
          name="latitude"
          value="${given['latitude'] ?? ''}"
          placeholder="unknown, or for example 36"
      /></label>
      ${CHOICES.map(({ name, words, values }) => choice(name, words, values, given[name] ?? ''))}
    </fieldset>
    ${hourTable(given)}
    <p><button>Show what that means</button></p>
  </form>
`;
