import type { LureBook, LureClass, LurePlace } from '../../config/index.ts';
import type { Conditions } from '../../signals/index.ts';
import { applyWhen, phaseShare } from '../rules/apply.ts';
import { knownOf } from '../rules/known.ts';
import type { PhaseId } from '../types.ts';
import { clamp, ramp, window } from './curves.ts';
import type { Cue, CueFact } from './types.ts';
import { clarityOf, currentAt, type PaceWater } from './water.ts';

/** A window of best temperatures as wide as this is no speciality at all, K. */
const WIDEST_WINDOW_K = 30;

type RawCue = Omit<Cue, 'above'>;

export interface RatedClass {
  readonly lure: LureClass;
  /** 0..1: what the water says, before the bank is asked. */
  readonly suits: number;
  /** Worked out when asked for: of some twenty classes two are told of. */
  readonly cues: readonly Cue[];
}

/** What of the time of year and of day a presentation leans on beyond the signals. */
export interface Season {
  /** Membership of the season phases; without it the situations of a season (beds, fall bait) are silent. */
  readonly membership?: Readonly<Record<PhaseId, number>>;
  /** The sun is well below the horizon. */
  readonly night?: boolean;
}

/** Day, season and place that the classes are rated for. */
export interface LureDay {
  readonly conditions: Conditions;
  readonly place: string;
  readonly traits: LurePlace;
  readonly water: PaceWater;
  readonly season: Season;
}

/** Every class with its score for one place, best first. Unknown signals add nothing to any class. */
export function rateClasses(day: LureDay, book: LureBook): RatedClass[] {
  const most = Object.values(book.weights).reduce((sum, weight) => sum + weight, 0);
  const situations = situationsAt(day, book);
  const alike = alikeOf(day, book);
  const pointsOf = book.classes.map((lure) => cuesOf(day, alike, situations, book, lure));
  let kept: ReturnType<typeof meansOf> | undefined;
  const means = (): ReturnType<typeof meansOf> => (kept ??= meansOf(pointsOf));
  return book.classes
    .map((lure, order): RatedClass & { readonly order: number } => {
      const raw = pointsOf[order] ?? [];
      const sum = raw.reduce((total, cue) => total + cue.points, 0);
      return {
        lure,
        suits: (limitOf(lure, day, book) * sum) / most,
        order,
        get cues() {
          return raw.map((cue) => ({ ...cue, above: cue.points - (means().get(cue.fact.code) ?? 0) }));
        },
      };
    })
    .sort((a, b) => b.suits - a.suits || a.order - b.order);
}

/** A season of which no more than this is in the day is none to choose a lure for: no beds in July. */
const LEAST_SEASON = 0.25;

/** How fully each situation of the book holds today at this place. */
function situationsAt(
  day: LureDay,
  book: LureBook,
): { id: string; share: number; classes: Record<string, number> }[] {
  const known = knownOf(day.conditions);
  const { membership, night } = day.season;
  return book.situations.flatMap(({ id, when, phases, places, classes, atNight }) => {
    if (atNight === true && night !== true) return [];
    if (places !== undefined && !places.includes(day.place)) return [];
    if (phases !== undefined && membership === undefined) return [];
    const applied = applyWhen(when, known);
    const season = membership === undefined ? 1 : phaseShare(phases, membership);
    if (season < LEAST_SEASON) return [];
    const share = (applied?.share ?? 0) * season;
    return share > 0 ? [{ id, share, classes }] : [];
  });
}

/** Nothing is offered that the water, the light or the waves forbid. */
function limitOf(lure: LureClass, day: LureDay, { settings }: LureBook): number {
  const { conditions, water, traits } = day;
  const dark = day.season.night === true && lure.light.night < LEAST_NIGHT ? 0 : 1;
  const wind = conditions.signals.windMs?.value ?? 0;
  const open = lure.family === 'surface' && !SHELTERED.includes(traits.kind);
  const waves = open ? ramp(wind, MOST_WIND_MS, CHOP_MS) : 1;
  const pushMs = wind + settings.windPerCurrent * currentAt(conditions, traits);
  const blown = lure.wind.most !== undefined && pushMs > lure.wind.most ? 0 : 1;
  const hangs = traits.cover === 'heavy' && comesThrough(lure, traits) <= HANGS ? 0 : 1;
  const everyday = lure.everyday ?? 1;
  return (
    temperatureLimit(lure, water) * sightLimit(lure, conditions) * dark * waves * blown * hangs * everyday
  );
}

/** Shares of the least clarity a class is made for between which it goes from hardly ever to as the day has it. */
const BLIND_SHARE = 0.4;
const SEEN_SHARE = 0.85;
/** What is left of a class that no fish sees: something must be tied on. */
const UNSEEN = 0.05;

/** A lure that is found by sight is no lure where nothing is seen of it, whatever else speaks for it. */
function sightLimit(lure: LureClass, conditions: Conditions): number {
  const clarityM = clarityOf(conditions);
  if (clarityM === undefined) return 1;
  const [from] = lure.clarityM;
  return UNSEEN + (1 - UNSEEN) * ramp(clarityM, BLIND_SHARE * from, SEEN_SHARE * from);
}

/** A class that serves the night less than this is none for it. */
const LEAST_NIGHT = 0.5;
/** Over open water a surface lure begins to be lost in the chop, m/s (7 mph), and in waves it is, m/s (12 mph). */
const CHOP_MS = 3.1;
const MOST_WIND_MS = 5.4;
const SHELTERED: readonly LurePlace['kind'][] = ['stems', 'grass', 'pads', 'mat', 'dock'];
/** A class that comes through a kind of cover no better than this hangs in it, of 5. */
const HANGS = 1;

function meansOf(pointsOf: readonly (readonly RawCue[])[]): ReadonlyMap<CueFact['code'], number> {
  const sums = new Map<CueFact['code'], { sum: number; count: number }>();
  for (const cues of pointsOf)
    for (const { fact, points } of cues) {
      const kept = sums.get(fact.code);
      if (kept === undefined) sums.set(fact.code, { sum: points, count: 1 });
      else {
        kept.sum += points;
        kept.count += 1;
      }
    }
  return new Map([...sums].map(([code, { sum, count }]) => [code, sum / count]));
}

/** Mean of the window over the range the temperature may lie in: an unknown temperature favours wide windows. */
function temperatureLimit(lure: LureClass, water: PaceWater): number {
  const { min, bestFrom, bestTo, max } = lure.waterC;
  const at = [water.lowC, water.waterC, water.highC].map((t) => window(t, min, bestFrom, bestTo, max));
  return at.reduce((sum, value) => sum + value, 0) / at.length;
}

/** What a class is worth where it just touches the band, and how far outside the band that fades to nothing, m. */
const TOUCHING = 0.4;
const FADES_OVER_M = 0.5;

/**
 * Share of the depth band a class can serve, 0 to 1, fading to 0 beyond.
 *
 * @param factor depth on this cast and line over the depth it is rated for
 * @param clarityM depth at which a white disc disappears; left out: not known
 */
export function depthLimit(
  lure: LureClass,
  factor: number,
  [top, bottom]: readonly [number, number],
  clarityM?: number,
): number {
  const deepest = lure.depthM[1] * factor + drawsFrom(lure, clarityM);
  const overlap = Math.min(bottom, deepest) - Math.max(top, lure.depthM[0] * factor);
  if (overlap < 0) return TOUCHING * ramp(overlap, -FADES_OVER_M, 0);
  const share = bottom > top ? overlap / (bottom - top) : 1;
  return clamp(TOUCHING + share, 0, 1);
}

/** Sight depths between which the water turns clear for a fish that looks up, m (4 to 8 ft). */
const CLEARS_M = [1.2, 2.4] as const;

/** How far below its path a fish comes up for a lure in this water, m. */
function drawsFrom({ drawsFromM, drawsFromClearM = drawsFromM }: LureClass, clarityM = 0): number {
  return drawsFromM + (drawsFromClearM - drawsFromM) * ramp(clarityM, ...CLEARS_M);
}

/** What a day says to every class alike; undefined: not known. */
interface Alike {
  readonly clarity: Extract<CueFact, { code: 'clarity' }> | undefined;
  /** 0 sluggish, 1 ready to chase. */
  readonly ready: number | undefined;
  /** 0 dark or overcast, 1 full sun. */
  readonly bright: number | undefined;
  /** 0 calm, 1 windy. */
  readonly windy: number | undefined;
}

function alikeOf({ conditions, water }: LureDay, book: LureBook): Alike {
  const clarityM = clarityOf(conditions);
  const measured = conditions.signals.clarityM?.kind !== 'estimated';
  const wind = conditions.signals.windMs?.value;
  const { calmMs, windyMs } = book.settings;
  return {
    clarity: clarityM === undefined ? undefined : { code: 'clarity', clarityM, measured },
    ready: water.basis === 'known' ? readiness(conditions, water.waterC, book) : undefined,
    bright: brightShare(conditions),
    windy: wind === undefined ? undefined : ramp(wind, calmMs, windyMs),
  };
}

function cuesOf(
  { conditions, place, traits, water }: LureDay,
  { clarity, ready, bright, windy }: Alike,
  situations: readonly { id: string; share: number; classes: Record<string, number> }[],
  book: LureBook,
  lure: LureClass,
): RawCue[] {
  const { weights } = book;
  const cues: RawCue[] = [];
  const add = (fact: CueFact, curve: number): void => {
    cues.push({ fact, points: weights[fact.code] * curve });
  };
  if (water.basis === 'known') {
    const { bestFrom, bestTo } = lure.waterC;
    const halfWidth = (bestTo - bestFrom) / 2;
    const centred = clamp(1.5 - Math.abs(water.waterC - (bestFrom + bestTo) / 2) / halfWidth, 0, 1);
    // A lure made for this temperature goes before one that does at any.
    const made = centred * clamp(1 - (2 * halfWidth) / WIDEST_WINDOW_K, 0, 1);
    const best = water.waterC >= bestFrom && water.waterC <= bestTo;
    add(
      { code: 'temperature', waterC: water.waterC, best },
      0.7 * temperatureLimit(lure, water) + 0.3 * made,
    );
  }
  const listed = lure.places.includes(place);
  add({ code: 'place', listed }, listed ? 1 : 0.25);
  add({ code: 'cover', light: traits.cover === 'light' }, coverFit(traits, lure));
  if (clarity !== undefined) add(clarity, clarityFit(lure, clarity.clarityM));
  if (ready !== undefined) {
    add({ code: 'pace', ready: ready >= 0.5 }, 1 - Math.abs(lure.coversWater - (0.25 + 0.65 * ready)));
  }
  if (bright !== undefined) {
    add(
      { code: 'light', bright: bright >= 0.5 },
      lure.light.low + (lure.light.bright - lure.light.low) * bright,
    );
  }
  if (windy !== undefined) {
    add({ code: 'wind', windy: windy >= 0.5 }, lure.wind.calm + (lure.wind.windy - lure.wind.calm) * windy);
  }
  if (conditions.species !== 'mixed') {
    add({ code: 'species', species: conditions.species }, lure.species[conditions.species]);
  }
  let fitting = { id: '', worth: 0 };
  for (const { id, share, classes } of situations) {
    const worth = share * (classes[lure.id] ?? 0);
    if (worth > fitting.worth) fitting = { id, worth };
  }
  const wound = lure.family !== 'bottom' && lure.family !== 'vertical';
  if (fitting.worth > 0) add({ code: 'situation', situation: fitting.id, wound }, fitting.worth);
  return cues;
}

/** How a class comes through what a place is made of, 0 hangs to 5 clean. */
export function comesThrough(lure: LureClass, { kind }: LurePlace): number {
  const { wood, dock, rock, grass, mat } = lure.comesThrough;
  switch (kind) {
    case 'open':
      return 5;
    case 'rock':
    case 'current':
      return rock;
    case 'wood':
    case 'brush':
      return wood;
    case 'dock':
      return dock;
    case 'stems':
    case 'grass':
      return grass;
    case 'pads':
    case 'mat':
      return mat;
  }
}

/** 0 sluggish, 1 ready to chase: by temperature, less after a sharp fall of the air temperature, more in wind. */
function readiness(conditions: Conditions, waterC: number, book: LureBook): number {
  const { activeWaterC, frontDropC, frontLoss, windGain, calmMs, windyMs } = book.settings;
  const drop = conditions.signals.airDrop24hC?.value ?? 0;
  const wind = conditions.signals.windMs?.value ?? 0;
  const front = frontLoss * ramp(drop, 0, frontDropC);
  return clamp(ramp(waterC, ...activeWaterC) - front + windGain * ramp(wind, calmMs, windyMs), 0, 1);
}

function coverFit(traits: LurePlace, lure: LureClass): number {
  if (traits.cover === 'light') return 0.8;
  const clean = comesThrough(lure, traits) / 5;
  return traits.cover === 'heavy' ? clean : 0.4 + 0.6 * clean;
}

function clarityFit(lure: LureClass, clarityM: number): number {
  const [from, to] = lure.clarityM;
  const fits = window(clarityM, from / 3, from, to, to * 2.5);
  // In muddy water a lure is found by what it stirs: quiet ones lose up to half.
  const muddy = ramp(clarityM, 1, 0.3);
  return fits * (1 - 0.5 * muddy * (1 - lure.vibration));
}

/**
 * Under a closed sky the middle of the day is no dusk: its light is a fifth of full sun (from memory), that of sunrise
 * a two-hundredth. Share of full sun as the choice of a lure counts it (common practice, no source).
 */
const OVERCAST = 0.35;

/** 0 dark, 1 full sun; undefined when the sky is unknown. */
function brightShare(conditions: Conditions): number | undefined {
  const { clearSkyShare, cloudPct, lowLightShare } = conditions.signals;
  const sky = clearSkyShare?.value ?? (cloudPct === undefined ? undefined : 1 - cloudPct.value / 100);
  if (sky === undefined) return undefined;
  return Math.max(OVERCAST, clamp(sky, 0, 1)) * (1 - clamp(lowLightShare?.value ?? 0, 0, 1));
}
