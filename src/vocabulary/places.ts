import { idsOf } from './ids.ts';
import type { WaterBody } from './waters.ts';

/** Whether a kind of water has a kind of place: as a rule; only where somebody says so; or never. */
export type Presence = 'usual' | 'declared' | 'never';

/** What the water near a place is made of; decides which words of cover fit. */
export type CoverWords =
  'open' | 'rock' | 'wood' | 'brush' | 'dock' | 'stems' | 'grass' | 'pads' | 'mat' | 'current';

export interface PlaceRow {
  readonly cover: CoverWords;
  readonly on: Readonly<Record<WaterBody, Presence>>;
}

const PRESENCE: Readonly<Record<string, Presence>> = {
  U: 'usual',
  D: 'declared',
  '-': 'never',
};

/** A row: the letters stand for highland, hill-land, run-of-river, tailwater, natural lake and pond in this order. */
function place(cover: CoverWords, letters: string): PlaceRow {
  const on = (index: number): Presence => PRESENCE[letters.charAt(index)] ?? 'never';
  return {
    cover,
    on: {
      'highland-reservoir': on(0),
      'hill-land-reservoir': on(1),
      'run-of-river': on(2),
      tailwater: on(3),
      'natural-lake': on(4),
      pond: on(5),
    },
  };
}

/**
 * Kinds of place, and which water has them: U usual, D only where declared, - never (common practice, no source). What
 * is known by name, was sunk by somebody or grows in some years only has to be declared: no other is ranked or planned.
 */
export const PLACE = {
  main_lake_basin: place('open', 'UUD-U-'),
  river_channel: place('rock', 'UUUU--'),
  channel_swing_bank: place('rock', 'UUUU--'),
  bluff: place('rock', 'UDDDD-'),
  main_point: place('rock', 'UUUDUD'),
  secondary_point: place('rock', 'UUD-D-'),
  creek_arm: place('wood', 'UUD-D-'),
  pocket: place('wood', 'UUU-U-'),
  inflow: place('wood', 'UUUDDD'),
  flat: place('open', 'UUUDUU'),
  hump: place('rock', 'UUD-U-'),
  riprap: place('rock', 'UUUUDD'),
  dock: place('dock', 'UUD-UD'),
  standing_timber: place('wood', 'DUD--D'),
  laydown: place('wood', 'UUUUUU'),
  brush: place('brush', 'DUD-DD'),
  flooded_cover: place('wood', 'UUUDDD'),
  grass_edge: place('grass', 'DDDDDD'),
  emergent: place('stems', 'DDDDDU'),
  pads: place('pads', 'DDD-DD'),
  grass_mat: place('mat', 'DDD-DD'),
  bridge: place('rock', 'DDDDD-'),
  marina: place('dock', 'DDD-D-'),
  eddy_seam: place('current', '--DU--'),
  hard_spot: place('rock', 'DDD-D-'),
  ditch: place('wood', 'DDD---'),
  pond_dam: place('open', '-----U'),
} as const satisfies Record<string, PlaceRow>;

export type PlaceId = keyof typeof PLACE;
export const PLACES = idsOf(PLACE);

/** Whether a water has a pocket that can differ from it: of no other may one be spoken. */
export const hasPocket = (places: { readonly has: (place: string) => boolean }): boolean =>
  places.has('pocket') || places.has('inflow');

/** Kinds of place that lie in a pocket's or a creek's own water, not in the main lake's. */
export const POCKET_WATER: ReadonlySet<string> = new Set<PlaceId>(['pocket', 'inflow', 'creek_arm', 'ditch']);
