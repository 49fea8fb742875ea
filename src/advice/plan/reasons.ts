import { CIVIL_TWILIGHT_DEG } from '../../science/index.ts';
import { HOUR_MS } from '../../units/time/index.ts';
import { HOUR_REASONS, type HourReason, type HourRules } from '../../config/index.ts';
import { meanBearingDeg } from '../../units/index.ts';
import { hasPocket, isIdOf, PLACE } from '../../vocabulary/index.ts';
import type { CastCard } from '../types.ts';
import type { LocalClock } from './clock.ts';
import type { PlanHour } from './hours.ts';
import { HIGH_SUN_DEG, LOW_SUN_DEG } from './light.ts';
import { withOneCount } from '../positions/named.ts';
import { pointsOf, type HourScore } from './score.ts';
import type { PlanReason } from './types.ts';

/** An hour of a block: its weight in hours, what is known of it, and how the places stand in it. */
export interface BlockHour {
  readonly weightH: number;
  readonly hour: PlanHour | undefined;
  readonly score: HourScore;
}

/** A reason of a block is true of this share of its time at least. */
const MOST_OF_IT = 0.6;
/** Points below which a rule is not worth saying. */
const WORTH_SAYING = 0.15;
const HOURLY_WORTH = 0.1;
const MOST_REASONS = 3;

type Numbers = Partial<Record<string, number>>;

/** Numbers of a stretch: mean of each, weighted by its hours; highest sun; rain in all. Unknown in an hour: unknown. */
export interface Stretch {
  readonly meanOf: (id: string) => number | undefined;
  readonly highestSunDeg: number | undefined;
  readonly lowestSunDeg: number | undefined;
  readonly windFromDeg: number | undefined;
  readonly rainMm: number | undefined;
  /** In some hour of it a hazard keeps boats to sheltered water. */
  readonly keptToLee: boolean;
}

/** The hour in which the middle of a stretch lies; undefined of none. */
export function middleOf(hours: readonly BlockHour[]): BlockHour | undefined {
  const half = hours.reduce((sum, { weightH }) => sum + weightH, 0) / 2;
  let spent = 0;
  return hours.find(({ weightH }) => (spent += weightH) >= half - 1e-9);
}

export function stretchOf(hours: readonly BlockHour[]): Stretch {
  const list = (id: string): number[] | undefined => {
    const found: number[] = [];
    for (const { score } of hours) {
      const value = (score.hour.signals as Numbers)[id];
      if (value === undefined) return undefined;
      found.push(value);
    }
    return found;
  };
  const total = hours.reduce((sum, { weightH }) => sum + weightH, 0);
  const means = new Map<string, number | undefined>();
  const meanOf = (id: string): number | undefined => {
    const values = list(id);
    if (values === undefined || total === 0) return undefined;
    return values.reduce((sum, value, index) => sum + value * (hours[index]?.weightH ?? 0), 0) / total;
  };
  const suns = list('sunAltitudeDeg');
  const winds = hours.flatMap(({ hour }) => hour?.windFromDeg ?? []);
  const rain = hours.map(({ hour, weightH }) =>
    hour?.rainMm === undefined ? undefined : (hour.rainMm * weightH * HOUR_MS) / (hour.toMs - hour.fromMs),
  );
  return {
    meanOf: (id) => {
      if (!means.has(id)) means.set(id, meanOf(id));
      return means.get(id);
    },
    highestSunDeg: suns && Math.max(...suns),
    lowestSunDeg: suns && Math.min(...suns),
    keptToLee: hours.some(({ score }) => score.hour.signals.keptToLee === 1),
    windFromDeg: winds.length === hours.length ? meanBearingDeg(winds) : undefined,
    rainMm: rain.some((value) => value === undefined)
      ? undefined
      : rain.reduce<number>((sum, value) => sum + (value ?? 0), 0),
  };
}

/** Bounds within which a reason may be said of a stretch: what its words claim. */
const OPEN_SKY_PCT = 55;
const WORKING_WIND_MS = 2.5;
const HARD_WIND_MS = 4;
const CALM_MS = 2.5;
const DULL_PCT = 70;
const WARMER_C = 0.5;
const HOT_AIR_C = 29;
const FRONT_FALL_C = 3;
/** Below this, degC, no fish seeks shade; above the other no rock needs the sun. */
const SHADE_FROM_C = 15;
const SUN_HELPS_TO_C = 14;
/** The air may be this much colder than the water, K, and the sun still warms the rock. */
const SUN_AGAINST_AIR_C = 3;
const MORNING_ENDS_H = 10.5;
/** In colder water no wind brings fish to a bank, degC (windward from 10 degC on; common practice, no source). */
const WIND_DRAWS_FROM_C = 10;

/** The fact of an hour's reason with the numbers of a stretch; null where the stretch does not bear it out. */
export function factOf(reason: HourReason, at: Stretch): PlanReason | null {
  const wind = at.meanOf('windMs');
  const cloud = at.meanOf('cloudPct');
  const air = at.meanOf('airNowC');
  const pocket = at.meanOf('pocketMinusMainC');
  const water = at.meanOf('waterC');
  const from = at.windFromDeg === undefined ? {} : { fromDeg: at.windFromDeg };
  switch (reason) {
    case 'lowLight':
      // All through: neither into the day, nor into the night.
      return at.highestSunDeg !== undefined &&
        at.highestSunDeg <= LOW_SUN_DEG &&
        at.lowestSunDeg !== undefined &&
        at.lowestSunDeg > CIVIL_TWILIGHT_DEG
        ? { code: 'lowLight', sunAltitudeDeg: at.highestSunDeg }
        : null;
    case 'dark':
      return at.highestSunDeg !== undefined && at.highestSunDeg <= CIVIL_TWILIGHT_DEG
        ? { code: 'dark', sunAltitudeDeg: at.highestSunDeg }
        : null;
    case 'highSun': {
      // A block from first light on has no high sun, whatever its noon has.
      const sun = at.meanOf('sunAltitudeDeg');
      return sun !== undefined &&
        sun >= HIGH_SUN_DEG &&
        at.lowestSunDeg !== undefined &&
        at.lowestSunDeg > LOW_SUN_DEG &&
        at.highestSunDeg !== undefined &&
        cloud !== undefined &&
        cloud <= OPEN_SKY_PCT &&
        water !== undefined &&
        water >= SHADE_FROM_C
        ? { code: 'highSun', sunAltitudeDeg: at.highestSunDeg, cloudPct: cloud }
        : null;
    }
    case 'cloudCover':
      return cloud !== undefined && cloud >= DULL_PCT ? { code: 'cloudCover', cloudPct: cloud } : null;
    case 'windOnIt':
      return wind !== undefined &&
        wind >= WORKING_WIND_MS &&
        !at.keptToLee &&
        (water ?? WIND_DRAWS_FROM_C) >= WIND_DRAWS_FROM_C
        ? { code: 'windOnIt', windMs: wind, ...from }
        : null;
    case 'sheltered':
      return wind !== undefined && wind >= HARD_WIND_MS ? { code: 'sheltered', windMs: wind, ...from } : null;
    case 'calm':
      return wind !== undefined && wind <= CALM_MS ? { code: 'calm', windMs: wind } : null;
    case 'pocketWarmer':
      return pocket !== undefined && pocket >= WARMER_C
        ? { code: 'pocketWarmer', differenceC: pocket }
        : null;
    case 'pocketColder':
      return pocket !== undefined && pocket <= -WARMER_C
        ? { code: 'pocketColder', differenceC: pocket }
        : null;
    case 'release': {
      const on = at.meanOf('generationOn');
      const current = at.meanOf('currentMs') ?? null;
      const moves = (on !== undefined && on >= 0.5) || (current !== null && current >= 0.1);
      return moves ? { code: 'release', currentMs: current } : null;
    }
    case 'frontPassed': {
      const fall = at.meanOf('airDrop24hC');
      return fall !== undefined && fall >= FRONT_FALL_C ? { code: 'frontPassed', fallC: fall } : null;
    }
    case 'slack': {
      const current = at.meanOf('currentMs');
      return current !== undefined && current < 0.1 ? { code: 'slack' } : null;
    }
    case 'rainFalling':
      return at.rainMm !== undefined && at.rainMm >= 1
        ? { code: 'rainFalling', rainMm: at.rainMm, airC: air ?? null }
        : null;
    case 'sunWarms':
      return air !== undefined &&
        cloud !== undefined &&
        cloud <= OPEN_SKY_PCT &&
        water !== undefined &&
        water <= SUN_HELPS_TO_C &&
        air >= water - SUN_AGAINST_AIR_C &&
        (at.meanOf('sunAltitudeDeg') ?? 0) > LOW_SUN_DEG &&
        (at.meanOf('localHour') ?? 0) >= MORNING_ENDS_H
        ? { code: 'sunWarms', airC: air, cloudPct: cloud }
        : null;
    case 'heat':
      return air !== undefined && air >= HOT_AIR_C ? { code: 'heat', airC: air } : null;
  }
}

/** A reason with the points it gives the place. */
export interface Weighed {
  readonly reason: PlanReason;
  readonly points: number;
}

type Tells = ReadonlyMap<string, HourReason>;
const toldBy = new WeakMap<HourRules, Tells>();

/** Which reason of the hours a rule of the day is told by; kept with the rules, which nobody changes. */
function tellsOf(rules: HourRules): Tells {
  const kept = toldBy.get(rules);
  if (kept !== undefined) return kept;
  const tells: Tells = new Map(
    Object.entries(rules.tells).flatMap(([reason, ids]) => ids.map((id) => [id, reason as HourReason])),
  );
  toldBy.set(rules, tells);
  return tells;
}

/** Fish that begin deeper, and those that a lure is sent deeper for, are not told to feed shallow, m (7 ft; our choice). */
const SHALLOW_M = 2.1;
/** What of a block's depth and lure a reason must fit. */
export interface Fit {
  /** Fish are told to be up, and the lure meets them there. */
  readonly up: boolean;
}

/** What a reason must fit of the depths of the fish, m, and of the cast for them. */
export const fitOf = (
  [top]: readonly [number, number],
  { runningDepthM }: Pick<CastCard, 'runningDepthM'>,
): Fit => ({ up: top <= SHALLOW_M && runningDepthM <= SHALLOW_M });

/** Kinds of place that are a pocket and have its own water: a creek arm's lies between it and the lake. */
export const OF_A_POCKET: ReadonlySet<string> = new Set(['pocket', 'inflow']);
/** What a kind of place is made of where it gives no shade: a high sun sends its fish down. */
const SHADELESS: ReadonlySet<string> = new Set(['open', 'rock', 'current']);

/** A reason as it is true of a place, its depths and its lure; null where it is a reason for another place. */
function fitted(reason: PlanReason, place: string, fit: Fit | undefined): PlanReason | null {
  switch (reason.code) {
    case 'lowLight':
      return fit?.up === false ? null : reason;
    case 'highSun':
      return isIdOf(PLACE, place) && SHADELESS.has(PLACE[place].cover)
        ? { ...reason, sends: 'deeper' }
        : reason;
    case 'pocketWarmer':
      return OF_A_POCKET.has(place) ? reason : null;
    case 'pocketColder':
      return OF_A_POCKET.has(place) ? null : reason;
    default:
      return reason;
  }
}

/** Whether the rules keep a reason from being told of a place in this season. */
const isUntold = (
  reason: HourReason,
  place: string,
  hours: readonly BlockHour[],
  { untold }: HourRules,
): boolean =>
  untold.some(
    ({ reason: kept, places, phases, atLeast }) =>
      kept === reason &&
      places.some((one) => one === place) &&
      hours.some(({ score }) => phases.reduce((sum, phase) => sum + score.membership[phase], 0) >= atLeast),
  );

/**
 * Reasons of the hours for a place, strongest first: those that gain it points through most of the block.
 *
 * @param fit what of its depths and lure they must fit; left out where neither is known
 */
export function hourReasons(
  place: string,
  hours: readonly BlockHour[],
  rules: HourRules,
  fit?: Fit,
): Weighed[] {
  const total = hours.reduce((sum, { weightH }) => sum + weightH, 0);
  const points = new Map<HourReason, number>();
  const time = new Map<HourReason, number>();
  const tells = tellsOf(rules);
  for (const { score, weightH } of hours) {
    const gained = new Map<HourReason, number>();
    const gain = (reason: HourReason | null | undefined, gives: number): void => {
      if (reason === null || reason === undefined) return;
      gained.set(reason, (gained.get(reason) ?? 0) + gives);
    };
    for (const { rule, share } of score.applied) gain(rule.reason, share * pointsOf(rule, place));
    for (const { rule, contribution } of score.scored.get(place)?.evidence ?? []) {
      gain(tells.get(rule), contribution);
    }
    for (const [reason, gives] of gained) {
      points.set(reason, (points.get(reason) ?? 0) + (gives * weightH) / total);
      if (gives >= HOURLY_WORTH) time.set(reason, (time.get(reason) ?? 0) + weightH);
    }
  }
  const stretch = stretchOf(hours);
  // Fish that sit tight behind a front do not feed in the open, however low the light.
  const behindFront = hours.some(({ score }) =>
    score.applied.some(({ rule }) => rule.reason === 'frontPassed'),
  );
  // Where no pocket is ranked nothing is said of one.
  const speaksOfPockets = hours.every(({ score }) => hasPocket(score.totals));
  return [...points]
    .filter(([reason, gives]) => gives >= WORTH_SAYING && (time.get(reason) ?? 0) >= MOST_OF_IT * total)
    .filter(([reason]) => !(behindFront && reason === 'lowLight'))
    .filter(([reason]) => !isUntold(reason, place, hours, rules))
    .filter(([reason]) => speaksOfPockets || (reason !== 'pocketWarmer' && reason !== 'pocketColder'))
    .flatMap(([reason, gives]) => {
      const stands = factOf(reason, stretch);
      const fact = stands === null ? null : fitted(stands, place, fit);
      return fact === null ? [] : [{ reason: fact, points: gives }];
    })
    .sort((a, b) => b.points - a.points);
}

/** Whether what an hour's reason claims is so in these hours too, with their own numbers. */
export const standsIn = (reason: PlanReason, hours: readonly BlockHour[]): boolean =>
  HOUR_REASONS.some((id) => id === reason.code && factOf(id, stretchOf(hours)) !== null);

/** Whether a rule's sentence may be said of an hour at a place. */
export type SayableOf = (rule: string, score: HourScore, place: string) => boolean;

/** Rules of the day for a place, strongest first; each true of every hour of the block. */
function ruleReasons(
  place: string,
  hours: readonly BlockHour[],
  rules: HourRules,
  sayable: SayableOf,
): Weighed[] {
  const middle = middleOf(hours);
  if (middle === undefined) return [];
  const told = tellsOf(rules);
  return withOneCount(
    (middle.score.scored.get(place)?.evidence ?? []).filter(
      ({ rule, contribution }) =>
        contribution >= WORTH_SAYING &&
        !told.has(rule) &&
        hours.every(({ score }) => sayable(rule, score, place)),
    ),
  )
    .map(({ rule, signal, value, contribution }) => ({
      reason: { code: 'rule' as const, rule, signal, value, points: contribution },
      points: contribution,
    }))
    .sort((a, b) => b.points - a.points);
}

/** What makes two reasons the same sentence. */
const sentenceKey = (reason: PlanReason): string =>
  reason.code === 'rule' ? `rule ${reason.rule}` : JSON.stringify(reason);

/**
 * Reasons of a block: those of its hours first, then the day's own; never none, and none that has been said before.
 *
 * @param said  sentences said so far; those of this block are added
 * @param ahead blocks of the same place that follow: of the day's own reasons one is left for each of them
 * @param fit   what of its depths and lure they must fit
 */
export function reasonsOf(
  place: string,
  hours: readonly BlockHour[],
  rules: HourRules,
  sayable: SayableOf,
  said: Set<string>,
  clock: LocalClock,
  ahead: number,
  fit?: Fit,
): PlanReason[] {
  const fresh = ({ reason }: Weighed): boolean => !said.has(sentenceKey(reason));
  const own = hourReasons(place, hours, rules, fit).filter(fresh).slice(0, 2);
  const day = ruleReasons(place, hours, rules, sayable).filter(fresh);
  const here = day.slice(0, Math.max(own.length > 0 ? 0 : 1, Math.min(day.length - ahead, MOST_REASONS)));
  const found = [...own, ...here].slice(0, MOST_REASONS).map(({ reason }) => reason);
  const reasons = found.length > 0 ? found : [leads(place, hours, clock)];
  for (const reason of reasons) said.add(sentenceKey(reason));
  return reasons;
}

/** What is left to say of a place when all else has been said. */
function leads(place: string, hours: readonly BlockHour[], clock: LocalClock): PlanReason {
  const rank = Math.max(
    ...hours.map(({ score }) => {
      const own = score.totals.get(place) ?? -Infinity;
      return 1 + [...score.totals.values()].filter((total) => total > own).length;
    }),
  );
  const [from, to] = [hours[0]?.hour?.fromMs, hours.at(-1)?.hour?.toMs];
  return {
    code: 'ranks',
    place,
    atLeast: rank,
    from: from === undefined ? null : clock.at(from),
    to: to === undefined ? null : clock.at(to),
  };
}
