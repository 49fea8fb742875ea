import type { LureBook, LurePlace } from '../../config/rulesLures.ts';
import type { TackleConfig } from '../../config/types.ts';
import type { Conditions } from '../../signals/types.ts';
import type { PositionAdvice, PresentationCard } from '../types.ts';
import { castFor, type Cast } from './cast.ts';
import { depthLimit, rateClasses, type RatedClass } from './choose.ts';
import { depthFactor } from './depth.ts';
import { paceOf, pauseOf, pauseWords, type Pace } from './pace.ts';
import { stepsFor } from './steps.ts';
import { suitedLine, suitedReel, type Line } from './tackle.ts';
import { bankOf, paceWater, type PaceWater } from './water.ts';

const DEFAULT_CAST_M = 22.9;
/** A place the book does not describe is treated as an open bank of middling steepness. */
const PLAIN_PLACE: LurePlace = {
  bankDeg: 12,
  bankFrom: 'lake',
  cover: 'medium',
  kind: 'open',
  pocketShare: 0,
};

interface Prepared {
  readonly rated: RatedClass;
  readonly cast: Cast;
  readonly pace: Pace;
  readonly line: Line;
  readonly factor: number;
  /** 0..1: share of the depth band it serves on this cast and line. */
  readonly reaches: number;
  /** Why the lure cannot be worked here; absent when it can. */
  readonly problem?: string;
}

/**
 * How to fish the first place, with a first and a second class of lure, and the second place with its first class.
 *
 * @param conditions the day's signals, SI; an unknown water temperature gives a slow default with a wide range
 * @param places     ranked places; only the first two are used
 * @param lures      lure book
 * @param tackle     the reader's reels, lines and cast; empty lists fall back on the book's defaults
 * @returns first and second class for the first place, then the first class for the second place; empty without places
 */
export function presentCast(
  conditions: Conditions,
  places: readonly PositionAdvice[],
  lures: LureBook,
  tackle: TackleConfig,
): PresentationCard[] {
  const byRank = [...places].sort((a, b) => a.rank - b.rank);
  return byRank
    .slice(0, 2)
    .flatMap((place, index) => cardsFor(conditions, place, lures, tackle).slice(0, index === 0 ? 2 : 1));
}

function cardsFor(
  conditions: Conditions,
  place: PositionAdvice,
  lures: LureBook,
  tackle: TackleConfig,
): PresentationCard[] {
  const traits = lures.places[place.place] ?? PLAIN_PLACE;
  const water = paceWater(conditions, traits, lures);
  const bankDeg = bankOf(conditions, traits, place.bankDeg);
  const prepared = rateClasses(conditions, place, traits, water, lures).map((rated) =>
    prepare(rated, place, traits, water, bankDeg, lures, tackle),
  );
  const workable = prepared
    .filter((entry) => entry.problem === undefined)
    .sort((a, b) => scoreOf(b) - scoreOf(a));
  const first = workable[0];
  if (first === undefined) return [];
  const wanted = prepared[0];
  const misfit =
    wanted?.problem === undefined
      ? undefined
      : `A ${wanted.rated.lure.id} would suit the water, but ${wanted.problem}; a ${first.rated.lure.id} works here.`;
  const second = runnerUp(workable, first, lures);
  return [first, ...(second === undefined ? [] : [second])].map((entry, index) =>
    cardOf(entry, place, traits, water, bankDeg, lures, tackle, index === 0 ? misfit : undefined),
  );
}

const scoreOf = (entry: Prepared): number => entry.rated.suits * entry.reaches;

/** A class worked in another way teaches more when the first one fails, so it is preferred when nearly as good. */
function runnerUp(workable: readonly Prepared[], first: Prepared, lures: LureBook): Prepared | undefined {
  const next = workable[1];
  if (next === undefined) return undefined;
  const other = workable.find((entry) => entry.rated.lure.family !== first.rated.lure.family);
  if (other === undefined) return next;
  return scoreOf(next) - scoreOf(other) <= lures.settings.varietyMargin ? other : next;
}

function prepare(
  rated: RatedClass,
  place: PositionAdvice,
  traits: LurePlace,
  water: PaceWater,
  bankDeg: number,
  lures: LureBook,
  tackle: TackleConfig,
): Prepared {
  const { lure } = rated;
  const lengthM = tackle.castLengthM > 0 ? tackle.castLengthM : DEFAULT_CAST_M;
  const pace = paceOf(lure, water, lures.settings);
  const [top, bottom] = place.depthM;
  const line = suitedLine(lure, traits, (top + bottom) / 2, tackle, lures);
  const dives = lure.family === 'diving' || lure.family === 'suspending';
  const factor = dives ? depthFactor(lure, lengthM, line.diameterMm, pace.speedMs, lures.settings) : 1;
  const reaches = depthLimit(lure, factor, place.depthM);
  const cast = castFor(lure, traits, bankDeg, place.depthM, factor, lengthM, lures);
  const problem =
    reaches > 0
      ? cast.problem
      : top > lure.depthM[1] * factor
        ? 'the fish are deeper than it runs'
        : 'the water is too shallow for it';
  return { rated, cast, pace, line, factor, reaches, ...(problem === undefined ? {} : { problem }) };
}

function cardOf(
  { rated, cast, pace, line, factor, reaches }: Prepared,
  place: PositionAdvice,
  traits: LurePlace,
  water: PaceWater,
  bankDeg: number,
  lures: LureBook,
  tackle: TackleConfig,
  misfit: string | undefined,
): PresentationCard {
  const { lure } = rated;
  const reel = suitedReel(lure, tackle, lures.settings);
  const pauseS = pauseOf(lure, water, lures.settings);
  const pause = pauseWords(lure, pauseS);
  const dives = lure.family === 'diving' || lure.family === 'suspending';
  const extra = {
    ...(dives ? { ratedDepthM: cast.runningDepthM / factor } : {}),
    ...(lure.fallMs === undefined ? {} : { fallMs: lure.fallMs }),
    ...(lure.fallMs === undefined || lure.family === 'bottom'
      ? {}
      : { countS: cast.runningDepthM / lure.fallMs }),
  };
  return {
    place: place.place,
    lureClass: lure.id,
    because: becauseOf(rated, water),
    family: lure.family,
    runningDepthM: cast.runningDepthM,
    retrieveMs: pace.speedMs,
    retrieveLowMs: pace.lowMs,
    retrieveHighMs: pace.highMs,
    turnsPerS: pace.speedMs / reel.takeM,
    reel: reel.words,
    pauseS,
    pauseWords: pause,
    lineKg: line.kg,
    lineWords: line.words,
    boatDepthM: cast.boatDepthM,
    castDepthM: cast.castDepthM,
    castLengthM: cast.lengthM,
    castAngleDeg: cast.angleDeg,
    bankDeg,
    contactApplies: cast.contactApplies,
    contactShare: cast.contactShare,
    contactFromM: cast.contactFromM,
    contactToM: cast.contactToM,
    steps: stepsFor({ lure, traits, cast, pace, reel, line, pauseWords: pause, ...extra }),
    score: rated.suits * reaches,
    cues: rated.cues,
    ...extra,
    ...(water.words === undefined ? {} : { temperatureWords: water.words }),
    ...(misfit === undefined ? {} : { misfit }),
  };
}

/** The two cues that set the class apart from the others, in words. */
function becauseOf(rated: RatedClass, water: PaceWater): string {
  const strongest = [...rated.cues].sort((a, b) => b.above - a.above || b.points - a.points).slice(0, 2);
  const words = strongest.map((cue) => cue.words).join(', and ');
  return water.basis === 'known' ? `Because ${words}.` : `Because ${words}. The temperature is not known.`;
}
