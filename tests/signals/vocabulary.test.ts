/** A row of the vocabulary by itself is silent: what computes each signal, and what it is called. */
import { describe, expect, it } from 'vitest';
import { loadRules } from '../../src/config/rules.ts';
import { understand } from '../../src/advice/whatIf/index.ts';
import { readSignals } from '../../src/signals/index.ts';
import type { Variable } from '../../src/record/types.ts';
import { SIGNAL_IDS, type SignalId } from '../../src/vocabulary/index.ts';
import { gauge, observation, recordView, testLake } from '../helpers/weatherRecord.ts';

const AS_OF = '2026-06-06T10:15:00Z'; // 05:15 at the lake
const HOUR_MS = 3_600_000;
const nowMs = Date.parse(AS_OF);

/** Told only by whoever asks what if: no service that is read gives them. */
const ONLY_ASKED: readonly SignalId[] = ['bottomOxygenMgL', 'currentMs'];

/** Every signal that a lake below a dam has, with all its gauges and a warm rain of the day before. */
function produced(): Set<string> {
  const series = (['level', 'discharge', 'turbidity', 'release'] as const).map((variable) => ({
    variable,
    station: `USGS-${variable}`,
  }));
  const lake = {
    ...testLake,
    belowDam: true,
    fetchM: 3000,
    normalPoolM: 100,
    gauges: series.map(({ variable, station }) => ({
      service: 'usgs' as const,
      station,
      variable,
      where: 'at the dam',
    })),
  };
  const values: Record<string, (back: number) => number> = {
    level: (back) => 100 + 0.2 * Math.sin(back / 40),
    discharge: (back) => 20 + (back % 5),
    turbidity: () => 8,
    release: (back) => (back % 24 < 6 ? 200 : 0),
  };
  const extra = series.flatMap(({ variable, station }) =>
    gauge(variable, nowMs, 370, values[variable] ?? (() => 0), { station }),
  );
  const ahead = (variable: Variable, source: string, station: string, value: number, periodS = 0) =>
    Array.from({ length: 48 }, (_, h) =>
      observation(variable, nowMs - 12 * HOUR_MS - 15 * 60_000 + h * HOUR_MS, value + h / 1000, {
        source,
        station,
        kind: 'forecast',
        periodS,
        issuedMs: nowMs - HOUR_MS,
      }),
    );
  const rainEnds = nowMs - 30 * HOUR_MS;
  const view = recordView({
    asOf: AS_OF,
    weather: (local) => {
      const ms = local.toMillis();
      const rains = ms > rainEnds - 10 * HOUR_MS && ms <= rainEnds;
      return { air: 14 + 5 * Math.sin(((local.hour - 9) / 24) * 2 * Math.PI), rain: rains ? 8 : 0 };
    },
    extra: [
      ...extra,
      ...ahead('level', 'usgs', 'USGS-level', 100.1),
      ...ahead('wind_gust', 'open-meteo', '', 6),
      ...ahead('thunder', 'open-meteo', '', 20),
    ],
  });
  return new Set(Object.keys(readSignals(view, lake).conditions.signals));
}

describe('each signal of the vocabulary', () => {
  it('is computed by a part of the signals, or told by a what-if alone', () => {
    const found = produced();
    expect(SIGNAL_IDS.filter((id) => !found.has(id)).sort()).toEqual(ONLY_ASKED);
    const asked = understand({ water: { bottomOxygen: '3 mg/L' }, flow: { current: '0.4 m/s' } });
    expect(Object.keys(asked.conditions.signals)).toEqual(expect.arrayContaining([...ONLY_ASKED]));
  });

  it('has a name where a page names it', () => {
    const { positions, text } = loadRules();
    const named = positions.matters.map(({ signal }) => signal);
    expect(named.length).toBeGreaterThan(10);
    expect(named.filter((id) => (text[`matters.${id}`] ?? '').trim() === '')).toEqual([]);
  });
});
