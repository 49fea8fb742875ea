import {
  after,
  type ClockSpan,
  cutByLight,
  hourKnown,
  NOTHING_EARLIER,
  type PlanHour,
  type PlanReason,
} from '../advice/plan/index.ts';
import { keptToLee } from '../advice/safety/index.ts';
import { isTrueOf, type Known } from '../advice/rules/index.ts';
import type { Truth } from '../config/index.ts';
import { HOUR_MS, localHourAt } from '../units/time/index.ts';
import { hasPocket } from '../vocabulary/index.ts';
import { betweenDeg } from '../units/index.ts';
import type { World } from './types.ts';

/** A season's sentence needs this much of the season, and none that is more of the day. */
const SEASON_SHARE = 0.35;
/** Where fish are on nests no wind is a reason to be there: this much of the season, and these kinds of place. */
const NESTS = { share: 0.35, places: new Set(['flat', 'emergent', 'pocket']) };
/** Rounding between the claim's number and the one worked out here. */
const SAME = 0.05;

/** A stretch at a place, and what of it hazards take out. */
export interface OpenSpan extends ClockSpan {
  readonly place?: string;
  /** Depths of the fish, m, and the cast for them, where the stretch is a block's. */
  readonly depthM?: readonly [number, number];
  readonly cast?: { readonly runningDepthM: number };
  readonly closed?: readonly ClockSpan[];
}

/** Hours of a stretch with the part of each that lies in it, hours. */
function within(
  hours: readonly PlanHour[],
  span: OpenSpan,
): { readonly hour: PlanHour; readonly weight: number }[] {
  return hours.flatMap((hour) => {
    const [from, to] = [Math.max(hour.fromMs, span.fromMs), Math.min(hour.toMs, span.toMs)];
    const isClosed = span.closed?.some(({ fromMs, toMs }) => fromMs <= from && toMs >= to);
    const weight = isClosed === true ? 0 : (to - from) / 3_600_000;
    return weight > 1e-9 ? [{ hour, weight }] : [];
  });
}

type Pick = (hour: PlanHour) => number | undefined;

/** Mean of a number over a stretch, the day's own value where no hour has one; undefined where it is not known. */
function meanOf(hours: readonly PlanHour[], span: OpenSpan, pick: Pick, day?: number): number | undefined {
  const found = within(hours, span).map(({ hour, weight }) => ({ value: pick(hour) ?? day, weight }));
  if (found.length === 0) return day;
  if (found.some(({ value }) => value === undefined)) return undefined;
  const total = found.reduce((sum, { weight }) => sum + weight, 0);
  return found.reduce((sum, { value, weight }) => sum + (value ?? 0) * weight, 0) / total;
}

const near = (claimed: number, own: number | undefined): boolean =>
  own !== undefined && Math.abs(claimed - own) <= Math.max(SAME, SAME * Math.abs(own));

/** Whether what is said to begin with a stretch is so in its first hour, whatever the mean of the stretch. */
export function holdsAtFirst(reason: PlanReason, span: ClockSpan, world: World): boolean {
  const first = { ...span, toMs: Math.min(span.toMs, span.fromMs + HOUR_MS) };
  const mean = (pick: Pick, day?: number): number => meanOf(world.hours, first, pick, day) ?? Number.NaN;
  const { signals } = world;
  switch (reason.code) {
    case 'highSun':
    case 'cloudCover':
      return reasonHolds(
        { ...reason, cloudPct: mean((hour) => hour.cloudPct, signals.cloudPct) },
        first,
        world,
      );
    case 'windOnIt':
    case 'sheltered':
    case 'calm':
      return reasonHolds({ ...reason, windMs: mean((hour) => hour.windMs, signals.windMs) }, first, world);
    case 'pocketWarmer':
    case 'pocketColder':
      return reasonHolds(
        { ...reason, differenceC: derivedMean(world, first, 'pocketMinusMainC') ?? Number.NaN },
        first,
        world,
      );
    default:
      return true;
  }
}

/** A bank open to a side more than this from where the wind comes from gets none of it; within the other it gets all. */
const AWAY_DEG = 90;
const INTO_DEG = 60;

/** Angle between where the wind comes from and the side a place is open to; undefined where either is not known. */
function offWindDeg(
  fromDeg: number | undefined,
  { place = '' }: OpenSpan,
  { faces }: World,
): number | undefined {
  const side = faces?.get(place);
  return fromDeg === undefined || side === undefined ? undefined : betweenDeg(fromDeg, side);
}

/** Bounds of the light; the gate's own on purpose: a plan whose bounds slip is caught by another's. */
export const CIVIL_DEG = -6;
const LOW_SUN_DEG = 12;
const HIGH_SUN_DEG = 30;
/** What the sun moves in the minutes to which the hours of a plan are rounded, degrees. */
const ROUNDED_DEG = 1;

/** The sun at an instant, degrees, between the middles of the hours beside it; undefined where it is not known. */
function sunAt({ hours }: World, atMs: number): number | undefined {
  const known = hours.flatMap(({ fromMs, toMs, sunAltitudeDeg }) =>
    sunAltitudeDeg === undefined ? [] : [{ atMs: (fromMs + toMs) / 2, sunAltitudeDeg }],
  );
  const later = known.findIndex((point) => point.atMs >= atMs);
  const after = later < 0 ? known.length - 1 : Math.max(1, later);
  const [a, b] = [known[after - 1], known[after]];
  if (a === undefined || b === undefined) return a?.sunAltitudeDeg;
  return a.sunAltitudeDeg + ((b.sunAltitudeDeg - a.sunAltitudeDeg) * (atMs - a.atMs)) / (b.atMs - a.atMs);
}

/** The sun over a stretch: at both its ends and in the middle of every hour between; none where it is not known. */
function lightOver(world: World, span: OpenSpan): number[] {
  const inside = within(world.hours, span);
  if (inside.length === 0 || inside.some(({ hour }) => hour.sunAltitudeDeg === undefined)) return [];
  const [first, last] = [inside[0]?.hour, inside.at(-1)?.hour];
  const [fromMs, toMs] = [Math.max(span.fromMs, first?.fromMs ?? 0), Math.min(span.toMs, last?.toMs ?? 0)];
  const middles = inside.map(({ hour }) => (hour.fromMs + hour.toMs) / 2);
  return [fromMs, ...middles.filter((atMs) => atMs > fromMs && atMs < toMs), toMs].flatMap(
    (atMs) => sunAt(world, atMs) ?? [],
  );
}

/** Whether a kind of light begins where a stretch does: it is so in its first minutes, and was not before them. */
export function lightBegins(light: 'low' | 'day' | 'night', span: ClockSpan, world: World): boolean {
  const kindAt = (atMs: number): string | undefined => {
    const sun = sunAt(world, atMs);
    if (sun === undefined) return undefined;
    return sun <= CIVIL_DEG ? 'night' : sun <= LOW_SUN_DEG ? 'low' : 'day';
  };
  return kindAt(span.fromMs + TURN_MS) === light && kindAt(span.fromMs - TURN_MS) !== light;
}

/** Beside an hour that is rounded to five minutes. */
const TURN_MS = 5 * 60_000;

/** Fish that begin deeper than this do not feed shallow, nor those that a lure runs deeper for, m. */
const SHALLOW_M = 2.1;
const isUp = ({ depthM, cast }: OpenSpan): boolean =>
  (depthM === undefined || depthM[0] <= SHALLOW_M) && (cast === undefined || cast.runningDepthM <= SHALLOW_M);

/** A fall of the air that is surely a front's, K; the plan asks for less. Summer fish sit tight behind none. */
const SURE_FRONT_C = 4;
const isBehindFront = (span: OpenSpan, world: World): boolean =>
  world.membership.summer < 0.5 && (derivedMean(world, span, 'airDrop24hC') ?? 0) >= SURE_FRONT_C;

/** Whether a reason is true of a stretch with this day's numbers, worked out from the hours anew. */
export function reasonHolds(reason: PlanReason, span: OpenSpan, world: World): boolean {
  const { signals } = world;
  const mean = (pick: Pick, day?: number): number | undefined => meanOf(world.hours, span, pick, day);
  const suns = within(world.hours, span).flatMap(({ hour }) => hour.sunAltitudeDeg ?? []);
  const light = lightOver(world, span);
  const wind = mean((hour) => hour.windMs, signals.windMs);
  const cloud = mean((hour) => hour.cloudPct, signals.cloudPct);
  const air = mean((hour) => hour.airC, signals.airNowC);
  const pocket = derivedMean(world, span, 'pocketMinusMainC');
  const { waterC } = signals;
  switch (reason.code) {
    // What is said of the light holds from the first minute of a stretch to its last.
    case 'lowLight':
      return (
        light.length > 0 &&
        light.every((sun) => sun <= LOW_SUN_DEG + ROUNDED_DEG && sun > CIVIL_DEG - ROUNDED_DEG) &&
        isUp(span) &&
        !isBehindFront(span, world)
      );
    case 'dark':
      return light.length > 0 && light.every((sun) => sun <= CIVIL_DEG + ROUNDED_DEG);
    case 'highSun':
      return (
        light.every((sun) => sun > LOW_SUN_DEG - ROUNDED_DEG) &&
        (mean((hour) => hour.sunAltitudeDeg) ?? 0) >= HIGH_SUN_DEG - 1 &&
        near(reason.cloudPct, cloud) &&
        reason.cloudPct <= 55 &&
        waterC !== undefined &&
        waterC >= 15
      );
    case 'cloudCover':
      return near(reason.cloudPct, cloud) && reason.cloudPct >= 70;
    case 'windOnIt':
      return (
        near(reason.windMs, wind) &&
        reason.windMs >= 2.5 &&
        keptToLee(world.lee, span) === undefined &&
        (waterC ?? 10) >= 10 &&
        !(NESTS.places.has(span.place ?? '') && world.membership.spawn >= NESTS.share) &&
        (offWindDeg(reason.fromDeg, span, world) ?? 0) <= AWAY_DEG
      );
    case 'sheltered':
      return (
        near(reason.windMs, wind) &&
        reason.windMs >= 4 &&
        (offWindDeg(reason.fromDeg, span, world) ?? 180) >= INTO_DEG
      );
    case 'calm':
      return near(reason.windMs, wind) && reason.windMs <= 2.5;
    case 'pocketWarmer':
      return hasPocket(world.places) && near(reason.differenceC, pocket) && reason.differenceC >= 0.5;
    case 'pocketColder':
      return hasPocket(world.places) && near(reason.differenceC, pocket) && reason.differenceC <= -0.5;
    case 'release': {
      const on = mean((hour) => hour.generationOn, signals.generationOn);
      return (on ?? 0) >= 0.5 || (signals.currentMs ?? 0) >= 0.1;
    }
    case 'slack':
      return (signals.currentMs ?? 1) < 0.1 || (mean((hour) => hour.generationOn) ?? 1) < 0.5;
    case 'rainFalling': {
      const fallen = within(world.hours, span).reduce(
        (sum, { hour, weight }) =>
          sum + ((hour.rainMm ?? 0) * weight * 3_600_000) / (hour.toMs - hour.fromMs),
        0,
      );
      return near(reason.rainMm, fallen) && fallen >= 1;
    }
    case 'sunWarms':
      return (
        near(reason.airC, air) &&
        waterC !== undefined &&
        waterC <= 14 &&
        reason.airC >= waterC - 3 &&
        suns.some((sun) => sun > 5)
      );
    case 'frontPassed': {
      const warmest = Math.max(
        ...world.hours.filter(({ fromMs }) => fromMs < span.toMs).flatMap(({ airC }) => airC ?? []),
      );
      const fall = Math.max(signals.airDrop24hC ?? 0, air === undefined ? 0 : warmest - air);
      return reason.fallC >= 3 && reason.fallC <= fall + 0.6;
    }
    case 'heat':
      return near(reason.airC, air) && reason.airC >= 29;
    case 'ranks':
      return world.places.has(reason.place);
    case 'rule':
      return ruleHolds(reason.rule, span, world);
  }
}

interface Sentence {
  readonly trueWhen: readonly Truth[] | undefined;
  readonly season: keyof World['membership'] | null;
}

const sentencesOf = new WeakMap<World['positions'], ReadonlyMap<string, Sentence>>();

/** What stands beside the sentence of a rule; read once from rules, which nobody changes. */
function sentenceOf(rule: string, { positions }: World): Sentence | undefined {
  let sentences = sentencesOf.get(positions);
  if (sentences === undefined) sentencesOf.set(positions, (sentences = sentencesIn(positions)));
  return sentences.get(rule);
}

function sentencesIn({ places, modifiers }: World['positions']): ReadonlyMap<string, Sentence> {
  const sentences = new Map<string, Sentence>();
  for (const { id, base } of places)
    for (const [phase, { trueWhen }] of Object.entries(base))
      sentences.set(`base.${id}.${phase}`, { trueWhen, season: phase as keyof World['membership'] });
  for (const { id, trueWhen } of modifiers) sentences.set(id, { trueWhen, season: null });
  return sentences;
}

/** A rule's sentence is true when what stands beside it holds in every hour of the stretch, in its season. */
function ruleHolds(rule: string, span: OpenSpan, world: World): boolean {
  const sentence = sentenceOf(rule, world);
  if (sentence === undefined) return false;
  if (sentence.season !== null) {
    const share = world.membership[sentence.season];
    if (share < SEASON_SHARE || Object.values(world.membership).some((other) => other > share)) return false;
  }
  const { trueWhen } = sentence;
  if (trueWhen === undefined) return true;
  const { species, waterBody, membership, places } = world;
  const derived = derivedOf(world);
  return within([...derived.keys()], span).every(({ hour }) => {
    const signals = { ...derived.get(hour), ...ownOf(hour) };
    return isTrueOf(trueWhen, { species, waterBody, membership, places, signals });
  });
}

type Signals = Known['signals'];

/** Numbers that an hour has of its own. */
function ownOf(hour: PlanHour): Signals {
  const own: Partial<Record<keyof Signals | 'sunAltitudeDeg', number | undefined>> = {
    windMs: hour.windMs,
    cloudPct: hour.cloudPct,
    airNowC: hour.airC,
    sunAltitudeDeg: hour.sunAltitudeDeg,
    pocketMinusMainC: hour.pocketMinusMainC,
    generationOn: hour.generationOn,
  };
  return Object.fromEntries(Object.entries(own).filter(([, value]) => value !== undefined));
}

const derivedBy = new WeakMap<World, ReadonlyMap<PlanHour, Signals>>();

/**
 * The day's numbers as its hours leave them: rain that has fallen since, water that stands while no turbine runs. Hours
 * are cut where the light turns, as blocks are: half an hour of a cloudburst is another pocket than the whole of it.
 */
function derivedOf(world: World): ReadonlyMap<PlanHour, Signals> {
  const kept = derivedBy.get(world);
  if (kept !== undefined) return kept;
  const { species, waterBody, signals, zone } = world;
  const known = new Map<PlanHour, Signals>();
  let earlier = NOTHING_EARLIER;
  for (const hour of cutByLight(world.hours)) {
    const middle = localHourAt((hour.fromMs + hour.toMs) / 2, zone);
    known.set(hour, hourKnown({ species, waterBody, signals }, hour, middle, earlier).known.signals);
    earlier = after(earlier, hour, localHourAt(hour.fromMs, zone));
  }
  derivedBy.set(world, known);
  return known;
}

/** Mean over a stretch of a number that the hours leave; undefined where it is not known. */
function derivedMean(
  world: World,
  span: OpenSpan,
  id: 'pocketMinusMainC' | 'airDrop24hC',
): number | undefined {
  const derived = derivedOf(world);
  return meanOf([...derived.keys()], span, (hour) => derived.get(hour)?.[id]);
}
