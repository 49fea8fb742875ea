import { dayNumber, dayOfYear } from '../../units/time/index.ts';
import { AirSpread, LONGEST_BRIDGED_GAP_DAYS } from '../assumedAir.ts';
import { AirClimate, type AirWave } from './airClimate.ts';
import { LastingDryness, moistureOf } from './dryAir.ts';
import { extraterrestrialWm2 } from '../../science/index.ts';
import { sunFromAirRange } from './sunlight.ts';
import type { LakeSite, WeatherDay } from './types.ts';

/** Share of the sun above the atmosphere that reaches the ground, before a record has told; days it counts for. */
const CLEARNESS = { start: 0.42, days: 60 };
/** The same where dry air lasts and no day told of its sun (FAO-56, eq. 35 and 37, most of a clear sky's). */
const DRY_CLEARNESS = 0.6;
/** Dew-point depression of the lakes that the exchange models were fitted to. */
export const USUAL_DRYNESS_C = 4;
const DRYNESS = { startC: USUAL_DRYNESS_C, days: 30 };
const WIND = { startMs: 3, days: 30 };
const ANNUAL = (2 * Math.PI) / 365.25;

/** Weather as the exchange models want it: one entry per calendar day, no holes inside a segment. */
export interface Forcing {
  /** Infinite where nothing is known of the air. */
  readonly firstDay: number;
  readonly count: number;
  readonly airC: Float64Array;
  /** Sun relative to the site's own clearness, in units of 100 W/m2 above the atmosphere. */
  readonly sun: Float64Array;
  /** Dew-point depression against its own mean so far, K. */
  readonly dryness: Float64Array;
  /** Wind against its own mean so far, -0.9 to 1.5. */
  readonly windExcess: Float64Array;
  readonly cosYear: Float64Array;
  readonly sinYear: Float64Array;
  /** Daily mean sun at the ground as given or guessed, W/m2, and wind in m/s (NaN when unknown): for readings. */
  readonly sunWm2: Float64Array;
  readonly windMs: Float64Array;
  /** 1 where the air temperature was bridged. */
  readonly bridged: Uint8Array;
  /** 1 where the day is inside a gap too long to bridge: no estimate. */
  readonly dead: Uint8Array;
  /** Mean air temperature of the year as known on each day, degC. */
  readonly climateC: Float64Array;
  /** Mean dew-point depression so far, K; the usual one where no dew point was given. */
  readonly usualDrynessC: Float64Array;
  /** Daily mean sun for the balance of dry air, W/m2: as given, or by the clearness so far, or that of dry places. */
  readonly drySunWm2: Float64Array;
  /** Dew point of the day as well as it is known, degC. */
  readonly dewC: Float64Array;
  /** Share, 0 to 1, by which air drier than that of the fitted lakes has lasted, and to which its dryness is a guess. */
  readonly boundShare: Float64Array;
  readonly guessedShare: Float64Array;
  /** Spread of daily air about its usual value, K, as known on each day. */
  readonly airSpreadC: Float64Array;
  /** Annual wave of air temperature known on the first day of each segment, by day index. */
  readonly starts: ReadonlyMap<number, AirWave>;
  /** Mean and annual wave of the sun above the atmosphere, 100 W/m2. */
  readonly sunWave: Readonly<{ mean: number; cos: number; sin: number }>;
}

const finite = (value: number | null | undefined): value is number =>
  value !== null && value !== undefined && Number.isFinite(value);

function meanAir(day: WeatherDay | undefined): number | undefined {
  if (finite(day?.airC)) return day.airC;
  if (finite(day?.airMinC) && finite(day.airMaxC)) return (day.airMinC + day.airMaxC) / 2;
  return undefined;
}

/**
 * Puts weather on the calendar and scales it by what the record has shown up to each day, never by later days.
 *
 * @throws RangeError when a date is malformed or the same date comes twice
 */
export function prepareForcing(site: LakeSite, weather: readonly WeatherDay[]): Forcing {
  const byDay = new Map<number, WeatherDay>();
  let first = Infinity;
  let last = -Infinity;
  for (const day of weather) {
    const n = dayNumber(day.date);
    if (byDay.has(n)) throw new RangeError(`The weather has ${day.date} twice.`);
    byDay.set(n, day);
    if (meanAir(day) !== undefined) first = Math.min(first, n);
    last = Math.max(last, n);
  }
  const count = Number.isFinite(first) ? last - first + 1 : 0;
  const floats = (): Float64Array => new Float64Array(count);
  const forcing = {
    firstDay: first,
    count,
    airC: floats(),
    sun: floats(),
    dryness: floats(),
    windExcess: floats(),
    cosYear: floats(),
    sinYear: floats(),
    sunWm2: floats(),
    windMs: floats(),
    bridged: new Uint8Array(count),
    dead: new Uint8Array(count),
    climateC: floats(),
    airSpreadC: floats(),
    usualDrynessC: floats(),
    drySunWm2: floats(),
    dewC: floats(),
    boundShare: floats(),
    guessedShare: floats(),
    starts: new Map<number, AirWave>(),
    sunWave: waveOfSun(site.latDeg),
  };
  const climate = new AirClimate(site.latDeg);
  const spread = new AirSpread();
  const yearMeanSun = forcing.sunWave.mean * 100;
  let sunSum = CLEARNESS.start * CLEARNESS.days * yearMeanSun;
  let aboveSum = CLEARNESS.days * yearMeanSun;
  let sunIsKnown = false;
  let dryMean = DRYNESS.startC;
  let dryDays = DRYNESS.days;
  const lasting = new LastingDryness();
  let belowAirC = USUAL_DRYNESS_C;
  let windMean = WIND.startMs;
  let windDays = WIND.days;
  let lately = 0;
  let gap = Infinity;

  for (let j = 0; j < count; j++) {
    const n = first + j;
    const day = byDay.get(n);
    const doy = dayOfYear(n);
    const cos = (forcing.cosYear[j] = Math.cos(ANNUAL * doy));
    const sin = (forcing.sinYear[j] = Math.sin(ANNUAL * doy));
    const air = meanAir(day);
    if (air === undefined) {
      gap++;
      forcing.airC[j] = lately;
      if (gap > LONGEST_BRIDGED_GAP_DAYS) forcing.dead[j] = 1;
      else forcing.bridged[j] = 1;
    } else {
      climate.learn(cos, sin, air);
      if (gap > LONGEST_BRIDGED_GAP_DAYS) {
        forcing.starts.set(j, climate.wave());
        lately = air;
      }
      gap = 0;
      forcing.airC[j] = air;
      lately += (air - lately) / 5;
    }
    const wave = climate.wave();
    if (air !== undefined) spread.learn(air - wave.meanC - wave.cosC * cos - wave.sinC * sin);
    forcing.climateC[j] = wave.meanC;
    forcing.airSpreadC[j] = spread.sdC;

    const above = extraterrestrialWm2(site.latDeg, doy);
    const extremes = finite(day?.airMinC) && finite(day.airMaxC) && day.airMaxC >= day.airMinC;
    const sun = finite(day?.solarWm2)
      ? Math.max(0, day.solarWm2)
      : extremes
        ? sunFromAirRange(above, day.airMaxC - day.airMinC)
        : undefined;
    if (sun !== undefined) {
      sunSum += sun;
      aboveSum += above;
    }
    const clearness = sunSum / aboveSum;
    forcing.sun[j] = (sun === undefined ? above : sun / clearness) / 100;
    const groundWm2 = (forcing.sunWm2[j] = sun ?? above * clearness);
    sunIsKnown ||= sun !== undefined;
    forcing.drySunWm2[j] = sunIsKnown ? groundWm2 : above * DRY_CLEARNESS;

    const dew = finite(day?.dewPointC) ? day.dewPointC : extremes ? day.airMinC : undefined;
    if (dew !== undefined && air !== undefined) {
      const depression = Math.max(0, air - dew);
      dryMean += (depression - dryMean) / ++dryDays;
      forcing.dryness[j] = depression - dryMean;
    }
    forcing.usualDrynessC[j] = dryMean;
    if (air === undefined) forcing.dewC[j] = lately - belowAirC;
    else {
      const night = extremes ? { minC: day.airMinC, rangeC: day.airMaxC - day.airMinC } : undefined;
      const moisture = moistureOf(air, finite(day?.dewPointC) ? day.dewPointC : undefined, night);
      lasting.learn(air, moisture);
      forcing.dewC[j] = moisture.dewC;
      belowAirC += (air - moisture.dewC - belowAirC) / 5;
    }
    forcing.boundShare[j] = lasting.boundShare;
    forcing.guessedShare[j] = lasting.guessedShare;
    if (finite(day?.windMs) && day.windMs >= 0) {
      windMean += (day.windMs - windMean) / ++windDays;
      forcing.windExcess[j] = Math.min(1.5, Math.max(-0.9, day.windMs / Math.max(0.3, windMean) - 1));
      forcing.windMs[j] = day.windMs;
    } else forcing.windMs[j] = Number.NaN;
  }
  return forcing;
}

function waveOfSun(latDeg: number): Forcing['sunWave'] {
  const sum = { mean: 0, cos: 0, sin: 0 };
  for (let doy = 1; doy <= 365; doy++) {
    const sun = extraterrestrialWm2(latDeg, doy) / 365 / 100;
    sum.mean += sun;
    sum.cos += 2 * sun * Math.cos(ANNUAL * doy);
    sum.sin += 2 * sun * Math.sin(ANNUAL * doy);
  }
  return sum;
}
