/** What a pocket does and why, one sentence a fact. */
import { quantity } from '../../units/index.ts';
import type { PocketCause, PocketFact, PocketWhy, RanIn, RunoffWarmth } from '../../signals/index.ts';
import { HOUR_MS } from '../../units/time/index.ts';
import { say, type Catalogue } from '../catalogue.ts';
import { spanWords } from './signals.ts';
import { capital, clockWords } from '../letters.ts';

/** Shade that changes less is told by its hours alone, K. */
const SHADE_TOLD_K = 0.05;
/** Renewed shares below this are hardly any. */
const HARDLY_SHARE = 0.05;

const RUNOFF: Readonly<Record<RunoffWarmth, string>> = {
  warmer: 'warmer runoff',
  warmerMuddy: 'warmer but muddy runoff',
  colder: 'colder runoff',
  alike: 'runoff',
};

const warmly = (isWarmer: boolean): string => (isWarmer ? 'warmer' : 'colder');

const apart = (differenceK: number): string =>
  `{{temperatureDifference:${Math.abs(differenceK).toFixed(2)}}} ${warmly(differenceK > 0)}`;

const shareWords = (share: number): string =>
  share > 0.975 ? 'all' : `about {{share:${(Math.round(share * 20) / 20).toFixed(2)}}}`;

const WENT = { sank: ' and sank below', floated: ' and stayed on top' } as const;

/** `colder runoff renewed all of its water and sank below`. */
function ranIn({ share, warmth, went, lasts, mattered }: RanIn): string {
  const ran = `${RUNOFF[warmth]} renewed ${shareWords(share)} of its water`;
  if (lasts) return `${ran}${went === undefined ? '' : WENT[went]}`;
  const sank = went === 'sank' ? ' and sank' : '';
  return `${ran}${sank}, but ${mattered ? 'its effect is gone' : 'hardly changed its temperature'}`;
}

const list = (words: readonly string[]): string =>
  [words.slice(0, -1).join(', '), words.at(-1) ?? ''].filter((part) => part !== '').join(' and ');

function nounOf(cause: PocketCause, isWarmer: boolean): string {
  if (cause === 'air') return isWarmer ? 'sun and air' : 'cold air';
  return {
    readings: 'what readings there say',
    runoff: 'runoff',
    rainAhead: 'rain to come',
    stream: 'the stream',
  }[cause];
}

const why: Catalogue<PocketWhy> = {
  together: ({ causes, isWarmer }) => `${list(causes.map((cause) => nounOf(cause, isWarmer)))} together`,
  readings: ({ freeK }) =>
    freeK === null
      ? 'so say readings taken there; the weather alone would leave it at the temperature of the lake'
      : `so say readings taken there; the weather alone would make it ${apart(freeK)}`,
  ranIn,
  runoffMadeIt: ({ isWarmer }) => `runoff of the last days made it ${warmly(isWarmer)}`,
  runoffCooledIt: ({ warmth }) => `${RUNOFF[warmth]} cooled it`,
  rainToCome: ({ isWarmer }) => `rain that is still to come runs in ${warmly(isWarmer)}`,
  stream: ({ isWarmer }) => `its stream runs in ${warmly(isWarmer)}`,
  sunAndAir: () => 'sun and air warm shallow water faster',
  nightCools: () => 'shallow water cools at night',
  coldAir: () => 'cold air cools shallow water faster',
};

const OFFSETS = {
  coldAirOffsets: 'cold air takes back what runoff brought',
  sunOffsets: 'the sun makes up for colder runoff',
} as const;

/** Local clock time of a decimal hour, `06:00`. */
const fact: Catalogue<PocketFact> = {
  differs: ({ differenceK, why: reason }) =>
    `${apart(differenceK)} than the main lake ${differenceK < 0 ? 'even ' : ''}at its warmest hour: ${say(why, reason)}.`,
  likeTheLake: ({ onlyWarmestHour, onlySurface, because }) => {
    const like = 'bout the temperature of the main lake';
    const opening = onlyWarmestHour
      ? `At its warmest hour a${like}${onlySurface ? ' at the surface' : ''}`
      : onlySurface
        ? `At the surface a${like}`
        : `A${like}`;
    if (because === null) return `${opening}.`;
    return `${opening}: ${typeof because === 'string' ? OFFSETS[because] : ranIn(because)}.`;
  },
  ranIn: (ran) => `${capital(ranIn(ran))}.`,
  effectHalvesIn: ({ ms }) =>
    `Half of the runoff’s effect should be gone in about ${spanWords(Math.max(HOUR_MS, ms))}.`,
  rainRenewed: ({ rainMm, share }) => {
    const rain = `the ${quantity('rain', rainMm)} of rain`;
    return share === null
      ? `How much of ${rain} ran into it is not known.`
      : `${capital(rain)} renewed ${share < HARDLY_SHARE ? 'hardly any' : shareWords(share)} of its water.`;
  },
  coldestHour: ({ hour, differenceK, namesLake, why: reason }) =>
    `Near ${clockWords(hour)} it should be ${apart(differenceK)}${namesLake ? ' than the lake' : ''}${
      reason === null ? '' : `: ${say(why, reason)}`
    }.`,
  shaded: ({ sunH, effectK, guessed }) =>
    `${guessed ? 'Trees and hills, by a guess,' : 'Its surroundings'} leave it ${quantity('hours', sunH)} of direct sun today${
      Math.abs(effectK) < SHADE_TOLD_K ? '' : ` and make it ${apart(effectK)} than open water would be`
    }.`,
  coarseClass: () => 'Coarse class: its watershed or depth is not configured.',
};

export const en = { fact };
