import type { LureSettings } from '../../config/index.ts';

/** How a lure is worked along the bottom: on which stretch, how far at a time, how long it lies, and what a cast takes. */
export interface Worked {
  /** m from where it lands. */
  readonly stretchM: number;
  /** m; null where the book does not say. */
  readonly moveM: number | null;
  readonly restS: number;
  /** From the splash to the next cast, s. */
  readonly castS: number;
}

/** A rod moves a lure along the bottom at about this speed, m/s (common practice, no source). */
const MOVES_MS = 0.5;
/** An empty line is wound in at about this speed, m/s (two turns a second of a common reel). */
const WINDS_IN_MS = 1.4;
/** A move of a class for which the book has none, m. */
const PLAIN_MOVE_M = 0.6;
/** No lure is taken off the bottom sooner, m, unless the line lifts it there. */
const SHORTEST_STRETCH_M = 3;

export interface Unhurried {
  readonly castM: number;
  /** Time until it lies on the bottom, s. */
  readonly fallS: number;
  readonly stretchM: number;
  readonly moveM: number | null;
  readonly restS: number;
}

/**
 * A lure on the bottom as slow as the water asks for, and no slower than leaves several casts in the minutes that a
 * place is given: where it would lie too long, it is worked on a shorter stretch, in longer moves, with shorter rests.
 *
 * @param wanted as slow as its class is worked in this water
 * @returns the same where a cast of it takes no longer than `longestCastS`
 */
export function workedWithin(wanted: Unhurried, { longestCastS }: LureSettings): Worked {
  const { castM, fallS, stretchM, restS } = wanted;
  const moveM = wanted.moveM ?? PLAIN_MOVE_M;
  const windsInS = (lengthM: number): number => (castM - lengthM) / WINDS_IN_MS;
  const castS = (lengthM: number, move: number, rest: number): number =>
    fallS + (lengthM / move) * rest + lengthM / MOVES_MS + windsInS(lengthM);
  const whole = castS(stretchM, moveM, restS);
  if (whole <= longestCastS || stretchM <= 0) return { stretchM, moveM: wanted.moveM, restS, castS: whole };
  const restsS = (stretchM / moveM) * restS;
  const left = Math.max(longestCastS - fallS - stretchM / MOVES_MS, longestCastS / 4);
  // Stretch, move and rest each give way alike.
  const share = Math.cbrt(left / restsS);
  const shorterM = Math.max(Math.min(stretchM, SHORTEST_STRETCH_M), stretchM * share);
  const longerM = moveM / share;
  const shorterS = Math.min(restS, (left * longerM) / shorterM);
  return {
    stretchM: shorterM,
    moveM: wanted.moveM === null ? null : longerM,
    restS: shorterS,
    castS: castS(shorterM, longerM, shorterS),
  };
}
