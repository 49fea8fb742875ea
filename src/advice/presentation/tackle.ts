import type { LureBook, LureClass, LurePlace, LureSettings } from '../../config/rulesLures.ts';
import type { TackleConfig } from '../../config/types.ts';
import { quantity } from '../../units/index.ts';
import { along, clamp } from './curves.ts';

export interface Reel {
  readonly name: string;
  readonly gear: number;
  /** Line taken by one turn of the handle on a full spool, m; a half-empty spool takes about 13 % less. */
  readonly takeM: number;
  readonly words: string;
}

/** The reader's reel whose gear is nearest to what the class wants. It does not depend on the day. */
export function suitedReel(lure: LureClass, tackle: TackleConfig, settings: LureSettings): Reel {
  const owned = tackle.reels.length > 0 ? tackle.reels : [settings.defaultReel];
  const best = owned.reduce((a, b) => (Math.abs(b.gear - lure.gear) < Math.abs(a.gear - lure.gear) ? b : a));
  const takeM = best.gear * Math.PI * best.spoolM;
  return {
    name: best.name,
    gear: best.gear,
    takeM,
    words: `${best.gear.toFixed(1)}:1 reel, ${quantity('lineTake', takeM)} per turn`,
  };
}

export interface Line {
  readonly kg: number;
  readonly diameterMm: number;
  readonly words: string;
}

/** Line by depth and cover, within what the class bears, from the lines the reader has. */
export function suitedLine(
  lure: LureClass,
  traits: LurePlace,
  depthM: number,
  tackle: TackleConfig,
  book: LureBook,
): Line {
  const { lineRule, fluorocarbonMm, defaultLinesKg } = book.settings;
  const heavyCover = traits.cover === 'heavy';
  const veryShallow = heavyCover && depthM <= lineRule.veryShallowM;
  const wanted = veryShallow
    ? lineRule.heavyKg
    : heavyCover || depthM <= lineRule.shallowM
      ? lineRule.shallowKg
      : lineRule.mostKg;
  const target = clamp(wanted, lure.line.kg[0], lure.line.kg[1]);
  const owned = tackle.linesKg.length > 0 ? tackle.linesKg : defaultLinesKg;
  const kg = owned.reduce((a, b) => (Math.abs(b - target) < Math.abs(a - target) ? b : a));
  const why =
    target < wanted
      ? 'as heavy as this lure bears'
      : veryShallow
        ? 'very shallow in heavy cover'
        : heavyCover
          ? 'heavier for the cover'
          : target > wanted || wanted > lineRule.mostKg
            ? 'heavier because it is shallow or the lure is heavy'
            : 'thin enough to reach the depth';
  return {
    kg,
    diameterMm: along(fluorocarbonMm, kg),
    words: `${quantity('lineTest', kg)} ${lure.line.material}: ${why}`,
  };
}
