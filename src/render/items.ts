/** What a section of the page is made of, laid out by nobody yet: page and text print the same items. */
import type { MergedRow } from './conditions.ts';

export type PictureId = 'day' | 'map' | 'ten-days' | `cast-${number}`;

export type Item =
  | { readonly kind: 'sub' | 'p' | 'small' | 'verbatim'; readonly text: string }
  | { readonly kind: 'label' | 'care'; readonly label: string; readonly text: string }
  | { readonly kind: 'list'; readonly ordered: boolean; readonly items: readonly string[] }
  | { readonly kind: 'rows'; readonly rows: readonly MergedRow[] }
  | { readonly kind: 'source'; readonly text: string; readonly url: string }
  | { readonly kind: 'picture'; readonly id: PictureId };

export interface Section {
  readonly id:
    | 'notices'
    | 'clock'
    | 'lake'
    | 'cards'
    | 'safety'
    | 'changed'
    | 'conditions'
    | 'reasons'
    | 'ahead'
    | 'sure'
    | 'sources';
  readonly heading: string;
  readonly items: readonly Item[];
}

/** A mail is read at breakfast: at most 700 words. The web page holds the rest. */
export type Detail = 'mail' | 'web';

/**
 * What the mail of a long day leaves to its page, what is missed least first. Never left out are dangers, the plan, and
 * with what and how each block is fished.
 */
export const CUTS = [
  'scores',
  'trend',
  'reasonOfOthers',
  'drawnContact',
  'lakeBeyondFirst',
  'secondDayAhead',
  'windSides',
  'sideFigures',
  'others',
  'thanks',
  'changesBeyondSecond',
  'ahead',
  'secondReason',
  'cover',
  'giveUp',
  'against',
  'changes',
  'reasons',
] as const;
export type Cut = (typeof CUTS)[number];

/** How much of the page is printed: all of it, or a mail without what is named. */
export interface Extent {
  readonly detail: Detail;
  readonly without: ReadonlySet<Cut>;
}

export const WHOLE: Extent = { detail: 'web', without: new Set() };
export const mailWithout = (count: number): Extent => ({
  detail: 'mail',
  without: new Set(CUTS.slice(0, count)),
});

export const p = (text: string): Item[] => (text === '' ? [] : [{ kind: 'p', text }]);
export const small = (text: string): Item[] => (text === '' ? [] : [{ kind: 'small', text }]);
export const list = (items: readonly string[], ordered = false): Item[] =>
  items.length === 0 ? [] : [{ kind: 'list', ordered, items }];
