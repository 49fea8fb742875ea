import { z } from 'zod';
import { PLACES, SPECIES, WATER_BODIES } from '../../vocabulary/index.ts';
import { clock, direction } from './clock.ts';
import { contradictions } from './contradictions.ts';
import type { FormFault } from './facts.ts';
import { kindOf, readWritten, systemOf, written, type WrittenKind } from './quantity.ts';
import type { UnitSystem } from '../../units/index.ts';

const air = z.strictObject({
  mean24h: written('temperature', 'mean air temperature of the last 24 hours'),
  mean3d: written('temperature', 'mean of the last 3 days'),
  mean7d: written('temperature', 'mean of the last 7 days'),
  yesterday: written('temperature', 'mean of the 24 hours before the last 24'),
  trend3d: written('temperatureRate', 'trend of the last 3 days; minus for cooling'),
  trend7d: written('temperatureRate', 'trend of the last 7 days; minus for cooling'),
  warmingDays: written('days', 'days in a row that warmed; minus for days that cooled'),
  drop24h: written(
    'temperatureDifference',
    'fall of the air temperature in 24 hours behind a front; plus for colder',
  ),
  overnightLow: written('temperature', 'low of last night'),
  now: written('temperature', 'air temperature now'),
  highToday: written('temperature', 'highest air temperature expected today'),
});

const rain = z.strictObject({
  last24h: written('rain', 'rain of the last 24 hours'),
  last72h: written('rain', 'rain of the last 72 hours'),
  last7d: written('rain', 'rain of the last 7 days'),
  temperature: written('temperature', 'temperature of the rain, or of the air while it fell'),
  hoursSince: written('hours', 'hours since the rain ended'),
  clearColdNightSince: z.boolean().describe('whether a clear cold night has passed since').optional(),
  next24h: written('rain', 'rain expected in the next 24 hours'),
});

const level = z.strictObject({
  change6h: written('level', 'level change in 6 hours; minus for falling'),
  change24h: written('level', 'level change in 24 hours'),
  change72h: written('level', 'level change in 72 hours'),
  aboveNormal: written('level', 'level above normal pool; minus for below'),
});

const wind = z.strictObject({
  speed: written('wind', 'mean wind of the fishing day'),
  gust: written('wind', 'strongest gust'),
  fetch: written('length', 'open water upwind'),
});

const water = z.strictObject({
  main: written('temperature', 'main lake, about 3 ft down'),
  change3d: written('temperatureDifference', 'its change over 3 days'),
  change7d: written('temperatureDifference', 'its change over 7 days'),
  pocket: written('temperature', 'warmest inflow pocket, surface, at its best hour'),
  clarity: z
    .union([z.string(), z.number()])
    .describe('depth at which a white disc disappears, e.g. "4 ft", or clear, stained, muddy')
    .optional(),
  bottomOxygen: written('oxygen', 'oxygen near the bottom'),
});

const flow = z.strictObject({
  generation: z
    .union([z.enum(['on', 'off']), z.boolean()])
    .describe('water released through turbines')
    .optional(),
  current: written('current', 'surface current'),
  dischargeRatio: written('ratio', 'river flow against its usual flow'),
  discharge: written(
    'flow',
    'flow of the river, or of the turbines that run; with width and depth it gives the current',
  ),
  width: written('length', 'width of the running water'),
  depth: written('length', 'its mean depth'),
});

const releases = z.union([z.enum(['on', 'off']), z.boolean()]);

const hour = z.strictObject({
  at: clock.describe('local time from which this holds, e.g. "05:00"'),
  air: written('temperature', 'air temperature'),
  cloud: z.union([z.string(), z.number()]).describe('cloud in %, or clear, partly, overcast').optional(),
  wind: written('wind', 'wind'),
  windFrom: direction.optional(),
  gust: written('wind', 'gusts'),
  rain: written('rain', 'rain of each hour'),
  thunder: written('percent', 'chance of thunder'),
  pocket: written('temperature', 'warmest inflow pocket, surface'),
  generation: releases.describe('water released through turbines').optional(),
});

const fishing = z.strictObject({
  from: clock.describe('local time you begin, e.g. "05:30"'),
  to: clock.describe('local time you are off the water, e.g. "19:00"'),
});

const sun = z.strictObject({
  dawn: clock.describe('civil dawn').optional(),
  rise: clock.describe('sunrise').optional(),
  noon: clock.describe('when the sun stands highest; left out: between rise and set, else 12:00').optional(),
  set: clock.describe('sunset').optional(),
  dusk: clock.describe('civil dusk').optional(),
});

const placeId = z.enum(PLACES);
const places = z.union([
  z.array(placeId).min(1, 'expected at least one place'),
  z.strictObject({
    has: z.array(placeId).optional(),
    hasNot: z.array(placeId).optional(),
    faces: z.partialRecord(placeId, direction).optional(),
  }),
]);

const shape = {
  schema: z.literal('thawline-conditions/1').describe('version of this form').optional(),
  units: z
    .enum(['us', 'metric'])
    .describe('units of numbers written without one, and of the answer')
    .optional(),
  date: z.iso.date().describe('local date, e.g. 2026-03-06').optional(),
  time: z
    .enum(['dawn', 'morning', 'midday', 'afternoon', 'evening', 'dusk', 'night'])
    .describe('time of day')
    .optional(),
  latitude: written('latitude', 'latitude, degrees north'),
  species: z.enum(SPECIES).describe('bass looked for').optional(),
  waterBody: z.enum(WATER_BODIES).describe('kind of water').optional(),
  bank: z
    .union([z.string(), z.number()])
    .describe('slope of the banks, e.g. "30 deg", or gentle, medium, steep')
    .optional(),
  sky: z
    .union([z.string(), z.number()])
    .describe('clear, partly, overcast, or cloud in %, e.g. "60 %"')
    .optional(),
  thunder: written('percent', 'chance of thunder today'),
  air: air.optional(),
  rain: rain.optional(),
  level: level.optional(),
  wind: wind.optional(),
  water: water.optional(),
  flow: flow.optional(),
  layer: z
    .strictObject({ depth: written('length', 'depth of the layer that warm and cold water meet at') })
    .optional(),
  oxygenDepth: written('length', 'depth below which the water holds too little oxygen'),
  places: places
    .describe('kinds of place this water has: a list for exactly these, or what it has and has not besides')
    .optional(),
  fishing: fishing.optional(),
  sun: sun.optional(),
  hours: z
    .array(hour)
    .min(1, 'expected at least one hour')
    .describe('the day by the hour; each field holds until a later hour gives it anew')
    .optional(),
};

/** One given hour of the day. */
export type HourForm = z.infer<typeof hour>;

/** Quantity fields of an hour, with their kind. */
const HOUR_KINDS: ReadonlyMap<string, WrittenKind> = new Map(
  Object.entries(hour.shape as Record<string, z.ZodType>).flatMap(
    ([name, schema]): [string, WrittenKind][] => {
      const kind = name === 'cloud' ? 'percent' : kindOf(schema);
      return kind === undefined ? [] : [[name, kind]];
    },
  ),
);

/** Fields that take a word or a quantity: their words, and the kind of the quantity. */
const WORD_OR_QUANTITY: Readonly<Record<string, { kind: WrittenKind; words: readonly string[] }>> = {
  bank: { kind: 'angle', words: ['gentle', 'medium', 'steep'] },
  sky: { kind: 'percent', words: ['clear', 'partly', 'overcast'] },
  'water.clarity': { kind: 'length', words: ['clear', 'stained', 'muddy'] },
};

/** Every quantity field by its dotted name, with its kind. */
export const FIELD_KINDS: ReadonlyMap<string, WrittenKind> = new Map(
  Object.entries(shape).flatMap(([name, schema]): [string, WrittenKind][] => {
    const own = kindOf(schema) ?? WORD_OR_QUANTITY[name]?.kind;
    if (own !== undefined) return [[name, own]];
    const inner = schema.def.innerType;
    if (!(inner instanceof z.ZodObject)) return [];
    return Object.entries(inner.shape as Record<string, z.ZodType>).flatMap(([key, field]) => {
      const kind = kindOf(field) ?? WORD_OR_QUANTITY[`${name}.${key}`]?.kind;
      return kind === undefined ? [] : [[`${name}.${key}`, kind] satisfies [string, WrittenKind]];
    });
  }),
);

/** Value of a dotted field. */
export function fieldOf(form: unknown, field: string): unknown {
  return field
    .split('.')
    .reduce<unknown>((node, key) => (node as Record<string, unknown> | undefined)?.[key], form);
}

/**
 * The conditions form, `thawline-conditions/1`: any subset of the fields; a field that is absent is unknown.
 * Quantities carry a unit, or are bare numbers in the file's `units`.
 */
export const whatIfSchema = z.strictObject(shape).superRefine((form, context) => {
  for (const [field, kind] of FIELD_KINDS) {
    const value = fieldOf(form, field);
    if (typeof value !== 'string' && typeof value !== 'number') continue;
    const words = WORD_OR_QUANTITY[field]?.words ?? [];
    if (words.includes(String(value))) continue;
    const read = readWritten(value, kind, form.units);
    if ('problem' in read) {
      const message = words.length > 0 ? `${read.problem}; or one of ${words.join(', ')}` : read.problem;
      const fault: FormFault = words.length > 0 ? { ...read.fault, words } : read.fault;
      context.addIssue({ code: 'custom', path: field.split('.'), message, params: { fault } });
    }
  }
  for (const [index, entry] of (form.hours ?? []).entries()) {
    for (const [field, kind] of HOUR_KINDS) {
      const value = fieldOf(entry, field);
      if (typeof value !== 'string' && typeof value !== 'number') continue;
      if (field === 'cloud' && ['clear', 'partly', 'overcast'].includes(String(value))) continue;
      const read = readWritten(value, kind, form.units);
      if ('problem' in read) {
        const { problem: message, fault } = read;
        context.addIssue({ code: 'custom', path: ['hours', index, field], message, params: { fault } });
      }
    }
  }
  for (const { path, message, fault } of contradictions(form)) {
    context.addIssue({ code: 'custom', path: [...path], message, params: { fault } });
  }
});

/** What the form's own checks found wrong, as a code; null of what the schema itself refused. */
export const faultOf = (issue: z.core.$ZodIssue): FormFault | null =>
  // Whoever adds an issue above gives its fault, and nobody else adds one.
  issue.code === 'custom' ? ((issue.params?.['fault'] as FormFault | undefined) ?? null) : null;

export type WhatIfForm = z.infer<typeof whatIfSchema>;

/** Units to answer a form in: those it asks for, else those that all of its quantities are written in, else US. */
export function unitsOfAnswer(form: WhatIfForm): UnitSystem {
  if (form.units !== undefined) return form.units;
  const given = (node: unknown, kinds: ReadonlyMap<string, WrittenKind>): (UnitSystem | undefined)[] =>
    [...kinds].map(([field, kind]) => {
      const value = fieldOf(node, field);
      return typeof value === 'string' || typeof value === 'number' ? systemOf(value, kind) : undefined;
    });
  const systems = new Set([
    ...given(form, FIELD_KINDS),
    ...(form.hours ?? []).flatMap((entry) => given(entry, HOUR_KINDS)),
  ]);
  return systems.has('metric') && !systems.has('us') ? 'metric' : 'us';
}
