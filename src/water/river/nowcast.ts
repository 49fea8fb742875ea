import type { LakeDay, WaterReading } from '../lake/types.ts';
import { dayNumber, dayOfYear, isoDate } from '../lake/calendar.ts';
import { stepStream, type StreamParameters } from './air2stream.ts';
import type { RiverKind, RiverWeatherDay } from './types.ts';

/**
 * Parameters fitted to one river of each kind (calibration years of the lowland Mentue and of the dam-regulated
 * Rhone at Sion); another river of the kind differs, which the interval without readings allows for.
 */
export const RIVER_PARAMETERS: Readonly<Record<RiverKind, StreamParameters>> = {
  lowland: { a: [0.54984, 0.39495, 0.46673, 0.1319, 0.90334, 0.58601, 0.61616, 0.094029] },
  regulated: { a: [0.20112, 0.16106, 0.12652, 0.37104, 5.5453, 1.5253, 0.5282, 0.90826] },
};

/** Rivers forget a misfit in about 5 days. */
const KEEP = Math.exp(-1 / 5);
const Z80 = 1.2816;
/** Variances, K2: what lasts at a site, what fades, what a reading cannot tell of the day; drift a day. */
const SITE_VAR = 2.5 ** 2;
const FADING_VAR = 0.75 ** 2;
const READING_VAR = 0.2 ** 2;
const DRIFT_VAR = 0.01 ** 2;
const SPIN_UP_DAYS = 60;
const DISCHARGE_MEMORY_DAYS = 365;

/**
 * Water temperature of a river or tailwater day by day from air, discharge where known, and readings.
 *
 * Strictly causal, 80 % interval. The discharge counts by its ratio to its own mean so far; without it the ratio is 1.
 * A site right below a deep release follows the release, not this: give readings.
 *
 * @param weather in date order, one entry a day
 * @param lagDays days a reading needs to arrive
 * @throws RangeError on a malformed date or dates out of order
 */
export function nowcastRiver(
  kind: RiverKind,
  weather: readonly RiverWeatherDay[],
  readings: readonly WaterReading[],
  lagDays = 0,
): LakeDay[] {
  const parameters = RIVER_PARAMETERS[kind];
  const byDay = new Map(readings.map((r) => [dayNumber(r.date), r]));
  const site = { x: 0, v: SITE_VAR };
  const fading = { x: 0, v: FADING_VAR };
  let cross = 0;
  let meanFlow = 0;
  let flowDays = 0;
  let waterC = 0;
  let airC: number | null = null;
  let before = -Infinity;
  let lastReading: number | null = null;
  const freeByDay = new Map<number, number>();
  const days: LakeDay[] = [];

  for (const day of weather) {
    const n = dayNumber(day.date);
    if (n <= before) throw new RangeError(`The weather must be in date order, one line a day (${day.date}).`);
    if (day.airC !== null) airC = day.airC;
    const passed = Number.isFinite(before) ? n - before : 0;
    before = n;
    if (airC === null) continue;
    const flow = day.dischargeM3s;
    if (flow !== undefined && flow > 0) {
      flowDays = Math.min(DISCHARGE_MEMORY_DAYS, flowDays + 1);
      meanFlow += (flow - meanFlow) / flowDays;
    }
    const ratio = flow !== undefined && flow > 0 ? flow / meanFlow : 1;
    const steps = freeByDay.size === 0 ? SPIN_UP_DAYS : passed;
    for (let i = 0; i < steps; i++) waterC = stepStream(parameters, waterC, airC, ratio, dayOfYear(n));
    freeByDay.set(n, waterC);

    for (let i = 0; i < passed; i++) fade();
    arrive(n - lagDays, passed);
    const estimate = Math.max(0, waterC + site.x + fading.x * KEEP ** lagDays);
    const half = Z80 * Math.sqrt(aheadVar(lagDays) + READING_VAR);
    days.push({
      date: isoDate(n),
      waterC: estimate,
      lowC: Math.max(0, estimate - half),
      highC: estimate + half,
      readingAgeDays: lastReading === null ? null : n - lastReading,
      freeC: waterC,
      leadDays: 0,
    });
  }
  return days;

  function fade(): void {
    fading.x *= KEEP;
    fading.v = fading.v * KEEP ** 2 + FADING_VAR * (1 - KEEP ** 2);
    cross *= KEEP;
    site.v += DRIFT_VAR;
  }

  function aheadVar(lead: number): number {
    const keep = KEEP ** lead;
    return site.v + 2 * cross * keep + fading.v * keep ** 2 + FADING_VAR * (1 - keep ** 2);
  }

  function arrive(n: number, passed: number): void {
    for (let d = n - Math.max(0, passed - 1); d <= n; d++) {
      const reading = byDay.get(d);
      const freeC = freeByDay.get(d);
      if (reading === undefined || freeC === undefined) continue;
      const miss = reading.waterC - freeC - site.x - fading.x;
      const total = site.v + 2 * cross + fading.v + READING_VAR + reading.sdC ** 2;
      const gainSite = (site.v + cross) / total;
      const gainFading = (fading.v + cross) / total;
      site.x += gainSite * miss;
      fading.x += gainFading * miss;
      const nextCross = cross - gainSite * gainFading * total;
      site.v -= gainSite ** 2 * total;
      fading.v -= gainFading ** 2 * total;
      cross = nextCross;
      lastReading = d;
    }
  }
}
