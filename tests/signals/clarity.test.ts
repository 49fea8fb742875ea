import { describe, expect, it } from 'vitest';
import type { LakeConfig } from '../../src/config/types.ts';
import type { Reading } from '../../src/record/types.ts';
import { readSignals } from '../../src/signals/index.ts';
import { observation, recordView, testLake } from '../helpers/weatherRecord.ts';

const AS_OF = '2026-03-06T11:15:00Z';
const NOW_MS = Date.parse(AS_OF);
const HOUR_MS = 3_600_000;
const lake: LakeConfig = {
  ...testLake,
  gauges: [{ service: 'usgs', station: 'USGS-1', variable: 'turbidity', where: 'at the dam' }],
};
const GAUGE_MS = NOW_MS - HOUR_MS;
const gauge = Array.from({ length: 24 }, (_, i) => observation('turbidity', GAUGE_MS - i * HOUR_MS, 5));
const read = (hoursAgo: number): Reading => ({
  id: `r${hoursAgo}`,
  lake: lake.id,
  atMs: NOW_MS - hoursAgo * HOUR_MS,
  clarityM: 2.4,
  depthM: 1,
  sdC: 0.3,
  where: 'ramp',
});
const clarity = (readings: readonly Reading[], extra = gauge) =>
  readSignals({ ...recordView({ asOf: AS_OF, extra }), readings }, lake).conditions.signals.clarityM;

describe('clarity names what it rests on, and when that was measured', () => {
  it('the reading of yesterday evening, although a gauge measures too', () => {
    const found = clarity([read(14)]);
    expect(found?.value).toBe(2.4);
    expect(found).toMatchObject({ source: { code: 'anglerReading' }, asOfMs: NOW_MS - 14 * HOUR_MS });
  });

  it('the gauge, although an old reading is kept', () => {
    const found = clarity([read(20 * 24)]);
    expect(found?.value).not.toBe(2.4);
    expect(found).toMatchObject({
      source: { code: 'gauge', where: 'at the dam', fallback: false },
      asOfMs: GAUGE_MS,
    });
  });

  it('runoff, where nothing measured it lately', () => {
    const found = clarity([read(20 * 24)], []);
    expect(found?.kind).toBe('estimated');
    expect(found?.source.code).toBe('clarityOfRunoff');
  });
});

describe('the rain that clarity goes by', () => {
  const rained = (days: number, mm: number, more: Partial<LakeConfig> = {}) => {
    const view = recordView({ asOf: AS_OF, pastDays: 20, weather: () => ({ rain: mm }) });
    const since = Math.floor(NOW_MS / HOUR_MS) * HOUR_MS - days * 24 * HOUR_MS;
    const observations = view.observations.filter(
      ({ variable, atMs }) => variable !== 'rain' || atMs > since,
    );
    return readSignals({ ...view, observations }, { ...lake, ...more }).clarity;
  };

  it('must be known of seven of the last fourteen days', () => {
    expect(rained(5.5, 0)).toBeUndefined();
    expect(rained(8, 0)).toBeDefined();
  });

  it('runs off by the curve number of the first pocket that has one, else of a mixed watershed', () => {
    const [draw] = lake.pockets;
    if (draw === undefined) throw new Error('no pocket');
    const runoff = (...numbers: (number | undefined)[]) => {
      const pockets = numbers.map((curveNumber, i) => ({
        ...draw,
        id: `p${i}`,
        ...(curveNumber === undefined ? {} : { curveNumber }),
      }));
      const because = rained(20, 2.5, { pockets })?.because;
      return because?.code === 'runoffAlone' ? because.runoffMm : null;
    };
    const paved = runoff(98) ?? Number.NaN;
    expect(paved).toBeGreaterThan(2 * (runoff(undefined) ?? Number.NaN));
    expect(runoff(undefined, 98)).toBeCloseTo(paved, 9);
    expect(runoff(72)).toBeCloseTo(runoff(undefined) ?? Number.NaN, 9);
  });
});

describe('clarity is a class where nothing measured it', () => {
  const report = (plan: Partial<Parameters<typeof recordView>[0]>, readings: readonly Reading[] = []) =>
    readSignals({ ...recordView({ asOf: AS_OF, ...plan }), readings }, lake);

  it('with its confidence and its reason', () => {
    expect(report({}).clarity).toEqual({
      class: 'clear',
      confidence: 'low',
      measured: false,
      because: { code: 'runoffAlone', runoffMm: null },
    });
    expect(report({ extra: gauge }).clarity?.measured).toBe(true);
  });

  it('and unknown on stale weather, but for what was measured', () => {
    const silent = { weatherAgeH: 80 };
    expect(report(silent).clarity).toBeUndefined();
    expect(report(silent).conditions.signals.clarityM).toBeUndefined();
    expect(report(silent, [read(20 * 24)]).conditions.signals.clarityM).toBeUndefined();
    expect(report(silent, [read(14)]).conditions.signals.clarityM?.value).toBe(2.4);
    expect(report({ ...silent, extra: gauge }).clarity?.measured).toBe(true);
  });
});

describe('a clarity deeper than the lake', () => {
  const deep = { ...read(2), clarityM: 40 };
  const gapsOf = (readings: readonly Reading[]) =>
    readSignals({ ...recordView({ asOf: AS_OF, extra: gauge }), readings }, lake).conditions.gaps.map(
      ({ fact }) => fact,
    );

  it('is not believed, and is named; the reading before it stands', () => {
    expect(clarity([read(14), deep])?.value).toBe(2.4);
    expect(gapsOf([read(14), deep])).toContainEqual({ code: 'clarityTooDeep', clarityM: 40 });
  });

  it('is one beyond three times the mean depth, the deepest point of a cone', () => {
    const within = { ...read(2), clarityM: 3 * lake.meanDepthM };
    expect(clarity([within])?.value).toBe(36);
    expect(gapsOf([within]).map(({ code }) => code)).not.toContain('clarityTooDeep');
  });
});
