import { idsOf } from './ids.ts';
import type { WaterBody } from './waters.ts';

/**
 * Whether a kind of water has a kind of place: as a rule; likely, so that it is ranked but planned only where it is
 * declared; only where its configuration says so; or never.
 */
export type Presence = 'usual' | 'likely' | 'declared' | 'never';

/** What the water near a place is made of; decides which words of cover fit. */
export type CoverWords =
  'open' | 'rock' | 'wood' | 'brush' | 'dock' | 'stems' | 'grass' | 'pads' | 'mat' | 'current';

export interface PlaceRow {
  readonly cover: CoverWords;
  readonly on: Readonly<Record<WaterBody, Presence>>;
}

const PRESENCE: Readonly<Record<string, Presence>> = {
  U: 'usual',
  L: 'likely',
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
 * Kinds of place, and which water has them: U usual, L likely, D only where declared, - never (common practice, no
 * source). What is known by name or grows in some years only, a bridge or a mat of grass, has to be declared.
 */
export const PLACE = {
  main_lake_basin: place('open', 'UUL-U-'),
  river_channel: place('rock', 'UUUU--'),
  channel_swing_bank: place('rock', 'UUUU--'),
  bluff: place('rock', 'ULLLL-'),
  main_point: place('rock', 'UUULUL'),
  secondary_point: place('rock', 'UUL-L-'),
  creek_arm: place('wood', 'UUL-L-'),
  pocket: place('wood', 'UUU-U-'),
  inflow: place('wood', 'UUULLL'),
  flat: place('open', 'UUULUU'),
  hump: place('rock', 'UUL-U-'),
  riprap: place('rock', 'UUUULL'),
  dock: place('dock', 'UUL-UL'),
  standing_timber: place('wood', 'LUL--L'),
  laydown: place('wood', 'UUUUUU'),
  brush: place('brush', 'LUL-LL'),
  flooded_cover: place('wood', 'UUULLL'),
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
