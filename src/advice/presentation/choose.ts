import type { LureBook, LureClass, LurePlace } from '../../config/rulesLures.ts';
import { classOf } from '../../science/index.ts';
import type { Conditions } from '../../signals/types.ts';
import { quantity } from '../../units/index.ts';
import type { PositionAdvice } from '../types.ts';
import { clamp, ramp, window } from './curves.ts';
import { clarityOf, type PaceWater } from './water.ts';

export interface Cue {
  readonly cue: keyof LureBook['weights'];
  readonly points: number;
  /** Points above or below the mean of all classes: what sets this one apart today. */
  readonly above: number;
  /** Clause that fits behind "because". */
  readonly words: string;
}

/** A window of best temperatures as wide as this is no speciality at all, K. */
const WIDEST_WINDOW_K = 30;

type RawCue = Omit<Cue, 'above'>;

export interface RatedClass {
  readonly lure: LureClass;
  /** 0..1: what the water says, before the bank is asked. */
  readonly suits: number;
  readonly cues: readonly Cue[];
}

/** Every class with its score for one place, best first. Unknown signals add nothing to any class. */
export function rateClasses(
  conditions: Conditions,
  place: PositionAdvice,
  traits: LurePlace,
  water: PaceWater,
  book: LureBook,
): RatedClass[] {
  const most = Object.values(book.weights).reduce((sum, weight) => sum + weight, 0);
  const pointsOf = book.classes.map((lure) => cuesOf(conditions, place, traits, water, book, lure));
  return book.classes
    .map((lure, order) => {
      const cues = (pointsOf[order] ?? []).map((cue) => ({
        ...cue,
        above: cue.points - meanOf(pointsOf, cue.cue),
      }));
      const sum = cues.reduce((total, cue) => total + cue.points, 0);
      const suits = (temperatureLimit(lure, water) * sum) / most;
      return { lure, suits, cues, order };
    })
    .sort((a, b) => b.suits - a.suits || a.order - b.order)
    .map(({ lure, suits, cues }) => ({ lure, suits, cues }));
}

function meanOf(pointsOf: readonly (readonly RawCue[])[], name: Cue['cue']): number {
  const points = pointsOf.flatMap((cues) => cues.filter((cue) => cue.cue === name).map((cue) => cue.points));
  return points.reduce((sum, value) => sum + value, 0) / points.length;
}

/** Mean of the window over the range the temperature may lie in: an unknown temperature favours wide windows. */
function temperatureLimit(lure: LureClass, water: PaceWater): number {
  const { min, bestFrom, bestTo, max } = lure.waterC;
  const at = [water.lowC, water.waterC, water.highC].map((t) => window(t, min, bestFrom, bestTo, max));
  return at.reduce((sum, value) => sum + value, 0) / at.length;
}

/** What a class is worth where it just touches the band, and how far outside the band that fades to nothing, m. */
const TOUCHING = 0.4;
const FADES_OVER_M = 0.5;

/**
 * Share of the depth band a class can serve, 0 to 1, fading to 0 beyond.
 *
 * @param factor depth on this cast and line over the depth it is rated for
 */
export function depthLimit(
  lure: LureClass,
  factor: number,
  [top, bottom]: readonly [number, number],
): number {
  const deepest = lure.depthM[1] * factor + lure.drawsFromM;
  const overlap = Math.min(bottom, deepest) - Math.max(top, lure.depthM[0] * factor);
  if (overlap < 0) return TOUCHING * ramp(overlap, -FADES_OVER_M, 0);
  const share = bottom > top ? overlap / (bottom - top) : 1;
  return clamp(TOUCHING + share, 0, 1);
}

function cuesOf(
  conditions: Conditions,
  place: PositionAdvice,
  traits: LurePlace,
  water: PaceWater,
  book: LureBook,
  lure: LureClass,
): RawCue[] {
  const { weights, settings } = book;
  const cues: RawCue[] = [];
  const add = (cue: Cue['cue'], curve: number, words: string): void => {
    cues.push({ cue, points: weights[cue] * curve, words });
  };
  if (water.basis === 'known') {
    const { bestFrom, bestTo } = lure.waterC;
    const halfWidth = (bestTo - bestFrom) / 2;
    const centred = clamp(1.5 - Math.abs(water.waterC - (bestFrom + bestTo) / 2) / halfWidth, 0, 1);
    // A lure made for this temperature goes before one that does at any.
    const made = centred * clamp(1 - (2 * halfWidth) / WIDEST_WINDOW_K, 0, 1);
    const within = water.waterC >= bestFrom && water.waterC <= bestTo;
    add(
      'temperature',
      0.7 * temperatureLimit(lure, water) + 0.3 * made,
      `water near ${quantity('temperature', water.waterC)} is ${within ? 'in its best range' : 'within its range'}`,
    );
  }
  const listed = lure.places.includes(place.place);
  add('place', listed ? 1 : 0.25, listed ? 'this kind of place suits it' : 'it can be used here');
  add(
    'cover',
    coverFit(traits, lure),
    traits.cover === 'light' ? 'little here hangs it up' : 'it comes through the cover',
  );
  const clarity = clarityOf(conditions);
  if (clarity !== undefined) {
    const isMeasured = conditions.signals.clarityM?.kind !== 'estimated';
    add('clarity', clarityFit(lure, clarity), clarityWords(clarity, isMeasured));
  }
  if (water.basis === 'known') {
    const ready = readiness(conditions, water.waterC, book);
    add(
      'pace',
      1 - Math.abs(lure.coversWater - (0.25 + 0.65 * ready)),
      ready >= 0.5
        ? 'it covers water while fish are ready to move'
        : 'it can be worked slowly for sluggish fish',
    );
  }
  const bright = brightShare(conditions);
  if (bright !== undefined) {
    add(
      'light',
      lure.light.low + (lure.light.bright - lure.light.low) * bright,
      bright >= 0.5 ? 'it still works under a bright sky' : 'the low light suits it',
    );
  }
  const wind = conditions.signals.windMs?.value;
  if (wind !== undefined) {
    const windy = ramp(wind, settings.calmMs, settings.windyMs);
    add(
      'wind',
      lure.wind.calm + (lure.wind.windy - lure.wind.calm) * windy,
      windy >= 0.5 ? 'the wind helps it' : 'it works in little wind',
    );
  }
  if (conditions.species !== 'mixed') {
    add('species', lure.species[conditions.species], `${conditions.species} bass take it well`);
  }
  return cues;
}

/** 0 sluggish, 1 ready to chase: by temperature, less after a sharp fall of the air temperature, more in wind. */
function readiness(conditions: Conditions, waterC: number, book: LureBook): number {
  const { activeWaterC, frontDropC, frontLoss, windGain, calmMs, windyMs } = book.settings;
  const drop = conditions.signals.airDrop24hC?.value ?? 0;
  const wind = conditions.signals.windMs?.value ?? 0;
  const front = frontLoss * ramp(drop, 0, frontDropC);
  return clamp(ramp(waterC, ...activeWaterC) - front + windGain * ramp(wind, calmMs, windyMs), 0, 1);
}

function coverFit(traits: LurePlace, lure: LureClass): number {
  if (traits.cover === 'light') return 0.8;
  return traits.cover === 'heavy' ? lure.snagResistance : 0.4 + 0.6 * lure.snagResistance;
}

function clarityFit(lure: LureClass, clarityM: number): number {
  const [from, to] = lure.clarityM;
  const fits = window(clarityM, from / 3, from, to, to * 2.5);
  // In muddy water a lure is found by what it stirs: quiet ones lose up to half.
  const muddy = ramp(clarityM, 1, 0.3);
  return fits * (1 - 0.5 * muddy * (1 - lure.vibration));
}

/** A depth of sight is told only where something measured it. */
function clarityWords(clarityM: number, isMeasured: boolean): string {
  const words = classOf(clarityM).replace('-', ' ');
  if (!isMeasured) return clarityM < 0.6 ? `it can be found in ${words} water` : `${words} water suits it`;
  if (clarityM < 0.6) return `it can be found in muddy water of ${quantity('clarity', clarityM)}`;
  return `clarity of ${quantity('clarity', clarityM)} suits it`;
}

/** 0 dark or overcast, 1 full sun; undefined when the sky is unknown. */
function brightShare(conditions: Conditions): number | undefined {
  const { clearSkyShare, cloudPct, lowLightShare } = conditions.signals;
  const sky = clearSkyShare?.value ?? (cloudPct === undefined ? undefined : 1 - cloudPct.value / 100);
  if (sky === undefined) return undefined;
  return clamp(sky, 0, 1) * (1 - clamp(lowLightShare?.value ?? 0, 0, 1));
}
