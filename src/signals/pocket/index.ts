/** The inflow pockets: the model run for each, what the day is judged on in them, and a report each. */
import type { LakeConfig } from '../../config/index.ts';
import type { RecordView } from '../../record/index.ts';
import { DAY_MS, HOUR_MS, localDateAt } from '../../units/time/index.ts';
import { fishingDay } from '../light/index.ts';
import type { Part } from '../part.ts';
import type { Gap, PocketReport } from '../types.ts';
import { REFUSAL_DAYS } from '../water/index.ts';
import { weatherProvenance, type Weather } from '../weather/index.ts';
import { leadingPocket, pocketReports, pocketSignals } from './reports.ts';
import type { SimulatedPocket } from './runs.ts';

export { simulatePockets, type SimulatedPocket } from './runs.ts';

export interface PocketSeries {
  readonly reports: readonly PocketReport[];
  /** Surface of the leading pocket minus the main lake by hour end, K. */
  readonly minusMainK: ReadonlyMap<number, number>;
}

/** @param pockets as simulated; none on stale weather */
export function pocketPart(
  view: RecordView,
  lake: LakeConfig,
  weather: Weather,
  pockets: readonly SimulatedPocket[],
): Part<PocketSeries> {
  const { asOfMs } = view;
  const { dawnMs, duskMs } = fishingDay(lake, localDateAt(asOfMs, lake.zone));
  const leftFromMs = Math.max(asOfMs, dawnMs - HOUR_MS);
  const lead = leadingPocket(pockets, asOfMs, leftFromMs, duskMs);
  const from = weatherProvenance(weather, asOfMs, asOfMs);
  return {
    signals: (nowMs) => {
      const day = fishingDay(lake, localDateAt(nowMs, lake.zone));
      const known = weatherProvenance(weather, asOfMs, nowMs);
      return pocketSignals(pockets, nowMs, day.dawnMs - HOUR_MS, day.duskMs, known, lake.zone);
    },
    gaps: pockets.flatMap((pocket) => refusedIn(pocket, asOfMs)),
    series: {
      reports: pocketReports(pockets, asOfMs, leftFromMs, duskMs, from, lake.zone),
      minusMainK: new Map(lead?.pocket.run.hours.map((hour) => [hour.atMs, hour.minusMainC]) ?? []),
    },
  };
}

/** The last reading that was refused in a pocket, unless a later one has outlived it. */
function refusedIn({ name, used, refused }: SimulatedPocket, asOfMs: number): Gap[] {
  const last = refused.at(-1);
  const sinceMs = Math.max(asOfMs - REFUSAL_DAYS * DAY_MS, used.at(-1)?.atMs ?? 0);
  if (last === undefined || last.reading.atMs <= sinceMs) return [];
  return [{ id: 'pocketC', fact: { code: 'pocketReadingRefused', pocket: name, reason: last.reason } }];
}
