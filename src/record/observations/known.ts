/** When something was known, beside the instant it is for. Whole seconds, rounded down. */
import { DAY_MS } from '../../units/time/index.ts';
import type { KnownHow } from '../schema/observations.ts';

/** What comes later than this after its instant is an archive's, s: an outage over a long weekend is closed sooner. */
const BACK_FILL_S = (4 * DAY_MS) / 1000;

export const KNOWN_HOW = { assumed: 1, archive: 2 } as const satisfies Record<string, KnownHow>;

/** What a view may know. */
export interface Knowledge {
  /** Only what was known by this instant, epoch ms. */
  readonly asOfMs: number;
  /** Also what archives brought later: for replays, which say so. */
  readonly archive: boolean;
}

export function knownS(instantMs: number, knownMs: number): number {
  return Math.floor((knownMs - instantMs) / 1000);
}

/** How a first value is known; a revision is never a back-fill. */
export function howKnown(delayS: number): KnownHow | null {
  return delayS > BACK_FILL_S ? KNOWN_HOW.archive : null;
}
