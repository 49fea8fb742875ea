import { idsOf } from './ids.ts';

/** How a lure is worked; says which geometry applies and which fields of a presentation mean something. */
export const LURE_FAMILIES = ['diving', 'suspending', 'sinking', 'bottom', 'surface', 'vertical'] as const;
export type LureFamily = (typeof LURE_FAMILIES)[number];

/** Lure classes by the trade's own names. What is tied on and how it is worked is in `config/rules/lures.yaml`. */
export const LURE = {
  'flat-sided crankbait': 'diving',
  'round-bodied crankbait': 'diving',
  'square-lip crankbait': 'diving',
  'lipless crankbait': 'sinking',
  jerkbait: 'suspending',
  spinnerbait: 'sinking',
  'bladed jig': 'sinking',
  jig: 'bottom',
  'soft swimbait': 'sinking',
  'finesse worm': 'bottom',
  topwater: 'surface',
  'metal blade or spoon': 'vertical',
  'weightless stick worm': 'bottom',
  'Texas-rigged worm': 'bottom',
  'Carolina rig': 'bottom',
  'flipping creature bait': 'bottom',
  tube: 'bottom',
  'drop shot': 'bottom',
  'small finesse jig': 'bottom',
  'hollow frog': 'surface',
  buzzbait: 'surface',
  'swim jig': 'sinking',
  'hair jig': 'sinking',
  underspin: 'sinking',
  'deep-diving crankbait': 'diving',
  'large swimbait': 'sinking',
  'soft jerkbait': 'sinking',
} as const satisfies Record<string, LureFamily>;

export const LURES = idsOf(LURE);
