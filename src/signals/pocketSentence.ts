/** What a pocket is doing today and why, in short sentences with quantities as placeholders. */
import { HOUR_MS } from '../units/calendar.ts';
import { localHourAt } from '../units/localTime.ts';
import { inert, quantity } from '../units/placeholder.ts';
import type { PocketState } from '../water/pocket/index.ts';
import { causesOf, partsOf, type Cause } from './pocketCauses.ts';
import type { SimulatedPocket } from './pocketRuns.ts';
import { runoffOf, type RunoffStory } from './pocketRunoff.ts';
import { clockWords, spanWords } from './words.ts';

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
/** Runoff that renewed less than the first is hardly any; from the second on it is worth a word of its own. */
const HARDLY_SHARE = 0.05;
const RENEWED_SHARE = 0.15;
/** Rain below this is hardly any, mm. */
const RAIN_MM = 2;

/** How a pocket stands to the lake at its warmest and coldest hour, and what the rain and its runoff did. */
export function pocketSentence(story: PocketStory): string {
  const { pocket, left, warmest, coldest, sinceMs, nowMs } = story;
  const runoff = runoffOf(pocket, left, sinceMs, nowMs);
  const differenceK = warmest.minusMainC;
  const like = Math.abs(differenceK) < APART_K;
  const cold = coldest.minusMainC <= -COLD_K && (like || differenceK - coldest.minusMainC >= COLDER_K);
  const causes = like ? [] : causesOf(pocket, warmest);
  const [cause] = causes;
  const told = like
    ? likeWords(pocket, warmest, runoff, cold)
    : [
        `${apart(differenceK)} than the main lake ${differenceK < 0 ? 'even ' : ''}at its warmest hour: ${whyOf(story, warmest, causes, runoff)}.`,
        ...(runoff.renewed >= RENEWED_SHARE && cause !== 'runoff' ? [`${capital(ranIn(runoff))}.`] : []),
      ];
  if (runoff.renewed >= RENEWED_SHARE && runoff.lasts && runoff.halvedMs !== null)
    told.push(
      `Half of the runoff’s effect should be gone in about ${spanWords(Math.max(HOUR_MS, runoff.halvedMs))}.`,
    );
  if (runoff.renewed < RENEWED_SHARE && (like || cause === 'air'))
    told.push(...rainWords(pocket, pocket.run.rainBetweenMm(sinceMs, nowMs), runoff.renewed));
  if (cold) told.push(coldWords(story, cause, runoff));
  if (pocket.basis === 'class') told.push('Coarse class: its watershed or depth is not configured.');
  return told.join(' ');
}

const apart = (minusMainC: number): string =>
  `{{temperatureDifference:${Math.abs(minusMainC).toFixed(2)}}} ${minusMainC > 0 ? 'warmer' : 'colder'}`;

const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

const shareWords = (share: number): string =>
  share > 0.975 ? 'all' : `about {{share:${(Math.round(share * 20) / 20).toFixed(2)}}}`;

const WENT = { sank: ' and sank below', floated: ' and stayed on top' } as const;

/** `colder runoff renewed all of its water and sank below`. */
function ranIn({ renewed, name, went, lasts, mattered }: RunoffStory): string {
  const ran = `${name} renewed ${shareWords(renewed)} of its water`;
  if (lasts) return `${ran}${went === undefined ? '' : WENT[went]}`;
  const sank = went === 'sank' ? ' and sank' : '';
  return `${ran}${sank}, but ${mattered ? 'its effect is gone' : 'hardly changed its temperature'}`;
}

/** A pocket like the lake: what ran in lies below, is gone, or is cancelled by something else. */
function likeWords(pocket: SimulatedPocket, hour: PocketState, runoff: RunoffStory, cold: boolean): string[] {
  const like = 'bout the temperature of the main lake';
  const opening = cold ? `At its warmest hour a${like}` : `A${like}`;
  if (runoff.renewed < RENEWED_SHARE) return [`${opening}.`];
  const ran = ranIn(runoff);
  if (runoff.lasts && runoff.went === 'sank')
    return cold ? [`${opening} at the surface.`, `${capital(ran)}.`] : [`At the surface a${like}: ${ran}.`];
  const { runoff: runoffK, air: airK } = partsOf(pocket, hour);
  if (Math.min(Math.abs(runoffK), Math.abs(airK)) >= APART_K && runoffK * airK < 0)
    return [
      `${opening}: ${airK < 0 ? 'cold air takes back what runoff brought' : 'the sun makes up for colder runoff'}.`,
      `${capital(ran)}.`,
    ];
  return cold ? [`${opening}.`, `${capital(ran)}.`] : [`${opening}: ${ran}.`];
}

const warmly = (minusMainC: number): string => (minusMainC > 0 ? 'warmer' : 'colder');

/** What the air does to shallow water; how much of it is sun the model's runs cannot tell apart. */
function airWords({ atMs, minusMainC }: PocketState, zone: string): string {
  if (minusMainC > 0) return 'sun and air warm shallow water faster';
  const hour = localHourAt(atMs - 1, zone);
  return hour < 10 || hour >= 19 ? 'shallow water cools at night' : 'cold air cools shallow water faster';
}

/** Why a pocket differs from the lake: its readings where they say most of it, else what the model made it of. */
function whyOf(
  { pocket, zone }: PocketStory,
  hour: PocketState,
  causes: readonly Cause[],
  runoff: RunoffStory,
): string {
  const [cause] = causes;
  const by = warmly(hour.minusMainC);
  if (causes.length > 1) return `${listWords(causes.map((one) => nounOf(one, hour.minusMainC)))} together`;
  switch (cause) {
    case 'readings': {
      const freeK = hour.minusMainC - partsOf(pocket, hour).readings;
      return Math.abs(freeK) < APART_K
        ? 'so say readings taken there; the weather alone would leave it at the temperature of the lake'
        : `so say readings taken there; the weather alone would make it ${apart(freeK)}`;
    }
    case 'runoff':
      return runoff.renewed >= RENEWED_SHARE ? ranIn(runoff) : `runoff of the last days made it ${by}`;
    case 'rainAhead':
      return `rain that is still to come runs in ${by}`;
    case 'stream':
      return `its stream runs in ${by}`;
    default:
      return airWords(hour, zone);
  }
}

const listWords = (words: readonly string[]): string =>
  [words.slice(0, -1).join(', '), words.at(-1) ?? ''].filter((part) => part !== '').join(' and ');

function nounOf(cause: Cause, minusMainC: number): string {
  if (cause === 'air') return minusMainC > 0 ? 'sun and air' : 'cold air';
  return {
    readings: 'what readings there say',
    runoff: 'runoff',
    rainAhead: 'rain to come',
    stream: 'the stream',
  }[cause];
}

/** What a rain did that renewed little: of a class pocket nobody knows. */
function rainWords({ basis }: SimulatedPocket, rainMm: number, renewed: number): string[] {
  if (rainMm < RAIN_MM) return [];
  const rain = `the ${quantity('rain', rainMm)} of rain`;
  if (basis === 'class') return [`How much of ${rain} ran into it is not known.`];
  return [
    `${capital(rain)} renewed ${renewed < HARDLY_SHARE ? 'hardly any' : shareWords(renewed)} of its water.`,
  ];
}

/** The coldest hour; the cause again only where it is another one than at the warmest hour. */
function coldWords(story: PocketStory, told: Cause | undefined, runoff: RunoffStory): string {
  const { pocket, warmest, coldest, zone } = story;
  const causes = causesOf(pocket, coldest);
  const [cause] = causes;
  const already = cause === told && causes.length === 1 && warmest.minusMainC < 0;
  const why =
    cause === 'runoff' && causes.length === 1
      ? `${inert(runoff.name)} cooled it`
      : whyOf(story, coldest, causes, runoff);
  const than = warmest.minusMainC <= -APART_K ? '' : ' than the lake';
  return `Near ${clockWords(coldest.atMs, zone)} it should be ${apart(coldest.minusMainC)}${than}${already ? '' : `: ${why}`}.`;
}
