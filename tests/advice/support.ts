import { readFileSync } from 'node:fs';
import { parse, stringify } from 'yaml';
import { advise, type AdviceOptions } from '../../src/advice/index.ts';
import type { Advice } from '../../src/advice/types.ts';
import { understand, whatIfSchema } from '../../src/advice/whatIf/index.ts';
import { parseYaml } from '../../src/config/index.ts';
import { loadRules } from '../../src/config/rules.ts';
import type { Conditions, Figure, SignalId } from '../../src/signals/types.ts';
import { PLACE, type PlaceId, type WaterBody } from '../../src/vocabulary/index.ts';
import { sayAdvice, type AdviceInWords } from '../../src/words/index.ts';

export const rules = loadRules();
export const TACKLE: AdviceOptions['tackle'] = { reels: [], linesKg: [], castLengthM: 22.9 };

export type Form = Record<string, unknown>;

export interface Scenario {
  readonly id: string;
  readonly why: string;
  readonly conditions: Form;
  readonly first?: readonly string[];
  readonly top3?: readonly string[];
  readonly low?: readonly string[];
  readonly phase?: readonly string[];
}

export interface Contrast {
  readonly a: string;
  readonly b: string;
  readonly up: readonly string[];
  readonly down: readonly string[];
  readonly why: string;
}

const file = new URL('../../fixtures/advice/scenarios.yaml', import.meta.url);
export const table = parse(readFileSync(file, 'utf8'), { merge: true }) as {
  scenarios: Scenario[];
  contrasts: Contrast[];
};

export const figureOf = (value: number, kind: Figure['kind']): Figure => ({
  value,
  kind,
  asOfMs: 0,
  freshness: 'fresh',
  source: { code: 'configuration' },
});

/** A day before the spawn on a cold lake, on which nothing changes. */
export const COLD_DAY = {
  waterC: 8.5,
  waterChange7dC: 0.5,
  waterChange3dC: 0,
  dayLengthH: 11.4,
  dayLengthChangeHPerWeek: 0.25,
  warmingDays: 0,
  airTrend3dCPerDay: 0,
  airDrop24hC: 0,
  windMs: 3,
  cloudPct: 40,
} satisfies Partial<Record<SignalId, number>>;

/** Conditions of a day from bare numbers, fresh and without intervals. */
export function dayOf(
  signals: Partial<Record<SignalId, number>>,
  kind: Figure['kind'],
  asOf: string,
): Conditions {
  return {
    asOfMs: Date.parse(asOf),
    date: asOf.slice(0, 10),
    zone: 'America/Chicago',
    species: 'mixed',
    waterBody: 'highland-reservoir',
    signals: Object.fromEntries(Object.entries(signals).map(([id, value]) => [id, figureOf(value, kind)])),
    gaps: [],
  };
}

/** Conditions from a form as a reader would write it. */
export function conditionsOf(form: Form) {
  return understand(parseYaml(stringify(form), 'test', whatIfSchema)).conditions;
}

/** Kinds of place that can only be known by who is there; what grows, floats or runs has tests of its own. */
const DECLARED: readonly PlaceId[] = [
  'main_lake_basin',
  'bluff',
  'main_point',
  'secondary_point',
  'creek_arm',
  'hump',
  'riprap',
  'dock',
  'standing_timber',
  'brush',
];

/** The waters of the scenarios have what such a water may have of them, so that the rules of all can be told apart. */
export const hasOn = (water: WaterBody): PlaceId[] =>
  DECLARED.filter((place) => PLACE[place].on[water] !== 'never');

export const adviceFor = (form: Form): Advice => {
  const conditions = conditionsOf(form);
  return advise(conditions, rules, { tackle: TACKLE, places: { has: hasOn(conditions.waterBody) } });
};

/** The advice as readers get it, in sentences. */
export const adviseInWords = (...given: Parameters<typeof advise>): AdviceInWords =>
  sayAdvice(advise(...given), given[1].text);

export function rankOf(advice: Advice, place: string): number {
  // A place that this kind of water never has comes after all others.
  return advice.positions.find((position) => position.place === place)?.rank ?? Infinity;
}

/** Points of a place; one that is not there today counts below all others. */
export function totalOf(advice: Advice, place: string): number {
  return advice.positions.find((position) => position.place === place)?.total ?? -Infinity;
}

export const places = (advice: Advice): string[] => advice.positions.map((position) => position.place);
