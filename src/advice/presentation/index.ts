import type { LureBook, LureClass, LurePlace, TackleConfig } from '../../config/index.ts';
import type { Conditions } from '../../signals/index.ts';
import type { PositionAdvice } from '../types.ts';
import { castFor, clearanceOf, type Cast } from './cast.ts';
import { depthLimit, rateClasses, type LureDay, type RatedClass, type Season } from './choose.ts';
import { countDownOf, fallOf } from './countDown.ts';
import { along } from './curves.ts';
import { depthFactor } from './depth.ts';
import { lurePath } from './path.ts';
import { darkShare, heldPace, paceOf, pauseOf, type Pace } from './pace.ts';
import {
  baitOf,
  formOf,
  hookOf,
  isPitched,
  suitedColour,
  suitedLine,
  suitedReel,
  suitedWeightG,
  type Line,
} from './tackle.ts';
import type { Misfit, Presentation, Presented, Problem } from './types.ts';
import { bankOf, clarityOf, currentAt, paceWater } from './water.ts';
import { workedWithin } from './worked.ts';

export type { Season } from './choose.ts';
export type * from './types.ts';

const DEFAULT_CAST_M = 22.9;
/** A place the book does not describe is treated as an open bank of middling steepness. */
const PLAIN_PLACE: LurePlace = {
  bankDeg: 12,
  bankFrom: 'lake',
  cover: 'medium',
  kind: 'open',
  pocketShare: 0,
  inCurrent: false,
  cutsStems: false,
};

interface Prepared {
  readonly rated: RatedClass;
  readonly cast: Cast;
  readonly pace: Pace;
  readonly pauseS: number;
  readonly line: Line;
  readonly weightG: number | undefined;
  readonly fallMs: number | null;
  readonly factor: number;
  /** 0..1: share of the depth band it serves on this cast and line. */
  readonly reaches: number;
  /** Why the lure cannot be worked here; absent when it can. */
  readonly problem?: Problem;
}

/** One place to be fished, with what is known of the day there. */
interface Spot extends LureDay {
  readonly band: readonly [number, number];
  readonly bankDeg: number;
}

/**
 * How to fish the first place, with a first and a second class of lure, and the second place with its first class.
 *
 * @param conditions the day's signals, SI; an unknown water temperature gives a slow default with a wide range
 * @param places     ranked places; only the first two are used
 * @param lures      lure book
 * @param tackle     the reader's reels, lines and cast; empty lists fall back on the book's defaults
 * @param season     what else is known: see `Season`
 * @returns first and second class for the first place, then the first class for the second place; empty without places
 */
export function presentCast(
  conditions: Conditions,
  places: readonly PositionAdvice[],
  lures: LureBook,
  tackle: TackleConfig,
  season: Season = {},
): Presented[] {
  const byRank = [...places].sort((a, b) => a.rank - b.rank);
  return byRank
    .slice(0, 2)
    .flatMap((place, index) => presentAt(conditions, place, lures, tackle, season, index === 0 ? 2 : 1));
}

/**
 * First and second class of lure for one place.
 *
 * @param most 1: the first class only, which is found sooner
 */
export function presentAt(
  conditions: Conditions,
  place: Pick<PositionAdvice, 'place' | 'depthM' | 'bankDeg'>,
  lures: LureBook,
  tackle: TackleConfig,
  season: Season = {},
  most: 1 | 2 = 2,
): Presented[] {
  const traits = lures.places[place.place] ?? PLAIN_PLACE;
  const spot: Spot = {
    conditions,
    place: place.place,
    traits,
    water: paceWater(conditions, traits, lures),
    season,
    band: place.depthM,
    bankDeg: bankOf(conditions, traits, place.bankDeg),
  };
  const prepared: Prepared[] = [];
  let workable: Prepared[] = [];
  for (const rated of rateClasses(spot, lures)) {
    if (rated.suits <= 0 || settled(workable, rated.suits, lures, most)) break;
    const entry = prepare(rated, spot, lures, tackle);
    prepared.push(entry);
    if (entry.problem === undefined) workable = [...workable, entry].sort((a, b) => scoreOf(b) - scoreOf(a));
  }
  const first = workable[0];
  if (first === undefined) return [];
  const wanted = prepared[0];
  const misfit =
    wanted?.problem === undefined ? null : { wanted: wanted.rated.lure.id, problem: wanted.problem };
  const second = most === 1 ? undefined : runnerUp(workable, first, lures);
  return [first, ...(second === undefined ? [] : [second])].map((entry, index) => {
    const presentation = presentationOf(entry, spot, lures, tackle, index === 0 ? misfit : null);
    return { ...presentation, path: lurePath(presentation, entry.rated.lure, lures) };
  });
}

const scoreOf = (entry: Prepared): number => entry.rated.suits * entry.reaches;

/**
 * Whether no class of at most this score can be the first, nor the second where one is asked for: what a class reaches
 * only takes away.
 */
function settled(workable: readonly Prepared[], most: number, lures: LureBook, asked: 1 | 2): boolean {
  const [first, next] = workable;
  if (asked === 1) return first !== undefined && scoreOf(first) >= most;
  if (first === undefined || next === undefined || scoreOf(next) < most) return false;
  const other = workable.find((entry) => entry.rated.lure.family !== first.rated.lure.family);
  return (
    (other !== undefined && scoreOf(other) >= most) || scoreOf(next) - most > lures.settings.varietyMargin
  );
}

/** A class worked in another way teaches more when the first one fails, so it is preferred when nearly as good. */
function runnerUp(workable: readonly Prepared[], first: Prepared, lures: LureBook): Prepared | undefined {
  const next = workable[1];
  if (next === undefined) return undefined;
  const other = workable.find((entry) => entry.rated.lure.family !== first.rated.lure.family);
  if (other === undefined) return next;
  return scoreOf(next) - scoreOf(other) <= lures.settings.varietyMargin ? other : next;
}

function prepare(rated: RatedClass, spot: Spot, lures: LureBook, tackle: TackleConfig): Prepared {
  const { lure } = rated;
  const { traits, band, conditions } = spot;
  const lengthM = castLengthOf(lure, tackle, lures);
  const [top, bottom] = band;
  const depthM = (top + bottom) / 2;
  const line = suitedLine(lure, traits, depthM, conditions, tackle, lures);
  const weightG = suitedWeightG(lure, traits, band, conditions, lures);
  const hangsOn = line.line.leaderKg === undefined ? line.line.material : 'fluorocarbon';
  const fallMs = fallOf(lure, weightG, hangsOn, line.diameterMm);
  const clarityM = clarityOf(conditions);
  const share = darkShare(lure, spot.season.night === true, clarityM, lures.settings);
  const free = paceOf(lure, spot.water, share, lures);
  const dives = lure.family === 'diving' || lure.family === 'suspending';
  const factor = dives ? depthFactor(lure, lengthM, line.diameterMm, free.speedMs, lures.settings) : 1;
  const reaches = depthLimit(lure, factor, band, clarityM);
  const cast = castFor(lure, traits, { bankDeg: spot.bankDeg, band, factor, lengthM }, lures);
  const pace =
    lure.family === 'sinking' ? heldPace(free, lure, fallMs, lengthM, cast.runningDepthM, lures) : free;
  const problem: Problem | undefined =
    reaches > 0 ? cast.problem : { code: top > lure.depthM[1] * factor ? 'tooDeep' : 'tooShallow' };
  return {
    rated,
    cast,
    pace,
    pauseS: pauseOf(lure, spot.water, share),
    line,
    weightG,
    fallMs,
    factor,
    reaches,
    ...(problem === undefined ? {} : { problem }),
  };
}

/** The reader's cast, no longer than the class is cast; a class that is cast far flies some way farther than the usual. */
function castLengthOf(
  { castM: [from, to] }: LureClass,
  tackle: TackleConfig,
  { settings }: LureBook,
): number {
  const readerM = tackle.castLengthM > 0 ? tackle.castLengthM : DEFAULT_CAST_M;
  const farM = Math.max(readerM, Math.min(from, settings.fartherCast * readerM));
  return to > 0 ? Math.min(farM, to) : farM;
}

/** A sinking lure is let drop for no longer than it has water below it half-way in. */
function shortDropS(pauseS: number, cast: Cast, fallMs: number | null, clearM: number): number {
  if (fallMs === null) return pauseS;
  const roomM = Math.max(clearM, (cast.castDepthM + cast.boatDepthM) / 2 - cast.runningDepthM);
  return Math.min(pauseS, roomM / fallMs);
}

/** Moves of a lure that is pitched into cover before it is lifted out (common practice, no source). */
const HOPS = 3;
/** Less of the depth of the fish is not worth a pitch of its own, m. */
const LEAST_LEFT_M = 0.4;
/** A lure that stirs the water less has no beat to be felt in the rod. */
const LEAST_BEAT = 0.2;

function presentationOf(
  { rated, cast, pace, pauseS: restS, line, weightG, fallMs, factor, reaches }: Prepared,
  spot: Spot,
  lures: LureBook,
  tackle: TackleConfig,
  misfit: Misfit | null,
): Presentation {
  const { lure } = rated;
  const { water, traits } = spot;
  const baitM = baitOf(lure, weightG);
  const hook = hookOf(lure, weightG);
  const form = formOf(lure, { restS, depthM: cast.runningDepthM });
  const drifts =
    traits.kind === 'current' || currentAt(spot.conditions, traits) >= lures.settings.tumblesFromMs;
  const colour = suitedColour(lure, spot.conditions, spot.season.night === true, lures.settings);
  const common = {
    place: spot.place,
    lureClass: lure.id,
    lip: lure.lip,
    guard: lure.guard,
    tied: {
      ...(weightG === undefined ? {} : { weightG }),
      ...(baitM === undefined ? {} : { baitM }),
      ...(hook === undefined ? {} : { hook }),
      ...(form === undefined ? {} : { form }),
      ...(colour === undefined ? {} : { colour }),
      line: line.line,
    },
    reel: suitedReel(lure, tackle, lures.settings),
    water: { basis: water.basis, waterC: water.waterC },
    pace,
    pauseS: restS,
    pauseStyle: lure.pauseStyle,
    coverKind: traits.kind,
    ...(drifts ? { drifts: true } : {}),
    ...(lure.vibration < LEAST_BEAT ? { silent: true } : {}),
    cues: rated.cues,
    score: rated.suits * reaches,
    misfit,
  } as const;
  const { runningDepthM, contact, boatDepthM, castDepthM, castLengthM, castAngleDeg, bankDeg } = cast;
  const laid = { boatDepthM, castDepthM, castLengthM, castAngleDeg, bankDeg };
  switch (lure.family) {
    case 'diving':
      return {
        ...common,
        ...laid,
        family: 'diving',
        runningDepthM,
        ratedDepthM: runningDepthM / factor,
        contact,
      };
    case 'suspending':
      return { ...common, ...laid, family: 'suspending', runningDepthM, ratedDepthM: runningDepthM / factor };
    case 'sinking': {
      const down = fallMs === null ? null : countDownOf(lure, cast, fallMs, lures);
      const pauseS = shortDropS(common.pauseS, cast, fallMs, clearanceOf(lure, lures));
      return { ...common, ...laid, family: 'sinking', pauseS, runningDepthM, down };
    }
    case 'bottom': {
      const moveM = lure.move === undefined ? null : along(lure.move, water.waterC - water.paceColderC);
      const pitched = isPitched(lure, traits);
      const hopsM = pitched && moveM !== null ? HOPS * moveM : Infinity;
      const wholeM = Math.min(contact?.toM ?? 0, hopsM);
      const fallS = fallMs === null ? 0 : castDepthM / fallMs;
      const { stretchM, castS } = workedWithin(
        { castM: castLengthM, fallS, stretchM: wholeM, moveM, restS },
        lures.settings,
      );
      const endsM = castDepthM + ((boatDepthM - castDepthM) * stretchM) / castLengthM;
      const deepM = Math.min(spot.band[1], boatDepthM);
      // Casts that fish less than half of the depth leave the rest to the next ones.
      const leaves = pitched
        ? deepM - endsM > LEAST_LEFT_M
        : !drifts && (stretchM < wholeM / 2 || deepM - endsM > (deepM - castDepthM) / 2);
      return {
        ...common,
        ...laid,
        family: 'bottom',
        runningDepthM,
        moveM,
        castS,
        fallMs,
        contact:
          contact === null ? null : { share: stretchM / castLengthM, fromM: contact.fromM, toM: stretchM },
        ...(leaves ? { deeperToM: deepM } : {}),
      };
    }
    case 'surface':
      return { ...common, ...laid, family: 'surface' };
    case 'vertical': {
      const countS = fallMs === null ? null : runningDepthM / fallMs;
      return { ...common, family: 'vertical', boatDepthM, bankDeg, runningDepthM, fallMs, countS };
    }
  }
}
