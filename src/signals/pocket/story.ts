/** What a pocket is doing today and why, as facts in the order in which they are told. */
import { HOUR_MS, localHourAt } from '../../units/time/index.ts';
import type { PocketState } from '../../water/pocket/index.ts';
import type { PocketCause, PocketFact, PocketWhy } from '../facts.ts';
import { causesOf, partsOf } from './causes.ts';
import { runoffOf, type RunoffStory } from './runoff.ts';
import type { SimulatedPocket } from './runs.ts';

/** What is told of one pocket. */
export interface PocketStory {
  readonly pocket: SimulatedPocket;
  /** The hours of the fishing day that are left, at least one, and which of them stand out. */
  readonly left: readonly PocketState[];
  readonly warmest: PocketState;
  readonly coldest: PocketState;
  /** From when runoff counts, and the present, epoch ms. */
  readonly sinceMs: number;
  readonly nowMs: number;
  readonly zone: string;
}

/** Below this a pocket is said to have the temperature of the main lake, K. */
const APART_K = 0.4;
/** Its coldest hour is told of from this on, where that says more than its warmest one, K. */
const COLD_K = 1;
const COLDER_K = 0.5;
/** Runoff that renewed this share is worth a word of its own. */
const RENEWED_SHARE = 0.15;
/** Rain below this is hardly any, mm. */
const RAIN_MM = 2;

/** How a pocket stands to the lake at its warmest and coldest hour, and what the rain and its runoff did. */
export function pocketStory(story: PocketStory): PocketFact[] {
  const { pocket, left, warmest, coldest, sinceMs, nowMs } = story;
  const runoff = runoffOf(pocket, left, sinceMs, nowMs);
  const { ran } = runoff;
  const differenceK = warmest.minusMainC;
  const like = Math.abs(differenceK) < APART_K;
  const cold = coldest.minusMainC <= -COLD_K && (like || differenceK - coldest.minusMainC >= COLDER_K);
  const causes = like ? [] : causesOf(pocket, warmest);
  const [cause] = causes;
  const told: PocketFact[] = like
    ? likeFacts(pocket, warmest, runoff, cold)
    : [
        { code: 'differs', differenceK, why: whyOf(story, warmest, causes, runoff) },
        ...(ran.share >= RENEWED_SHARE && cause !== 'runoff' ? [{ code: 'ranIn' as const, ...ran }] : []),
      ];
  if (ran.share >= RENEWED_SHARE && ran.lasts && runoff.halvedMs !== null)
    told.push({ code: 'effectHalvesIn', ms: Math.max(HOUR_MS, runoff.halvedMs) });
  const rainMm = pocket.run.rainBetweenMm(sinceMs, nowMs);
  if (ran.share < RENEWED_SHARE && (like || cause === 'air') && rainMm >= RAIN_MM)
    // What it did to a pocket of an unknown watershed nobody knows.
    told.push({ code: 'rainRenewed', rainMm, share: pocket.basis === 'class' ? null : ran.share });
  if (cold) told.push(coldFact(story, cause, runoff));
  told.push(...shadeFacts(pocket, warmest));
  if (pocket.basis === 'class') told.push({ code: 'coarseClass' });
  return told;
}

/** Shade below this is not worth a sentence, K, unless the lake's own configuration tells of it. */
const SHADE_K = 0.1;

/** What hills and trees do to its warmest hour. */
function shadeFacts({ shade, run }: SimulatedPocket, warmest: PocketState): PocketFact[] {
  const at = run.hours.findIndex(({ atMs }) => atMs === warmest.atMs);
  const effectK = run.effects.shade?.surfaceK[at];
  if (shade === undefined || effectK === undefined) return [];
  return shade.guessed && Math.abs(effectK) < SHADE_K ? [] : [{ code: 'shaded', ...shade, effectK }];
}

/** A pocket like the lake: what ran in lies below, is gone, or is cancelled by something else. */
function likeFacts(
  pocket: SimulatedPocket,
  hour: PocketState,
  { ran }: RunoffStory,
  cold: boolean,
): PocketFact[] {
  const like = { code: 'likeTheLake', onlyWarmestHour: cold, onlySurface: false } as const;
  if (ran.share < RENEWED_SHARE) return [{ ...like, because: null }];
  const ranIn = { code: 'ranIn', ...ran } as const;
  if (ran.lasts && ran.went === 'sank')
    return cold
      ? [{ ...like, onlySurface: true, because: null }, ranIn]
      : [{ ...like, onlySurface: true, because: ran }];
  const { runoff: runoffK, air: airK } = partsOf(pocket, hour);
  if (Math.min(Math.abs(runoffK), Math.abs(airK)) >= APART_K && runoffK * airK < 0)
    return [{ ...like, because: airK < 0 ? 'coldAirOffsets' : 'sunOffsets' }, ranIn];
  return cold ? [{ ...like, because: null }, ranIn] : [{ ...like, because: ran }];
}

/** What the air does to shallow water; how much of it is sun the model's runs cannot tell apart. */
function airWhy({ atMs, minusMainC }: PocketState, zone: string): PocketWhy {
  if (minusMainC > 0) return { code: 'sunAndAir' };
  const hour = localHourAt(atMs - 1, zone);
  return { code: hour < 10 || hour >= 19 ? 'nightCools' : 'coldAir' };
}

/** Why a pocket differs from the lake: its readings where they say most of it, else what the model made it of. */
function whyOf(
  { pocket, zone }: PocketStory,
  hour: PocketState,
  causes: readonly PocketCause[],
  { ran }: RunoffStory,
): PocketWhy {
  const [cause] = causes;
  const isWarmer = hour.minusMainC > 0;
  if (causes.length > 1) return { code: 'together', causes, isWarmer };
  switch (cause) {
    case 'readings': {
      const freeK = hour.minusMainC - partsOf(pocket, hour).readings;
      return { code: 'readings', freeK: Math.abs(freeK) < APART_K ? null : freeK };
    }
    case 'runoff':
      return ran.share >= RENEWED_SHARE ? { code: 'ranIn', ...ran } : { code: 'runoffMadeIt', isWarmer };
    case 'rainAhead':
      return { code: 'rainToCome', isWarmer };
    case 'stream':
      return { code: 'stream', isWarmer };
    default:
      return airWhy(hour, zone);
  }
}

/** The coldest hour; the cause again only where it is another one than at the warmest hour. */
function coldFact(story: PocketStory, told: PocketCause | undefined, runoff: RunoffStory): PocketFact {
  const { pocket, warmest, coldest, zone } = story;
  const causes = causesOf(pocket, coldest);
  const [cause] = causes;
  const already = cause === told && causes.length === 1 && warmest.minusMainC < 0;
  const why: PocketWhy =
    cause === 'runoff' && causes.length === 1
      ? { code: 'runoffCooledIt', warmth: runoff.ran.warmth }
      : whyOf(story, coldest, causes, runoff);
  return {
    code: 'coldestHour',
    hour: localHourAt(coldest.atMs, zone),
    differenceK: coldest.minusMainC,
    namesLake: warmest.minusMainC > -APART_K,
    why: already ? null : why,
  };
}
