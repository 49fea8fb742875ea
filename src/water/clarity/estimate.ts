import { classOf, secchiFromTurbidityM, type ClarityClass } from '../../science/index.ts';
import { traitsOf, type ClarityTraits } from './bodies.ts';

/** A reading speaks for itself this long, in days, unless new runoff came. */
const READING_FRESH_DAYS = 3;
/** Days in which what a reading taught about this lake falls to 37 %. */
const MEMORY_DAYS = 14;
/** A reading older than this teaches nothing any more, days. */
export const READING_LIMIT_DAYS = 45;
/** A reading of a flooding water that is older has not seen its mud, days. */
const FLOOD_SEEN_DAYS = 0.5;
const GAUGE_FRESH_H = 24;
/** Runoff that a reading has not seen, mm. */
const NEW_RUNOFF_MM = 1;

export interface ClarityInput {
  /** An angler's Secchi reading, m, and its age. */
  readonly readingM?: { readonly value: number; readonly ageDays: number };
  /** Turbidity gauge, FNU, and the age of its value. */
  readonly turbidityFnu?: { readonly value: number; readonly ageH: number };
  /** Runoff (not rain) of past days: age of the day and depth over the watershed; null where it is not known. */
  readonly runoffMmByDay: readonly { readonly ageDays: number; readonly mm: number }[] | null;
  readonly waterBody: string;
  /** Flow against its usual amount, and rise of the level in a day, m; left out where either is not known. */
  readonly inflow?: { readonly ratio: number; readonly rise24hM: number };
}

/** A flow this many times its usual amount, on a level that rises by this much in a day, m, carries mud: judged. */
const FLOOD_RATIO = 3;
const FLOOD_RISE_M = 0.1;
/** Depth of sight in water that a flood has stained, m: the middle of that class. It may be mud; clear it is not. */
const STAINED_M = 0.75;
/** Waters whose rise is let through a dam, clear from the deep, or has no stream. */
const NO_FLOOD: readonly string[] = ['tailwater', 'pond'];

const isFlooding = ({ inflow, waterBody }: ClarityInput): boolean =>
  inflow !== undefined &&
  !NO_FLOOD.includes(waterBody) &&
  inflow.ratio >= FLOOD_RATIO &&
  inflow.rise24hM >= FLOOD_RISE_M;

export interface ClarityEstimate {
  readonly class: ClarityClass;
  /** What it rests on; an old reading that shifts the response to runoff leaves it `runoff`. */
  readonly from: 'reading' | 'gauge' | 'runoff';
  /** A number only where somebody or something measured it; null when only the class is known. */
  readonly secchiM: number | null;
  /** Range of Secchi depth, 80 %, judged. */
  readonly lowM: number;
  readonly highM: number;
  readonly confidence: 'high' | 'medium' | 'low';
  readonly because: ClarityReason;
}

/** What an estimate of the clarity rests on. */
export type ClarityReason =
  | {
      readonly code: 'reading';
      readonly readingM: number;
      readonly ageDays: number;
      /** Whether the water has had runoff since; null where that is not known. */
      readonly runoffSince: false | null;
    }
  | { readonly code: 'gauge'; readonly turbidityFnu: number }
  | {
      readonly code: 'oldReading';
      readonly readingM: number;
      readonly ageDays: number;
      /** Runoff of two weeks that has not settled, mm over the watershed; null where hardly any came. */
      readonly runoffMm: number | null;
    }
  /** High flow on a rising level, whatever the rain of the forecast says. */
  | { readonly code: 'flood'; readonly ratio: number; readonly rise24hM: number }
  | { readonly code: 'runoffAlone'; readonly runoffMm: number | null };

/**
 * How clear the main arm is likely to be.
 *
 * From a fresh reading or turbidity gauge where there is one; else from runoff, each millimetre of which adds to the
 * attenuation of light and decays; an older reading shifts that response, by less the older it is. A flow far above its
 * usual amount on a rising level stains the water however little rain the weather model has.
 *
 * @returns class with range, confidence and reason; a number only with a measurement behind it; null where neither the
 *   runoff nor a fresh measurement is known
 * @throws RangeError for a reading of no depth, or an age or runoff below 0
 */
export function clarityClass(
  input: ClarityInput & { readonly runoffMmByDay: NonNullable<ClarityInput['runoffMmByDay']> },
): ClarityEstimate;
export function clarityClass(input: ClarityInput): ClarityEstimate | null;
export function clarityClass(input: ClarityInput): ClarityEstimate | null {
  check(input);
  const traits = traitsOf(input.waterBody);
  const { readingM: reading, turbidityFnu: gauge, runoffMmByDay } = input;
  const days = runoffMmByDay ?? [];
  const since = (ageDays: number): number =>
    days.filter((d) => d.ageDays < ageDays).reduce((s, d) => s + d.mm, 0);
  const seenAll = reading !== undefined && since(reading.ageDays) < NEW_RUNOFF_MM;
  const flooding = isFlooding(input);
  const fresh =
    reading !== undefined && reading.ageDays <= (flooding ? FLOOD_SEEN_DAYS : READING_FRESH_DAYS) && seenAll;
  const gaugeFresh = gauge !== undefined && gauge.ageH <= GAUGE_FRESH_H;

  if (fresh && (!gaugeFresh || reading.ageDays <= 1)) {
    const spread = 1.15 + 0.1 * reading.ageDays;
    const known = runoffMmByDay !== null;
    return estimate(reading.value, spread, known && reading.ageDays <= 2 ? 'high' : 'medium', 'reading', {
      code: 'reading',
      readingM: reading.value,
      ageDays: reading.ageDays,
      runoffSince: known ? false : null,
    });
  }
  if (gaugeFresh) {
    const secchiM = secchiFromTurbidityM(Math.max(0.2, gauge.value));
    return estimate(secchiM, 1.7, 'medium', 'gauge', { code: 'gauge', turbidityFnu: gauge.value });
  }
  if (runoffMmByDay === null) return flooding ? flooded(input) : null;
  const now = attenuation(traits, days, 0);
  const total = days.reduce((s, d) => s + d.mm * Math.exp(-d.ageDays / traits.decayDays), 0);
  const runoffMm = total < NEW_RUNOFF_MM ? null : days.reduce((s, d) => s + d.mm, 0);
  if (reading !== undefined && reading.ageDays <= READING_LIMIT_DAYS) {
    const then = attenuation(traits, days, reading.ageDays);
    const taught = (1 / reading.value - then) * Math.exp(-reading.ageDays / MEMORY_DAYS);
    const secchiM = 1 / Math.max(0.1, now + taught);
    if (flooding && secchiM > STAINED_M) return flooded(input);
    const confidence = seenAll && reading.ageDays <= 10 ? 'medium' : 'low';
    const { value: readingM, ageDays } = reading;
    return estimate(secchiM, seenAll ? 1.6 : 2, confidence, 'runoff', {
      code: 'oldReading',
      readingM,
      ageDays,
      runoffMm,
    });
  }
  if (flooding && 1 / now > STAINED_M) return flooded(input);
  return estimate(1 / now, 2.2, 'low', 'runoff', { code: 'runoffAlone', runoffMm });
}

/** Stained at least: what came with the flood nobody has seen. */
const flooded = ({ inflow }: ClarityInput): ClarityEstimate =>
  estimate(STAINED_M, 2.2, 'low', 'runoff', {
    code: 'flood',
    ratio: inflow?.ratio ?? FLOOD_RATIO,
    rise24hM: inflow?.rise24hM ?? FLOOD_RISE_M,
  });

/** Attenuation (1/Secchi) that runoff leaves at an age before now, 1/m. */
function attenuation(
  traits: ClarityTraits,
  days: NonNullable<ClarityInput['runoffMmByDay']>,
  atAgeDays: number,
): number {
  let sum = 1 / traits.baseM;
  for (const day of days) {
    const sinceDays = day.ageDays - atAgeDays;
    if (sinceDays >= 0) sum += traits.perMm * day.mm * Math.exp(-sinceDays / traits.decayDays);
  }
  return sum;
}

function estimate(
  secchiM: number,
  spread: number,
  confidence: ClarityEstimate['confidence'],
  from: ClarityEstimate['from'],
  because: ClarityReason,
): ClarityEstimate {
  return {
    class: classOf(secchiM),
    from,
    secchiM: from === 'runoff' ? null : secchiM,
    lowM: secchiM / spread,
    highM: secchiM * spread,
    confidence,
    because,
  };
}

function check(input: ClarityInput): void {
  const { readingM: reading, turbidityFnu: gauge } = input;
  if (reading && !(reading.value > 0 && reading.ageDays >= 0)) {
    throw new RangeError(`a clarity reading must be above 0 m and not of the future, got ${reading.value} m`);
  }
  if (gauge && !(gauge.value >= 0 && gauge.ageH >= 0)) {
    throw new RangeError(`a turbidity must be 0 or more and not of the future, got ${gauge.value} FNU`);
  }
  for (const day of input.runoffMmByDay ?? []) {
    if (!(day.mm >= 0 && day.ageDays >= 0)) throw new RangeError(`runoff and its age must be 0 or more`);
  }
}
