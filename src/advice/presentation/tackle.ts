import type { LureBook, LureClass, LurePlace, LureSettings, TackleConfig } from '../../config/index.ts';
import type { Conditions } from '../../signals/index.ts';
import { along, clamp } from './curves.ts';
import type { Colour, Form, ReelFact, Tied } from './types.ts';
import { clarityOf, currentAt } from './water.ts';

/** The reader's reel whose gear is nearest to what the class wants. It does not depend on the day. */
export function suitedReel(lure: LureClass, tackle: TackleConfig, settings: LureSettings): ReelFact {
  const owned = tackle.reels.length > 0 ? tackle.reels : [settings.defaultReel];
  const best = owned.reduce((a, b) => (Math.abs(b.gear - lure.gear) < Math.abs(a.gear - lure.gear) ? b : a));
  return { gear: best.gear, takeM: best.gear * Math.PI * best.spoolM };
}

const STEPS = ['clear', 'mild', 'stained', 'muddy'] as const;

/** Clarity as line and colour see it; unknown water counts as stained. */
function clarityStep(conditions: Conditions, settings: LureSettings): (typeof STEPS)[number] {
  const clarityM = clarityOf(conditions);
  if (clarityM === undefined) return 'stained';
  const [clear, mild, stained] = settings.clarityStepsM;
  return clarityM >= clear ? 'clear' : clarityM >= mild ? 'mild' : clarityM >= stained ? 'stained' : 'muddy';
}

export interface Line {
  readonly line: Tied['line'];
  /** Of what the lure hangs on, mm. */
  readonly diameterMm: number;
}

const STEMS: readonly LurePlace['kind'][] = ['stems', 'grass', 'pads', 'mat'];
/** Braid of a strength is about half as thick as fluorocarbon of it. */
const BRAID_THICKNESS = 0.5;

/** Line by class, cover and clarity, within what the class bears, from the lines the reader has. */
export function suitedLine(
  lure: LureClass,
  traits: LurePlace,
  depthM: number,
  conditions: Conditions,
  tackle: TackleConfig,
  book: LureBook,
): Line {
  const { fluorocarbonMm, defaultLinesKg } = book.settings;
  const { material, inStemsBraidKg, mainBraidKg } = lure.line;
  const thick = (kg: number): number => along(fluorocarbonMm, kg);
  const stems = traits.cutsStems || (STEMS.includes(traits.kind) && traits.cover !== 'light');
  if (inStemsBraidKg !== undefined && stems) {
    return {
      line: { material: 'braid', kg: inStemsBraidKg, why: 'stems' },
      diameterMm: BRAID_THICKNESS * thick(inStemsBraidKg),
    };
  }
  const wanted = wantedLine(lure, traits, depthM, conditions, book);
  const target = clamp(wanted.kg, lure.line.kg[0], lure.line.kg[1]);
  if (material === 'braid')
    return { line: { material, kg: target, why: 'stems' }, diameterMm: BRAID_THICKNESS * thick(target) };
  const owned = (tackle.linesKg.length > 0 ? tackle.linesKg : defaultLinesKg).filter(
    (kg) => kg >= lure.line.kg[0] - 0.05 && kg <= lure.line.kg[1] + 0.05,
  );
  // None of the reader's lines is one that this class bears: then the class's own is named.
  const kg =
    owned.length === 0
      ? target
      : owned.reduce((a, b) => (Math.abs(b - target) < Math.abs(a - target) ? b : a));
  const why = target < wanted.kg ? 'asHeavyAsItBears' : wanted.why;
  if (mainBraidKg !== undefined) {
    return { line: { material: 'braid', kg: mainBraidKg, leaderKg: kg, why }, diameterMm: thick(kg) };
  }
  return { line: { material, kg, why }, diameterMm: thick(kg) };
}

function wantedLine(
  lure: LureClass,
  traits: LurePlace,
  depthM: number,
  conditions: Conditions,
  book: LureBook,
): { readonly kg: number; readonly why: Tied['line']['why'] } {
  const { lineRule } = book.settings;
  const heavy = traits.cover === 'heavy';
  const step = clarityStep(conditions, book.settings);
  const table = { light: lure.line.openKg, medium: lure.line.mediumKg, heavy: lure.line.heavyKg }[
    traits.cover
  ];
  if (lure.family === 'diving' || table === undefined) {
    const veryShallow = heavy && depthM <= lineRule.veryShallowM;
    if (veryShallow) return { kg: lineRule.heavyKg, why: 'veryShallowHeavyCover' };
    if (heavy) return { kg: lineRule.shallowKg, why: 'heavierForCover' };
    if (depthM <= lineRule.shallowM) return { kg: lineRule.shallowKg, why: 'heavierShallow' };
    return { kg: lineRule.mostKg, why: 'thinForDepth' };
  }
  const kg = table[STEPS.indexOf(step)] ?? lineRule.mostKg;
  return {
    kg,
    why: traits.cover !== 'light' ? 'heavierForCover' : step === 'clear' ? 'clearWater' : 'usual',
  };
}

/** Below this water, in little wind and shallow, one size lighter: a slow fall (50 F, 15 ft). */
const COLD_C = 10;
const COLD_SHALLOW_M = 4.6;

/** Length of the bait of a weight, m; undefined for a class whose weight is no bait's own. */
export function baitOf({ weightsG, baitsM }: LureClass, weightG: number | undefined): number | undefined {
  return weightG === undefined ? undefined : baitsM?.[weightsG.indexOf(weightG)];
}

/** Hook for a weight, in the trade's sizes; undefined for a class without one. */
export function hookOf({ hook }: LureClass, weightG: number | undefined): string | undefined {
  if (typeof hook !== 'object') return hook;
  return (hook.find(([toG]) => weightG !== undefined && weightG <= toG) ?? hook.at(-1))?.[1];
}

/** Which of the two lures of its class is tied on; undefined for a class of one. */
export function formOf(
  { form }: LureClass,
  by: { readonly restS: number; readonly depthM: number },
): Form | undefined {
  return form === undefined ? undefined : by[form.by] < form.at ? form.below : form.from;
}

/** A guarded lure is pitched to heavy cover, let down and lifted out again. */
export const isPitched = (lure: LureClass, { cover }: LurePlace): boolean =>
  lure.family === 'bottom' && cover === 'heavy' && (lure.guard === 'guarded' || lure.guard === 'weedless');

/** Which column of a table of weights a wind calls for. */
function columnOf(windMs: number, [breeze, wind]: LureSettings['windStepsMs']): 1 | 2 | 3 {
  return windMs >= wind ? 3 : windMs >= breeze ? 2 : 1;
}

/**
 * Weight for the depth, wind and current, g; undefined for a class without a table of them.
 *
 * @param band depth of the fish, m: where they begin the lure lands
 */
export function suitedWeightG(
  lure: LureClass,
  traits: LurePlace,
  band: readonly [number, number],
  conditions: Conditions,
  book: LureBook,
): number | undefined {
  // Of fish deeper than the class is worked at it swims above.
  const depthM = Math.min((band[0] + band[1]) / 2, lure.depthM[1]);
  const sizes = [...lure.weightsG].sort((a, b) => a - b);
  const rows = lure.weightByDepth;
  if (rows === undefined) return sizes[Math.floor((sizes.length - 1) / 2)];
  const { windStepsMs, windPerCurrent, calmMs, shallowWindM } = book.settings;
  const windMs = conditions.signals.windMs?.value ?? 0;
  const streamMs = windPerCurrent * currentAt(conditions, traits);
  const pushMs = windMs + streamMs;
  const full = columnOf(pushMs, windStepsMs);
  const ploughs = lure.family === 'sinking' && band[0] < shallowWindM;
  const column = isPitched(lure, traits)
    ? 1 // So little line is out that no wind bows it.
    : ploughs
      ? Math.max(full - 1, columnOf(streamMs, windStepsMs))
      : full;
  const row = rows.find(([toM]) => depthM <= toM) ?? rows.at(-1);
  const wanted = row?.[column] ?? sizes[0];
  if (wanted === undefined) return undefined;
  const waterC = conditions.signals.waterC?.value;
  const lighter =
    waterC !== undefined && waterC < COLD_C && pushMs <= calmMs && depthM < COLD_SHALLOW_M ? -1 : 0;
  const heavier = traits.cover === 'heavy' && lure.family === 'bottom' ? 1 : 0;
  const at = sizes.reduce(
    (best, size, index) => (Math.abs(size - wanted) < Math.abs((sizes[best] ?? 0) - wanted) ? index : best),
    0,
  );
  return sizes[clamp(at + lighter + heavier, 0, sizes.length - 1)];
}

/** First colour for the water and the light; undefined where the class is no lure for them. */
export function suitedColour(
  lure: LureClass,
  conditions: Conditions,
  night: boolean,
  settings: LureSettings,
): Colour | undefined {
  return night ? lure.colours.night : lure.colours[clarityStep(conditions, settings)];
}
