import type { LureSettings } from '../../config/index.ts';

/** On which stretch a lure is worked along the bottom, and what a cast takes. */
export interface Worked {
  /** m from where it lands. */
  readonly stretchM: number;
  /** From the splash to the next cast, s. */
  readonly castS: number;
}

/** A rod moves a lure along the bottom at about this speed, m/s (common practice, no source). */
const MOVES_MS = 0.5;
/** An empty line is wound in at about this speed, m/s (two turns a second of a common reel). */
const WINDS_IN_MS = 1.4;
/** A move of a class for which the book has none, m. */
const PLAIN_MOVE_M = 0.6;

export interface Unhurried {
  readonly castM: number;
  /** Time until it lies on the bottom, s. */
  readonly fallS: number;
  readonly stretchM: number;
  readonly moveM: number | null;
  readonly restS: number;
}

/**
 * How far a lure gets along the bottom in the time that a cast is given. Move and rest are the water's and never give
 * way: where they take too long the stretch is shorter, though never shorter than one move.
 *
 * @returns the whole stretch where a cast of it takes no longer than `longestCastS`
 */
export function workedWithin(
  { castM, fallS, stretchM, moveM, restS }: Unhurried,
  { longestCastS }: LureSettings,
): Worked {
  const move = moveM ?? PLAIN_MOVE_M;
  const perMetreS = restS / move + 1 / MOVES_MS - 1 / WINDS_IN_MS;
  const emptyS = fallS + castM / WINDS_IN_MS;
  const most = Math.max(move, (longestCastS - emptyS) / perMetreS);
  const workedM = Math.min(stretchM, most);
  return { stretchM: workedM, castS: emptyS + workedM * perMetreS };
}
