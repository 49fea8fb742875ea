/** Flow and turbines as the gauges have them. */
import { describe, expect, it } from 'vitest';
import type { GaugeConfig, LakeConfig } from '../../src/config/types.ts';
import { readSignals } from '../../src/signals/index.ts';
import { gauge, recordView, testLake } from '../helpers/weatherRecord.ts';

const AS_OF = '2026-03-06T11:15:00Z';
const HOUR = 3_600_000;
const LAST = Date.parse('2026-03-06T11:00:00Z');
const below = (variable: GaugeConfig['variable']): GaugeConfig => ({
  service: 'usgs',
  station: 'USGS-9',
  variable,
  where: 'below the dam',
});
const lake: LakeConfig = { ...testLake, gauges: [below('discharge'), below('inflow'), below('release')] };
const flow = (
  variable: 'discharge' | 'inflow' | 'release',
  m3s: (back: number) => number,
  lastMs = LAST,
  days = 40,
) => gauge(variable, lastMs, days, m3s, { station: 'USGS-9' });
const signals = (...rows: ReturnType<typeof flow>[]) =>
  readSignals(recordView({ asOf: AS_OF, pastDays: 20, extra: rows.flat() }), lake).conditions.signals;

describe('the flow', () => {
  it('is the newest value, as observed where and when, beside the median of thirty days', () => {
    const { dischargeM3s, dischargeRatio } = signals(
      flow('discharge', (back) => (back === 0 ? 90 : back <= 29 * 24 ? 30 : 500)),
    );
    expect(dischargeM3s).toEqual({
      value: 90,
      kind: 'observed',
      asOfMs: LAST,
      freshness: 'fresh',
      source: { code: 'gauge', service: 'usgs', station: 'USGS-9', where: 'below the dam', fallback: false },
    });
    expect(dischargeRatio?.value).toBeCloseTo(3, 9);
  });

  it('of the inflow stands for a discharge that nobody measures, and has no ratio to a month without water', () => {
    expect(signals(flow('inflow', () => 7)).dischargeM3s?.value).toBe(7);
    const dry = signals(flow('discharge', (back) => (back === 0 ? 3 : 0)));
    expect(dry.dischargeM3s?.value).toBe(3);
    expect(dry.dischargeRatio).toBeUndefined();
  });

  it('of a gauge that fell silent days ago is not known, and turbines are not known to run', () => {
    const silent = LAST - 60 * HOUR;
    const { dischargeM3s, dischargeRatio, generationOn } = signals(
      flow('discharge', () => 90, silent),
      flow('release', () => 90, silent),
    );
    expect([dischargeM3s, dischargeRatio, generationOn]).toEqual([undefined, undefined, undefined]);
  });
});

describe('turbines', () => {
  it('are not known of a dam that let nothing through', () => {
    expect(signals(flow('release', () => 0)).generationOn).toBeUndefined();
    expect(signals(flow('release', () => 60)).generationOn).toMatchObject({
      value: 1,
      kind: 'observed',
      asOfMs: LAST,
    });
  });
});
