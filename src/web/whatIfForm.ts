import { html } from 'hono/html';
import type { z } from 'zod';
import { faultOf, whatIfSchema, type WhatIfForm } from '../advice/whatIf/index.ts';
import { item } from '../units/index.ts';
import { idsOf, SPECIES, WATER_BODIES } from '../vocabulary/index.ts';
import { saidProblem, type FormRefusal, type Words } from '../words/index.ts';
import type { Markup } from './page.ts';
import { cellWords, HOUR_NAMES, hourTable, writtenHours, type Given } from './whatIfHours.ts';

type FormWords = Words['whatIf']['form'];
type ChoiceName = keyof FormWords['choice'];

/** A quantity of the form: dotted field of the conditions, unit and span of its slider. */
interface QuantityField {
  readonly name: keyof FormWords['quantity'];
  readonly unit: string;
  readonly low: number;
  readonly high: number;
  readonly step: number;
  readonly start: number;
}

const QUANTITIES: readonly {
  readonly group: 'water' | 'weather';
  readonly fields: readonly QuantityField[];
}[] = [
  {
    group: 'water',
    fields: [
      {
        name: 'water.main',
        unit: 'F',
        low: 34,
        high: 92,
        step: 1,
        start: 50,
      },
      {
        name: 'water.change3d',
        unit: 'F',
        low: -8,
        high: 8,
        step: 0.5,
        start: 0,
      },
      {
        name: 'water.pocket',
        unit: 'F',
        low: 34,
        high: 92,
        step: 1,
        start: 50,
      },
      {
        name: 'water.clarity',
        unit: 'ft',
        low: 0.5,
        high: 20,
        step: 0.5,
        start: 4,
      },
      {
        name: 'level.change24h',
        unit: 'ft',
        low: -4,
        high: 4,
        step: 0.1,
        start: 0,
      },
    ],
  },
  {
    group: 'weather',
    fields: [
      {
        name: 'air.mean24h',
        unit: 'F',
        low: 10,
        high: 100,
        step: 1,
        start: 50,
      },
      {
        name: 'air.drop24h',
        unit: 'F',
        low: 0,
        high: 40,
        step: 1,
        start: 0,
      },
      {
        name: 'rain.last24h',
        unit: 'in',
        low: 0,
        high: 5,
        step: 0.1,
        start: 0,
      },
      {
        name: 'rain.temperature',
        unit: 'F',
        low: 33,
        high: 80,
        step: 1,
        start: 50,
      },
      { name: 'wind.speed', unit: 'mph', low: 0, high: 40, step: 1, start: 5 },
    ],
  },
];

const CHOICES = {
  sky: ['clear', 'partly', 'overcast'],
  time: ['dawn', 'morning', 'midday', 'afternoon', 'dusk', 'night'],
  bank: ['gentle', 'medium', 'steep'],
  'flow.generation': ['on', 'off'],
  species: SPECIES,
  waterBody: WATER_BODIES,
} as const satisfies { readonly [name in ChoiceName]: readonly (keyof FormWords['valueOf'][name])[] };
const CHOICE_NAMES = idsOf(CHOICES);

const NAMES: readonly string[] = [
  'units',
  'date',
  'latitude',
  ...QUANTITIES.flatMap(({ fields }) => fields.map(({ name }) => name)),
  ...CHOICE_NAMES,
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

/** What a field of the form is called. */
function calledOf(
  given: Given,
  columns: readonly number[],
  path: readonly PropertyKey[],
  words: Words,
): string {
  const { form, hours } = words.whatIf;
  const [field, index, cell] = path;
  if (field === 'hours' && typeof index === 'number')
    return cellWords(given, item(columns, index), typeof cell === 'string' ? cell : undefined, hours);
  const name = path.join('.');
  const names: Readonly<Record<string, string>> = {
    ...form.quantity,
    ...form.choice,
    date: form.date,
    latitude: form.latitude,
    units: form.unitsOfAnswer,
    'fishing.from': hours.begin,
    'fishing.to': hours.end,
  };
  return names[name] ?? name;
}

/** Fields whose own schema says no more than that it does not match. */
const REFUSED: Readonly<Record<string, FormRefusal>> = {
  date: { code: 'notDate' },
  at: { code: 'notTime' },
  from: { code: 'notTime' },
  to: { code: 'notTime' },
  windFrom: { code: 'notDirection' },
  generation: { code: 'notOneOf', values: CHOICES['flow.generation'] },
};

/** What is wrong with a field: the form's own checks say it, else its schema. */
function refusalOf(issue: z.core.$ZodIssue): Parameters<typeof saidProblem>[1] {
  if (issue.code === 'invalid_value') return { code: 'notOneOf', values: issue.values.map(String) };
  return faultOf(issue) ?? REFUSED[String(issue.path.at(-1))] ?? { code: 'unread' };
}

/** The conditions form that the fields make, or what is wrong with them. */
export function conditionsForm(
  given: Given,
  words: Words,
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
  return {
    problems: parsed.error.issues.map((issue) =>
      saidProblem(calledOf(given, columns, issue.path, words), refusalOf(issue), words),
    ),
  };
}

const quantityInput = (f: QuantityField, value: string, w: FormWords): Markup => html`
  <label
    >${w.quantity[f.name]}
    <input
      type="text"
      name="${f.name}"
      value="${value}"
      placeholder="${w.example(`${f.start} ${f.unit}`)}"
      data-low="${f.low}"
      data-high="${f.high}"
      data-step="${f.step}"
      data-start="${f.start}"
      data-unit="${f.unit}"
      data-name="${w.quantity[f.name]}"
  /></label>
`;

const choice = (name: ChoiceName, chosen: string, w: FormWords): Markup => {
  const called: Readonly<Record<string, string>> = w.valueOf[name];
  return html`
    <label
      >${w.choice[name]}
      <select name="${name}">
        <option value="">${w.unknown}</option>
        ${CHOICES[name].map(
          (value) =>
            html`<option value="${value}" ${value === chosen ? 'selected' : ''}>
              ${called[value] ?? value}
            </option>`,
        )}
      </select></label
    >
  `;
};

/** The form itself: sent as a GET, so that an answer has an address and nothing is changed by asking. */
export const whatIfFields = (given: Given, { whatIf, web }: Words): Markup => {
  const w = whatIf.form;
  const { unitsOf } = web.wishes;
  return html`
    <form method="get" action="/what-if" data-live>
      <label
        >${w.unitsOfAnswer}
        <select name="units">
          <option value="us" ${given['units'] === 'metric' ? '' : 'selected'}>${unitsOf.us}</option>
          <option value="metric" ${given['units'] === 'metric' ? 'selected' : ''}>${unitsOf.metric}</option>
        </select></label
      >
      ${QUANTITIES.map(
        ({ group, fields }) =>
          html`<fieldset>
            <legend>${w.group[group]}</legend>
            ${fields.map((f) => quantityInput(f, given[f.name] ?? '', w))}
          </fieldset>`,
      )}
      <fieldset>
        <legend>${w.group.place}</legend>
        <label>${w.date} <input type="date" name="date" value="${given['date'] ?? ''}" /></label>
        <label
          >${w.latitude}
          <input
            type="text"
            name="latitude"
            value="${given['latitude'] ?? ''}"
            placeholder="${w.example('36')}"
        /></label>
        ${CHOICE_NAMES.map((name) => choice(name, given[name] ?? '', w))}
      </fieldset>
      ${hourTable(given, whatIf.hours)}
      <p><button>${w.show}</button></p>
    </form>
  `;
};
