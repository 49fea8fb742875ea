import { dayNumber, isoDate } from '../../units/time/index.ts';
import { DOUBTED_Z2, LastDoubt, LEFT_OUT_Z2 } from '../lastDoubt.ts';
import type { LakeDay, LakeNowcast, SeenDay, WaterReading } from '../lake/types.ts';
import { hindsightWindow } from '../hindsight.ts';
import { StuckWatch } from '../stuckWatch.ts';
import { RiverBelief } from './belief.ts';
import { misfitFeatures } from './features.ts';
import { riverForcing } from './forcing.ts';
import { runCreek } from './creek.ts';
import { runStream, type RiverFreeRun } from './freeRun.ts';
import { runOpenWater } from './openWater.ts';
import { beliefIn, CREEK, SPRING } from './parameters.ts';
import { placeRiverReadings } from './readings.ts';
import type { RiverBase, RiverKind, RiverOptions, RiverWeatherDay } from './types.ts';

const BASES: readonly RiverBase[] = ['creek', 'spring', 'lowland', 'open', 'alpine', 'melt'];
const USUAL_LATITUDE_DEG = 40;
/** What a thermometer in freezing water may read, degC: its own error of about a tenth. */
const LOWEST_READ_C = -0.1;

/**
 * Daily mean water temperature of a river or tailwater day by day, with an 80 % interval.
 *
 * Air and discharge drive free runs of differing kinds; readings decide between them and teach what is left.
 * Strictly causal: a day uses weather up to itself and readings up to itself minus the lag. The discharge counts by
 * its ratio to its usual value so far; where it is missing it returns to that within days. Water right below a dam
 * follows the depth of the release, which only readings can tell: without one the interval spans both.
 *
 * @param weather in date order; up to 10 days without air are bridged, longer gaps have no estimate
 * @param readings any order; those that cannot be right come back in `refused`
 * @throws RangeError on a malformed date, dates out of order, or a belief without any free run
 */
export function nowcastRiver(
  kind: RiverKind,
  weather: readonly RiverWeatherDay[],
  readings: readonly WaterReading[],
  options: RiverOptions = {},
): LakeNowcast {
  const forcing = riverForcing(weather, options.firstForecastDate);
  const { firstDay, count, dead, starts, forecastFrom } = forcing;
  const belief = options.belief ?? beliefIn(kind, options.watershedKm2);
  const latDeg = options.latDeg ?? USUAL_LATITUDE_DEG;
  const runs = BASES.filter((base) => (belief[base] ?? 0) > 0).map((base) => ({
    run: runBase(base),
    belief: belief[base] ?? 0,
  }));
  if (runs.length === 0) throw new RangeError('At least one free run must be believed.');
  const features = misfitFeatures(forcing);
  const lag = Math.max(0, Math.round(options.readingLagDays ?? 0));
  const { byDay, refused } = placeRiverReadings(forcing, readings);
  const stuck = new StuckWatch('river');
  const { places, placeOf } = hindsightWindow(options.hindsightDays, Math.min(count, forecastFrom) - 1);
  const known = new RiverBelief(runs, features, places);
  const ahead = new RiverBelief(runs, features, places);
  const days: LakeDay[] = [];
  const readDays: SeenDay[] = [];
  let taken = -1;
  const lastDoubt = new LastDoubt();
  let lastReading: number | null = null;

  for (let j = 0; j < count; j++) {
    // Bring the filters to the newest day whose readings have arrived, then look ahead over the lag.
    while (taken < j - lag) {
      taken++;
      pass(known, taken);
      if (dead[taken] === 1) continue;
      if (taken < forecastFrom) arrive(taken);
      const place = placeOf(taken);
      if (place !== null) known.remember(place);
    }
    if (dead[j] === 1) continue;
    let seen = known;
    if (taken < j) {
      ahead.copyFrom(known);
      for (let k = taken + 1; k <= j; k++) pass(ahead, k);
      seen = ahead;
    }
    const waterC = seen.waterC;
    const half = seen.halfWidthC(0);
    days.push({
      date: isoDate(firstDay + j),
      waterC,
      lowC: Math.max(LOWEST_READ_C, waterC - half),
      highC: waterC + half,
      readingAgeDays: lastReading === null ? null : j - lastReading,
      freeC: seen.freeC,
      leadDays: j >= forecastFrom ? j - forecastFrom + 1 : 0,
    });
  }
  const lookAgain = (day: LakeDay): LakeDay => {
    const j = dayNumber(day.date) - firstDay;
    const place = placeOf(j);
    if (lastReading === null || place === null || j > taken) return day;
    return { ...day, hindsight: known.remembered(place, j) };
  };
  return { days: places === 0 ? days : days.map(lookAgain), seen: readDays, refused };

  function runBase(base: RiverBase): RiverFreeRun {
    if (base === 'open') return runOpenWater(forcing, weather, latDeg);
    if (base === 'creek') return runCreek(forcing, options.creek ?? CREEK, latDeg);
    if (base === 'spring') return runCreek(forcing, SPRING, latDeg);
    return runStream(forcing, base, latDeg);
  }

  function pass(filters: RiverBelief, j: number): void {
    if (dead[j] === 0) filters.advance(j, starts.has(j));
  }

  function arrive(j: number): void {
    const daily = byDay.get(j);
    if (daily === undefined) return;
    const { waterC, noiseVar, reading } = daily;
    const stuckReason = stuck.judge(dayNumber(reading.date), waterC, known.freeC);
    if (stuckReason !== undefined) {
      refused.push({ reading, reason: stuckReason });
      return;
    }
    const { differenceC, z2 } = known.expect(waterC, noiseVar);
    if (z2 > DOUBTED_Z2) {
      // Two that agree tell of another release or source, which the site's past cannot foresee.
      if (lastDoubt.agrees(j, differenceC)) known.loosen(differenceC ** 2);
      else {
        const leftOut = z2 > LEFT_OUT_Z2;
        refused.push({
          reading,
          reason: { code: 'tooFar', differenceC, of: 'river', fate: leftOut ? 'leftOut' : 'countsLittle' },
        });
        if (leftOut) return;
      }
    }
    known.assimilate(waterC, noiseVar);
    lastReading = j;
    readDays.push({ date: reading.date, waterC });
  }
}
