/** The lake's temperature day by day: the model of water/lake fed by the record. */
import type { LakeConfig } from '../../config/index.ts';
import type { RecordView } from '../../record/index.ts';
import { addDays, DAY_MS, localDateAt } from '../../units/time/index.ts';
import {
  impossible,
  type LeadLesson,
  outlookLessons,
  type OutlookMiss,
  type Refusal,
  withLesson,
} from '../../water/index.ts';
import type {
  Dating,
  LakeDay,
  RefusedReading,
  SeenDay,
  WaterReading,
  WeatherDay,
} from '../../water/lake/index.ts';
import type { LocalDays } from '../weather/index.ts';
import { measuredWater, type MeasuredWater } from './measured.ts';
import { dailyDischarge, estimateWater, usualOf } from './model.ts';
import {
  anglerReadings,
  inDateOrder,
  mainThermometer,
  thermometerDays,
  type AnglerReading,
} from './readings.ts';

/** A temperature that an angler took in the main lake. */
export interface TakenReading {
  readonly id: string;
  readonly atMs: number;
  readonly waterC: number;
  readonly where: string;
  /** Why the model does not believe it; null when it counts. */
  readonly refusal: Refusal | null;
}

/** A day of the model; one ahead with what this lake's past outlooks taught, and beside it what the model said. */
export type TableDay = ReturnType<typeof withLesson<LakeDay>>;

export interface LakeTable {
  readonly days: readonly TableDay[];
  readonly byDate: ReadonlyMap<string, TableDay>;
  /** What past outlooks of this lake taught; none where none was issued. */
  readonly lessons: readonly LeadLesson[];
  readonly readings: readonly WaterReading[];
  readonly refused: readonly RefusedReading[];
  /** What anglers took in the main lake, oldest first. */
  readonly taken: readonly TakenReading[];
  /** Today's estimate without the last of them that counted; null where that is more than a week old. */
  readonly beforeReadingC: number | null;
  readonly dating: Dating;
  /** The water as it was measured last, for as long as the model has no fresh estimate; null where nothing is known of it. */
  readonly measured: MeasuredWater | null;
  /** Discharge of a usual day of the record, m3/s; null where none above 0 is known. */
  readonly usualFlowM3s: number | null;
}

/** Days for which a reading is thanked for by showing what it moved. */
export const THANKS_DAYS = 7;

/** What is said of one value alone, and of no other reading of its day. */
const ALONE: ReadonlySet<Refusal['code']> = new Set<Refusal['code']>(['notWater', 'notANumber']);

/**
 * Why a reading does not count. Readings of a day from one depth are judged together, and one of them is named; what no
 * water can be is judged alone.
 */
function refusalOf(reading: WaterReading, refused: readonly RefusedReading[]): Refusal | null {
  const ofDay = refused.filter(
    ({ reading: other, dating }) =>
      dating === undefined &&
      other.source === reading.source &&
      other.date === reading.date &&
      other.depthM === reading.depthM,
  );
  const own = ofDay.find(
    ({ reading: other }) => Object.is(other.waterC, reading.waterC) && other.hour === reading.hour,
  );
  return (own ?? ofDay.find(({ reason }) => !ALONE.has(reason.code)))?.reason ?? null;
}

const takenAs = ({ kept, water }: AnglerReading, refusal: Refusal | null): TakenReading => ({
  id: kept.id,
  atMs: kept.atMs,
  waterC: water.waterC,
  where: kept.where,
  refusal,
});

/** A day of weather as the water models take it: what is not known is left out. */
export const modelDay = (day: ReturnType<LocalDays['between']>[number]): WeatherDay => ({
  date: day.date,
  airC: day.airC,
  ...(day.airMinC === null ? {} : { airMinC: day.airMinC }),
  ...(day.airMaxC === null ? {} : { airMaxC: day.airMaxC }),
  ...(day.solarWm2 === null ? {} : { solarWm2: day.solarWm2 }),
  ...(day.dewPointC === null ? {} : { dewPointC: day.dewPointC }),
  ...(day.windMs === null ? {} : { windMs: day.windMs }),
  ...(day.rainMm === null ? {} : { rainMm: day.rainMm }),
});

/** Past outlooks of days that are over beside what was read on them. */
function missesOf({ outlooks = [] }: RecordView, seen: readonly SeenDay[], today: string): OutlookMiss[] {
  const cameC = new Map(seen.map(({ date, waterC }) => [date, waterC]));
  return outlooks.flatMap(({ issued, leadDays, waterC, halfC }) => {
    const date = addDays(issued, leadDays);
    const came = date < today ? cameC.get(date) : undefined;
    return came === undefined ? [] : [{ issued, leadDays, date, missC: waterC - came, halfC }];
  });
}

/** Runs the water model over all weather of the record; no days without weather. */
export function lakeTable(view: RecordView, lake: LakeConfig, weather: LocalDays): LakeTable {
  const gauge = mainThermometer(view, lake);
  const thermometer = thermometerDays(gauge, lake.zone);
  const byHand = anglerReadings(view, lake);
  const readings = inDateOrder([...thermometer, ...byHand.map(({ water }) => water)]);
  const discharge = dailyDischarge(view, lake);
  const usualFlowM3s = usualOf(discharge);
  const { covered } = weather;
  if (covered === null)
    return {
      days: [],
      byDate: new Map(),
      lessons: [],
      readings,
      refused: [],
      taken: byHand.map((one) => takenAs(one, impossible(one.water.waterC, 'lake') ?? null)),
      beforeReadingC: null,
      dating: 'right',
      measured: measuredWater(view, gauge, byHand),
      usualFlowM3s,
    };
  const today = localDateAt(view.asOfMs, lake.zone);
  const days = weather.between(covered.first, covered.last).map(modelDay);
  const estimate = (known: readonly WaterReading[]) =>
    estimateWater(lake, days, known, addDays(today, 1), discharge);
  const result = estimate(readings);
  const lessons = outlookLessons(missesOf(view, result.seen, today));
  const told = result.days.map((day) => withLesson(day, lessons));
  const byDate = new Map(told.map((day) => [day.date, day]));
  const measured = measuredWater(view, gauge, byHand);
  // Without an estimate of today nothing speaks against a reading that the model could not set beside any weather.
  const refused =
    measured === null || byDate.has(today)
      ? result.refused
      : result.refused.filter(({ reason }) => reason.code !== 'noWeatherThatDay');
  const taken = byHand.map((one) => takenAs(one, refusalOf(one.water, refused)));
  const last = taken.filter(({ refusal }) => refusal === null).at(-1);
  const isRecent = last !== undefined && last.atMs >= view.asOfMs - THANKS_DAYS * DAY_MS;
  const others = byHand.filter(({ kept }) => kept.id !== last?.id).map(({ water }) => water);
  const before = isRecent ? estimate(inDateOrder([...thermometer, ...others])) : null;
  return {
    days: told,
    byDate,
    lessons,
    readings,
    refused,
    dating: result.dating ?? 'right',
    measured,
    taken,
    beforeReadingC: before?.days.find((day) => day.date === today)?.waterC ?? null,
    usualFlowM3s,
  };
}
