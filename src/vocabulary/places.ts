import { idsOf } from './ids.ts';
import type { WaterBody } from './waters.ts';

/** Whether a kind of water has a kind of place: as a rule, only where its configuration says so, or never. */
export type Presence = 'usual' | 'declared' | 'never';

/** What the water near a place is made of; decides which words of cover fit. */
export type CoverWords =
  'open' | 'rock' | 'wood' | 'brush' | 'dock' | 'stems' | 'grass' | 'pads' | 'mat' | 'current';

export interface PlaceRow {
  readonly cover: CoverWords;
  readonly on: Readonly<Record<WaterBody, Presence>>;
}

const PRESENCE: Readonly<Record<string, Presence>> = { U: 'usual', D: 'declared', '-': 'never' };

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

/** Kinds of place, and which water has them: U usual, D only where declared, - never (common practice, no source). */
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
  grass_edge: place('grass', 'DDDDUU'),
  emergent: place('stems', 'DDDDUU'),
  pads: place('pads', 'DDD-UD'),
  grass_mat: place('mat', 'DDD-DD'),
  bridge: place('rock', 'UUDDD-'),
  marina: place('dock', 'UDD-D-'),
  eddy_seam: place('current', '--DU--'),
  hard_spot: place('rock', 'DUD-D-'),
  ditch: place('wood', 'UUD---'),
  pond_dam: place('open', '-----U'),
} as const satisfies Record<string, PlaceRow>;

export type PlaceId = keyof typeof PLACE;
export const PLACES = idsOf(PLACE);
