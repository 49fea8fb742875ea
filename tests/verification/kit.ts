/** Issues and records made by hand: one invented lake in March, dates in its zone. */
import type { LakeConfig } from '../../src/config/types.ts';
import type { Observation, Reading, RecordView } from '../../src/record/types.ts';
import { startOfDayMs } from '../../src/units/time/localTime.ts';
import type { Issue } from '../../src/verification/index.ts';
import { observation, testLake } from '../helpers/weatherRecord.ts';
import { sampleFacts } from '../helpers/sampleBriefing.ts';

export const HOUR = 3_600_000;
export const DAY = 24 * HOUR;
export const lake: LakeConfig = { ...testLake, demo: false };

/** `2026-03-01` is day 1. */
export const dateOf = (day: number): string => new Date(Date.UTC(2026, 2, day)).toISOString().slice(0, 10);
/** An hour of a local day, epoch ms. */
export const at = (day: number, hour: number): number => startOfDayMs(dateOf(day), lake.zone) + hour * HOUR;

export interface Said {
  /** Estimate with its interval, degC. */
  readonly water?: readonly [value: number, low: number, high: number];
  readonly levelAheadM?: number;
  /** Forecast of every hour of the day. */
  readonly airC?: number;
  readonly windMs?: number;
  readonly hour?: number;
}

const SAMPLE = sampleFacts({ demo: false });

/** What an issue of 05:15 said; rows that are not named are unknown. */
export function issue(day: number, said: Said): Issue {
  const issuedMs = at(day, said.hour ?? 5.25);
  return {
    status: 'scheduled',
    demo: false,
    preview: false,
    date: dateOf(day),
    issuedMs,
    conditions: SAMPLE.conditions.map((row) => {
      if (row.id === 'waterC')
        return said.water === undefined || row.now === null
          ? { ...row, now: null }
          : { ...row, now: { ...row.now, value: said.water[0], low: said.water[1], high: said.water[2] } };
      if (row.id !== 'level24hM') return row;
      const { levelAheadM } = said;
      return {
        ...row,
        next48h:
          levelAheadM === undefined
            ? null
            : { low: levelAheadM, high: levelAheadM, quantity: 'levelChange' as const, hours: 24 },
      };
    }),
    series: {
      ...SAMPLE.series,
      hours: Array.from({ length: 24 }, (_, index) => ({
        atMs: at(day, index + 1),
        sunAltitudeDeg: 0,
        forecast: at(day, index + 1) > issuedMs,
        ...(said.airC === undefined ? {} : { airC: said.airC }),
        ...(said.windMs === undefined ? {} : { windMs: said.windMs }),
      })),
    },
  };
}

export function view(
  asOfMs: number,
  observations: readonly Observation[],
  readings: readonly Reading[] = [],
): RecordView {
  return {
    lake: lake.id,
    asOfMs,
    observations: observations.filter(({ atMs, kind }) => kind === 'forecast' || atMs <= asOfMs),
    readings: readings.filter(({ atMs }) => atMs <= asOfMs),
    alerts: [],
    alertsCheckedMs: null,
    floods: [],
    retrievals: [],
  };
}

export const reading = (day: number, hour: number, waterC: number, more: Partial<Reading> = {}): Reading => ({
  id: `${day}/${hour}/${more.where ?? ''}`,
  lake: lake.id,
  atMs: at(day, hour),
  waterC,
  depthM: 0.5,
  sdC: 0.3,
  where: 'ramp',
  ...more,
});

/** Every hour of the days `from` to `to`, by hours since the first. */
export function hours(
  variable: Observation['variable'],
  from: number,
  to: number,
  value: (hour: number) => number,
  more: Partial<Observation> = {},
): Observation[] {
  return Array.from({ length: (to - from + 1) * 24 }, (_, hour) =>
    observation(variable, at(from, hour + 1), value(hour + 1), { ...more }),
  );
}
