import { ForecastAirError, forecastAirSdC } from '../assumedAir.ts';
import { DOUBTED_Z2, LastDoubt, LEFT_OUT_Z2 } from '../lastDoubt.ts';
import { hindsightWindow } from '../hindsight.ts';
import type { Refusal } from '../refusal.ts';
import { at } from '../series.ts';
import { StuckWatch } from '../stuckWatch.ts';
import { AirWatch } from './airWatch.ts';
import { DatingWatch } from './datingWatch.ts';
import { dayNumber, dayOfYear, isoDate } from '../../units/time/index.ts';
import { runFree, type FreeRun } from './freeRun.ts';
import { halfWidthC, intervalFactor } from './interval.ts';
import { MisfitBank } from './misfitBank.ts';
import { placeReadings } from './readings.ts';
import type {
  Dating,
  LakeDay,
  LakeNowcast,
  LakeSite,
  NowcastOptions,
  SeenDay,
  WaterReading,
  WeatherDay,
} from './types.ts';

const DATING_EVERY_DAYS = 30;
/** Readings that are taken back when the thermometer proves to have left the water. */
const TAKEN_BACK = 7;
/** A reading this near to what is expected, squared standard deviations, is water again. */
const BACK_IN_WATER_Z2 = 4;
const OFF_BY_A_DAY: Readonly<Record<Exclude<Dating, 'right'>, Refusal>> = {
  late: { code: 'datedLate' },
  early: { code: 'datedEarly' },
};

/**
 * Water temperature of a lake day by day: daily mean at about 1 m in the open lake, with an 80 % interval.
 *
 * The weather drives a free run without calibration; readings teach its misfit. Strictly causal: a day uses weather
 * up to itself and readings up to itself minus the lag. A record shorter than about 400 days starts from the season
 * of the latitude with a wider interval that narrows as fast as the lake forgets.
 *
 * @param weather any order, gaps allowed; up to 10 days without air are bridged, longer gaps have no estimate
 * @param readings any order; those that cannot be right come back in `refused`
 * @throws RangeError on a malformed date, a date that comes twice in the weather, or a site without depth or area
 */
export function nowcastLake(
  site: LakeSite,
  weather: readonly WeatherDay[],
  readings: readonly WaterReading[],
  options: NowcastOptions = {},
): LakeNowcast {
  checkSite(site);
  const run = runFree(site, weather);
  const { firstDay, count, dead } = run.forcing;
  const lag = Math.max(0, Math.round(options.readingLagDays ?? 0));
  const forecastFrom =
    options.firstForecastDate === undefined ? Infinity : dayNumber(options.firstForecastDate) - firstDay;
  const spreadC =
    forecastFrom > 0 && forecastFrom <= count ? at(run.forcing.airSpreadC, forecastFrom - 1) : 0;
  const airError = new ForecastAirError();
  for (let j = Math.max(0, forecastFrom); j < count; j++) {
    const airSdC = forecastAirSdC(j - forecastFrom + 1, spreadC);
    const keep = Math.max(0, 1 - at(run.ratePerDay, j));
    run.forcingVar[j] = at(run.forcingVar, j) + airError.addedVar(airSdC, at(run.airGain, j), keep);
  }
  const { byDay, refused } = placeReadings(run, readings);
  const stuck = new StuckWatch('lake');
  const dating = new DatingWatch();
  let dated: Dating = 'right';
  const { places, placeOf } = hindsightWindow(options.hindsightDays, Math.min(count, forecastFrom) - 1);
  const filter = new MisfitBank(places);
  const ahead = new MisfitBank(places);
  const days: LakeDay[] = [];
  let seen: SeenDay[] = [];
  let taken = -1;
  const lastDoubt = new LastDoubt();
  let lastReading: number | null = null;
  const air = new AirWatch();
  let dry = false;
  /** The filter as it was before each of the last readings that counted, to take them back. */
  const before: { readonly j: number; readonly lastReading: number | null; readonly filter: MisfitBank }[] =
    [];

  const arrive = (j: number): void => {
    const daily = byDay.get(j);
    if (daily === undefined || j >= forecastFrom) return;
    judgeDates(j);
    // What is stamped a day late is water of the day before, and is compared with that.
    const misfitC = daily.waterC - at(run.freeC, dated === 'late' ? Math.max(0, j - 1) : j);
    const stuckReason = stuck.judge(j, daily.waterC, at(run.freeC, j));
    if (stuckReason !== undefined) {
      refused.push({ reading: daily.reading, reason: stuckReason });
      return;
    }
    const noiseVar = daily.sdC ** 2;
    const driesFrom = air.judge(j, daily.waterC, at(run.forcing.airC, j));
    if (driesFrom !== undefined && !dry) takeBack(driesFrom, j);
    const { z2, differenceC } = filter.expect(misfitC, noiseVar);
    dry = driesFrom !== undefined || (dry && z2 > BACK_IN_WATER_Z2);
    if (dry) {
      refused.push({ reading: daily.reading, reason: { code: 'followsAir' } });
      return;
    }
    if (z2 > DOUBTED_Z2 && !lastDoubt.agrees(j, differenceC)) {
      const leftOut = z2 > LEFT_OUT_Z2;
      refused.push({
        reading: daily.reading,
        reason: { code: 'tooFar', differenceC, of: 'lake', fate: leftOut ? 'leftOut' : 'countsLittle' },
      });
      if (leftOut) return;
    }
    const sinceLast = lastReading === null ? Infinity : j - lastReading;
    const kept = before.length < TAKEN_BACK ? new MisfitBank(places) : before.shift()?.filter;
    kept?.copyFrom(filter);
    if (kept !== undefined) before.push({ j, lastReading, filter: kept });
    const factor = intervalFactor(site.latDeg, dayOfYear(firstDay + j), sinceLast);
    filter.assimilate(misfitC, noiseVar, factor, sinceLast);
    lastReading = j;
    seen.push({ date: isoDate(firstDay + (dated === 'late' ? j - 1 : j)), waterC: daily.waterC });
  };

  /** Forgets what the readings since a day taught, and comes back to today without them. */
  const takeBack = (from: number, j: number): void => {
    const back = before.find((kept) => kept.j >= from);
    if (back === undefined) return;
    filter.copyFrom(back.filter);
    lastReading = back.lastReading;
    const dryFrom = isoDate(firstDay + back.j);
    seen = seen.filter(({ date }) => date < dryFrom);
    keep(back.j);
    for (let k = back.j + 1; k <= j; k++) {
      advance(filter, run, k);
      keep(k);
    }
    before.length = 0;
  };

  /** Keeps a day's misfit, where hindsight asks for it. */
  const keep = (j: number): void => {
    const place = placeOf(j);
    if (place !== null) filter.remember(place);
  };

  /** Takes the newest step of the daily readings whose next day's air is known. */
  const judgeDates = (j: number): void => {
    const [before, day, today] = [j - 2, j - 1, j].map((k) => byDay.get(k));
    if (j < 5 || !before?.isMean || !day?.isMean || !today || dead[j - 4] === 1) return;
    const { airC } = run.forcing;
    dating.take({
      stepC: day.waterC - before.waterC,
      waterC: day.waterC,
      airC: [at(airC, j - 4), at(airC, j - 3), at(airC, j - 2), at(airC, j - 1), at(airC, j)],
      ratePerDay: at(run.ratePerDay, j - 1),
    });
    if (j % DATING_EVERY_DAYS !== 0) return;
    const now = dating.judge();
    if (now !== dated && now !== 'right')
      refused.push({ reading: today.reading, reason: OFF_BY_A_DAY[now], dating: now });
    dated = now;
  };

  for (let j = 0; j < count; j++) {
    // Bring the filter to the newest day whose readings have arrived, then look ahead over the lag.
    while (taken < j - lag) {
      taken++;
      advance(filter, run, taken);
      if (dead[taken] === 1) continue;
      arrive(taken);
      keep(taken);
    }
    if (dead[j] === 1) continue;
    let looking = filter;
    if (taken < j) {
      ahead.copyFrom(filter);
      for (let k = Math.max(0, taken + 1); k <= j; k++) advance(ahead, run, k);
      looking = ahead;
    }
    days.push(estimate(looking, j, j >= forecastFrom ? j - forecastFrom + 1 : 0));
  }
  // A reading moves the days before it too; only with them moved is the change since then a change of the water.
  const lookAgain = (day: LakeDay): LakeDay => {
    const j = dayNumber(day.date) - firstDay;
    const place = placeOf(j);
    if (lastReading === null || place === null || j > taken) return day;
    const { misfitC, halfC } = filter.remembered(place);
    return { ...day, hindsight: { waterC: Math.max(0, day.freeC + misfitC), halfC } };
  };
  return { days: places === 0 ? days : days.map(lookAgain), seen, refused, dating: dated };

  function estimate(looking: MisfitBank, j: number, leadDays: number): LakeDay {
    const freeC = at(run.freeC, j);
    const waterC = Math.max(0, freeC + looking.misfitC);
    const readingAgeDays = lastReading === null ? null : j - lastReading;
    const half = halfWidthC(looking, {
      waterC,
      latDeg: site.latDeg,
      dayOfYear: dayOfYear(firstDay + j),
      readingAgeDays,
    });
    return {
      date: isoDate(firstDay + j),
      waterC,
      lowC: Math.max(0, waterC - half),
      highC: waterC + half,
      readingAgeDays,
      freeC,
      leadDays,
    };
  }
}

function advance(filter: MisfitBank, run: FreeRun, j: number): void {
  const { starts, cosYear, sinYear, dead } = run.forcing;
  if (dead[j] === 1) return;
  if (starts.has(j)) filter.restart(at(run.forcingVar, j));
  else filter.advance(at(run.ratePerDay, j), at(run.forcingVar, j));
  filter.observe({
    cosYear: at(cosYear, j),
    sinYear: at(sinYear, j),
    airSwingC: at(run.airSwingC, j),
    airJumpC: at(run.airJumpC, j),
    stepC: at(run.stepC, j),
    layeredJumpC: at(run.layeredJumpC, j),
    spellC: at(run.spellC, j),
    spellCosC: at(run.spellCosC, j),
    spellSinC: at(run.spellSinC, j),
    coldSpellC: at(run.coldSpellC, j),
  });
}

function checkSite(site: LakeSite): void {
  if (!(Math.abs(site.latDeg) <= 90))
    throw new RangeError('The latitude must lie between -90 and 90 degrees.');
  if (!(site.meanDepthM > 0)) throw new RangeError('The mean depth must be above 0 m.');
  if (!(site.areaKm2 > 0)) throw new RangeError('The area must be above 0 km2.');
}
