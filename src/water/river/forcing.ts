import { item } from '../../units/index.ts';
import { dayNumber, dayOfYear } from '../../units/time/index.ts';
import { AirSpread, forecastAirSdC, LONGEST_BRIDGED_GAP_DAYS } from '../assumedAir.ts';
import { at } from '../series.ts';
import { MeltShare } from './melt.ts';
import type { RiverWeatherDay } from './types.ts';

/** Spread of daily air about the season where none was seen, K, and its correlation from day to day (common practice, no source). */
export const AIR_SD_C = 4;
export const AIR_KEEP = 0.75;
/** Years that make the usual flow, and days in which an unknown flow is taken to return to it. */
const USUAL_FLOW_DAYS = 1095;
const FLOW_KEEP = Math.exp(-1 / 10);
const LOWEST_RATIO = 0.05;
const HIGHEST_RATIO = 20;

/** What drives a river, one entry a calendar day from the first to the last. */
export interface RiverForcing {
  readonly firstDay: number;
  readonly count: number;
  readonly doy: Float64Array;
  readonly airC: Float64Array;
  /** Variance of the air temperature of a bridged or forecast day, K2. */
  readonly airVar: Float64Array;
  /** Discharge over its usual value so far. */
  readonly ratio: Float64Array;
  readonly meltShare: Float64Array;
  /** 1 where there is no estimate. */
  readonly dead: Uint8Array;
  /** Days on which the free run starts or starts anew. */
  readonly starts: ReadonlySet<number>;
}

/**
 * Puts the days onto a calendar, bridges short gaps and turns discharge into its ratio to the usual flow so far.
 *
 * @returns the forcing, and the index of the first forecast day (infinite without one)
 * @throws RangeError on a malformed date or dates out of order
 */
export function riverForcing(
  weather: readonly RiverWeatherDay[],
  firstForecastDate: string | undefined,
): RiverForcing & { readonly forecastFrom: number } {
  const numbers = weather.map((day) => dayNumber(day.date));
  const firstDay = numbers[0] ?? 0;
  const count = weather.length === 0 ? 0 : (numbers.at(-1) ?? 0) - firstDay + 1;
  const byDay = new Map<number, RiverWeatherDay>();
  weather.forEach((day, i) => {
    const n = item(numbers, i);
    if (n <= (numbers[i - 1] ?? -Infinity))
      throw new RangeError(`The weather must be in date order, one line a day (${day.date}).`);
    byDay.set(n - firstDay, day);
  });
  const forecastFrom = firstForecastDate === undefined ? Infinity : dayNumber(firstForecastDate) - firstDay;
  const doy = new Float64Array(count);
  const airC = new Float64Array(count);
  const airVar = new Float64Array(count);
  const ratio = new Float64Array(count).fill(1);
  const meltShare = new Float64Array(count);
  const dead = new Uint8Array(count);
  const starts = new Set<number>();
  const melt = new MeltShare();
  let slowAirC = Number.NaN;
  const spread = new AirSpread();
  let gap = Infinity;
  let usualFlow = 0;
  let flowDays = 0;
  let logRatio = 0;

  for (let j = 0; j < count; j++) {
    const day = byDay.get(j);
    const known = day?.airC ?? null;
    doy[j] = dayOfYear(firstDay + j);
    if (known !== null) {
      if (gap > LONGEST_BRIDGED_GAP_DAYS) starts.add(j);
      slowAirC = gap > LONGEST_BRIDGED_GAP_DAYS ? known : slowAirC + (known - slowAirC) / 20;
      gap = 0;
      airC[j] = known;
      if (j < forecastFrom) spread.learn(known - slowAirC);
    } else {
      gap++;
      if (gap > LONGEST_BRIDGED_GAP_DAYS) dead[j] = 1;
      // The weather of the last known day wears off towards that of the last weeks.
      airC[j] = j === 0 ? Number.NaN : slowAirC + (at(airC, j - 1) - slowAirC) * AIR_KEEP;
    }
    airVar[j] = known === null ? spread.sdC ** 2 * (1 - AIR_KEEP ** (2 * gap)) : 0;
    if (j >= forecastFrom) airVar[j] = at(airVar, j) + forecastAirSdC(j - forecastFrom + 1, spread.sdC) ** 2;

    const flow = day?.dischargeM3s ?? Number.NaN;
    if (flow >= 0) {
      flowDays = Math.min(USUAL_FLOW_DAYS, flowDays + 1);
      usualFlow += (flow - usualFlow) / flowDays;
      logRatio =
        usualFlow > 0 ? Math.log(Math.min(HIGHEST_RATIO, Math.max(LOWEST_RATIO, flow / usualFlow))) : 0;
    } else logRatio *= FLOW_KEEP;
    ratio[j] = Math.exp(logRatio);
    if (dead[j] === 0) meltShare[j] = melt.next(at(airC, j), flow >= 0 ? flow : Number.NaN);
  }
  return { firstDay, count, doy, airC, airVar, ratio, meltShare, dead, starts, forecastFrom };
}
