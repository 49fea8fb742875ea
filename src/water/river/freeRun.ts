import { AirClimate } from '../lake/airClimate.ts';
import { at } from '../series.ts';
import { stepStream, streamRate } from './air2stream.ts';
import { dilutedC } from './melt.ts';
import { FITTED, LOWLAND_AIR_C } from './parameters.ts';
import { AIR_KEEP, AIR_SD_C, type RiverForcing } from './forcing.ts';

/** Days of constant weather after which the start no longer matters. */
const SPIN_UP_DAYS = 60;
const DAYS_PER_YEAR = 365.25;

/** What weather and flow alone give. */
export interface RiverFreeRun {
  readonly freeC: Float64Array;
  /** Share of an error of yesterday that is left today. */
  readonly keep: Float64Array;
  /** Variance that bridged or forecast air adds, or that a start leaves, K2. */
  readonly forcingVar: Float64Array;
}

/**
 * Free run of a stream over all days; dead days hold the last value. A lowland stream stands about the mean air of its
 * own climate as the fitted one does about that of its: the fit alone ran 2.7 K cold in Alabama and Oklahoma.
 */
export function runStream(
  forcing: RiverForcing,
  base: 'lowland' | 'alpine' | 'melt',
  latDeg: number,
): RiverFreeRun {
  const { count, doy, airC, airVar, ratio, meltShare, dead, starts } = forcing;
  const parameters = FITTED[base === 'alpine' ? 'alpine' : 'lowland'];
  const freeC = new Float64Array(count);
  const keep = new Float64Array(count).fill(1);
  const forcingVar = new Float64Array(count);
  const climate = new AirClimate(latDeg);
  let waterC = 0;
  for (let j = 0; j < count; j++) {
    if (dead[j] === 0) {
      const started = starts.has(j);
      const angle = (2 * Math.PI * at(doy, j)) / DAYS_PER_YEAR;
      climate.learn(Math.cos(angle), Math.sin(angle), Math.max(0, at(airC, j)));
      const warmerC = base === 'alpine' ? 0 : climate.wave().meanC - LOWLAND_AIR_C;
      for (let k = started ? SPIN_UP_DAYS : 1; k > 0; k--)
        waterC = stepStream(parameters, waterC, at(airC, j), at(ratio, j), at(doy, j), warmerC);
      const { ratePerDay, airPerDay } = streamRate(parameters, at(ratio, j));
      const left = Math.exp(-ratePerDay);
      keep[j] = left;
      const gain = (airPerDay * (1 - left)) / ratePerDay;
      // Errors of air come in spells; what is left of one day's meets the next of the same sign.
      const spell = (1 + AIR_KEEP * left) / (1 - AIR_KEEP * left);
      forcingVar[j] = started
        ? (AIR_SD_C * (airPerDay / ratePerDay)) ** 2
        : gain ** 2 * at(airVar, j) * spell;
    }
    freeC[j] = base === 'melt' ? dilutedC(waterC, at(meltShare, j)) : waterC;
  }
  return { freeC, keep, forcingVar };
}
