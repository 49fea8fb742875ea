/** What fails one part of the weather says nothing of the others. */
import { describe, expect, it } from 'vitest';
import { readSignals } from '../../src/signals/index.ts';
import { say } from '../../src/words/catalogue.ts';
import { wordsFor } from '../../src/words/index.ts';
import type { Observation, Variable } from '../../src/record/types.ts';
import { recordView, testLake } from '../helpers/weatherRecord.ts';

const AS_OF = '2026-03-06T11:15:00Z';
const HOUR_MS = 3_600_000;
const view = recordView({ asOf: AS_OF });
const report = (keeps: (row: Observation) => boolean) =>
  readSignals({ ...view, observations: view.observations.filter(keeps) }, testLake).conditions;
const without = (...variables: Variable[]) => report(({ variable }) => !variables.includes(variable));
const gaps = (conditions: ReturnType<typeof report>) =>
  conditions.gaps.filter(({ id }) => id === 'weather').map(({ fact }) => fact);
const words = (conditions: ReturnType<typeof report>) =>
  gaps(conditions).map((fact) => say(wordsFor('en').signals.gap, fact));

describe('without any air temperature', () => {
  const conditions = () => without('air_temp', 'humidity');
  it('wind, rain and cloud are known, and fresh', () => {
    const known = conditions();
    for (const id of ['windMs', 'rain24Mm', 'cloudPct'] as const)
      expect(known.signals[id]?.freshness).toBe('fresh');
    expect(known.signals.airNowC).toBeUndefined();
  });
  it('the page names what is missing and nothing else', () => {
    expect(words(conditions())).toEqual([
      'Of the weather air temperature is not known: what rests on it is not printed.',
    ]);
  });
});

it('without wind and rain these are named, and the air is known', () => {
  const conditions = without('wind_speed', 'rain');
  expect(conditions.signals.airNowC).toBeDefined();
  expect(conditions.signals.windMs).toBeUndefined();
  expect(words(conditions)).toEqual([
    'Of the weather wind and rain are not known: what rests on them is not printed.',
  ]);
});

it('with all parts nothing is named, with none of them all is', () => {
  expect(gaps(report(() => true))).toEqual([]);
  expect(gaps(report(() => false))).toEqual([{ code: 'noWeather' }]);
});

it('an old forecast of a part whose past nobody kept says nothing of it', () => {
  const old = recordView({ asOf: AS_OF, weatherAgeH: 96 });
  const oldAir = old.observations.filter(
    ({ variable, kind }) => variable === 'air_temp' && kind === 'forecast',
  );
  const rest = view.observations.filter(({ variable }) => variable !== 'air_temp');
  const { conditions } = readSignals({ ...view, observations: [...oldAir, ...rest] }, testLake);
  expect(conditions.signals.airNowC).toBeUndefined();
  expect(conditions.signals.windMs?.freshness).toBe('fresh');
});

it('an old forecast of one part is not made fresh by a new one of another', () => {
  const old = recordView({ asOf: AS_OF, weatherAgeH: 96 });
  const oldAir = old.observations.filter(({ variable }) => variable === 'air_temp');
  const rest = view.observations.filter(({ variable }) => variable !== 'air_temp');
  const conditions = readSignals({ ...view, observations: [...oldAir, ...rest] }, testLake).conditions;
  expect(oldAir.some(({ atMs }) => atMs > view.asOfMs + 24 * HOUR_MS)).toBe(true);
  expect(conditions.signals.airNowC).toBeUndefined();
  expect(conditions.signals.windMs?.freshness).toBe('fresh');
  expect(gaps(conditions)).toEqual([{ code: 'weatherLacks', parts: ['air'] }]);
});
