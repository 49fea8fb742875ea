import type { Presentation } from '../../advice/presentation/index.ts';

type CoverKind = Presentation['coverKind'];
type CoverWords = (of: Presentation) => string;

const isWeedproof = ({ guard }: Presentation): boolean => guard === 'guarded' || guard === 'weedless';
/** Brought along on a moving line: what lies on the bottom or is let straight down is not. */
const isWound = ({ family }: Presentation): boolean => family !== 'bottom' && family !== 'vertical';
/** One that lies and waits: its own words say for how long. */
const waits = ({ pauseS, pauseStyle }: Presentation): boolean => pauseS > 0 && pauseStyle === 'float';

/** Whether the water carries it along: at a seam always, elsewhere where the stream runs over the place. */
export const drifts = ({ coverKind, drifts: carried }: Presentation): boolean =>
  coverKind === 'current' || carried === true;

/** A cast as short as this is a pitch, m (25 ft). */
export const SHORT_CAST_M = 7.7;

function woodWords(of: Presentation): string {
  switch (of.lip) {
    case 'round':
    case 'flat':
      return 'At wood, raise the rod, stop winding and ease the rounded lip over each limb.';
    case 'square':
      return 'Keep winding into wood; when it strikes, pause and let it float back.';
    case 'narrow':
      return 'Keep it beside the wood, not through it: it hangs easily.';
    case 'none':
      if (!isWeedproof(of)) return 'Stay at the edge of the wood: it hangs easily.';
      return isWound(of)
        ? 'Bring it close past the wood and over the limbs, near enough to touch.'
        : of.family === 'bottom' && of.castLengthM <= SHORT_CAST_M
          ? 'Let it down between the limbs, and out the way it went in.'
          : 'Bring it over each limb slowly and let it drop on the far side.';
  }
}

function brushWords(of: Presentation): string {
  if (!isWeedproof(of)) return 'Keep it over the top and along the sides of the brush: it hangs easily.';
  return isWound(of)
    ? 'Bring it over the top of the brush, near enough to touch.'
    : 'Let it down into the brush and lift it slowly over each branch.';
}

/** Nobody skips a lure under a dock from farther, m (45 ft; common practice, no source). */
const LONGEST_SKIP_M = 14;

function dockWords(of: Presentation): string {
  if (!isWeedproof(of)) return 'Take it along the outer posts and the edge of the shade.';
  if (of.guard === 'weedless' && (of.family === 'vertical' || of.castLengthM <= LONGEST_SKIP_M))
    return 'Skip it under the walkway; mind cables and ladders.';
  return isWound(of)
    ? 'Bring it close past the posts and along the edge of the shade; mind cables and ladders.'
    : 'Let it fall down each post, then bring it out; mind cables and ladders.';
}

function stemWords(of: Presentation): string {
  if (!isWeedproof(of)) return 'Stay along the outer stems: it hangs easily.';
  return isWound(of)
    ? 'Bring it through the lanes and along the edge of the stems.'
    : 'Drop it into the gaps between the stems and bring it out the way it went in.';
}

function grassWords(of: Presentation): string {
  switch (of.family) {
    case 'surface':
      return 'Bring it over the tops of the grass and along the edge.';
    case 'suspending':
      return 'Work it just above the tops of the grass and along the edge.';
    case 'diving':
    case 'sinking':
      return isWeedproof(of) || of.guard === 'open'
        ? 'Bring it along the edge of the grass and just over the tops.'
        : 'Tick the tops of the grass; where it holds, pull it free with the rod.';
    case 'bottom':
    case 'vertical':
      return 'Work it along the edge of the grass and into its holes.';
  }
}

function padWords(of: Presentation): string {
  if (!isWound(of)) return 'Drop it into the openings and bring it out the way it went in.';
  return waits(of)
    ? 'Work it over the leaves and stop it in the openings.'
    : 'Bring it over the leaves and through the openings.';
}

function matWords(of: Presentation): string {
  if (!isWound(of)) return 'Drop it straight through the mat.';
  return waits(of)
    ? 'Work it over the mat and stop it in the holes; wait until the line is pulled away before you strike.'
    : 'Bring it over the holes and along the edge of the mat.';
}

function currentWords(of: Presentation): string {
  switch (of.family) {
    case 'bottom':
      return 'Cast upstream of the seam and let the water carry it into the slack.';
    case 'vertical':
      return 'Hold the boat in the slack and let it down along the seam.';
    case 'surface':
    case 'diving':
    case 'suspending':
    case 'sinking':
      return 'Cast upstream of the seam and bring it down with the water into the slack.';
  }
}

const COVER: Readonly<Record<CoverKind, CoverWords | null>> = {
  open: null,
  rock: null,
  wood: woodWords,
  brush: brushWords,
  dock: dockWords,
  stems: stemWords,
  grass: grassWords,
  pads: padWords,
  mat: matWords,
  current: currentWords,
};

/** What the cover asks for; only words that are true of it, of the lure and of how the lure is worked. */
export const coverStep = (of: Presentation): string | null => COVER[of.coverKind]?.(of) ?? null;

/** Cover that a lure on the bottom is let down into and taken out of again: it is not moved along there. */
export const DROPPED_INTO: readonly CoverKind[] = ['brush', 'stems', 'pads', 'mat', 'dock'];
