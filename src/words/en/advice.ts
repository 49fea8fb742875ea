import type { RuleText } from '../../config/index.ts';
import {
  type ConfidenceFact,
  type LeadFact,
  type LimitFact,
  type PeriodFact,
  type ReasonFact,
  type RuleFact,
  type SeasonFact,
  STEADY_BELOW,
  type SwapFact,
} from '../../advice/index.ts';
import { SIGNALS, type SignalId, type WaterBody } from '../../vocabulary/index.ts';
import { quantity } from '../../units/index.ts';
import type { Catalogue } from '../catalogue.ts';
import { capital } from '../letters.ts';
import { ruleAgainst, ruleWords } from '../ruleWords.ts';

export const placeName = (text: RuleText, place: string): string => ruleWords(text, `place.${place}.name`);

const sentenceOf = (words: string): string => `${capital(words)}.`;
const list = (words: readonly string[]): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1) ?? ''}`;

const dayLong = (hours: number | null): string[] =>
  hours === null ? [] : [`the day is ${Math.round(hours * 10) / 10} hours long`];

/** What the water is called whose temperature is told: a main lake has arms and pockets that may differ. */
const WATER: Readonly<Record<WaterBody, string>> = {
  'highland-reservoir': 'the main lake',
  'hill-land-reservoir': 'the main lake',
  'run-of-river': 'the main river',
  tailwater: 'the water below the dam',
  'natural-lake': 'the main lake',
  pond: 'the pond',
};

const seasonWords = (text: RuleText): Catalogue<SeasonFact> => ({
  waterUnknown: ({ dayLengthH, partly }) => {
    const light = dayLong(dayLengthH);
    const basis = light.length === 0 ? 'The season is open' : `By the calendar only: ${light.join('')}`;
    const mixed = partly === null ? '' : ` It may also be ${ruleWords(text, `phase.${partly}.name`)}.`;
    return `${basis}, and the lake temperature is unknown.${mixed}`;
  },
  byWater: ({ leading, waterC, waterChange7dC, dayLengthH, partly, waterBody, byDate }) => {
    const trend =
      waterChange7dC === null
        ? 'its trend is unknown'
        : `${quantity('temperatureDifference', waterChange7dC, true)} over the week`;
    const facts = [
      `${waterBody === undefined ? 'the main lake' : WATER[waterBody]} is at ${quantity('temperature', waterC)}, ${trend}`,
      ...dayLong(dayLengthH),
    ].join(', and ');
    const mixed =
      partly === null
        ? ''
        : ` It is also partly ${ruleWords(text, `phase.${partly}.name`)}: ${ruleWords(text, `phase.${partly}.sentence`)}.`;
    const season =
      byDate === true
        ? `${ruleWords(text, `phase.${leading}.name`)} by the calendar: water out of a dam tells no season`
        : ruleWords(text, `phase.${leading}.sentence`);
    return [season, facts].map(sentenceOf).join(' ') + (byDate === true ? '' : mixed);
  },
});

const ruleCatalogue = (text: RuleText): Catalogue<RuleFact> => ({
  rule: ({ rule }) => ruleWords(text, rule),
});

const reasonWords = (text: RuleText): Catalogue<ReasonFact> => ({
  ...ruleCatalogue(text),
  timeless: ({ place }) => ruleWords(text, `place.${place}.timeless`),
});

const limitWords = (text: RuleText): Catalogue<LimitFact> => ({
  rule: ({ rule }) => ruleAgainst(text, rule),
  ownLimit: ({ place }) => ruleWords(text, `place.${place}.limitedBy`),
});

const periodWords = (text: RuleText): Catalogue<PeriodFact> => ({
  ...ruleCatalogue(text),
  wholeDay: () => 'nothing known today sets one part of the day apart',
  onlyCool: () => 'the heat leaves only the cooler hours',
  noDaylight: () => 'no daylight is left today',
  onlyHot: () => 'only hours of dangerous heat are left today',
  onlyOpen: () => 'hazards leave only these hours',
  onlyClosed: () => 'hazards close its hours',
  bestIsPast: () => 'the hours that suit it best are past',
});

const leadWords = (text: RuleText): Catalogue<LeadFact> => ({
  close: ({ first, second }) =>
    `Close: ${placeName(text, first)} and ${placeName(text, second)} are nearly level, so try both before deciding.`,
  ahead: ({ first, second }) => `${capital(placeName(text, first))} is ahead of ${placeName(text, second)}.`,
});

/** What went up or down, over which time: the verb for more and for less, as it was and as it is. */
interface Change {
  readonly what: string;
  readonly over: string;
  readonly more: readonly [had: string, instead: string];
  readonly less: readonly [had: string, instead: string];
}

const RISE = ['risen', 'rising'] as const;
const FALL = ['fallen', 'falling'] as const;
const WARM = ['warmed', 'warming'] as const;
const COOL = ['cooled', 'cooling'] as const;

const CHANGES: Partial<Record<SignalId, Change>> = {
  level24hM: { what: 'lake', over: ' in a day', more: RISE, less: FALL },
  level72hM: { what: 'lake', over: ' in three days', more: RISE, less: FALL },
  waterChange3dC: { what: 'lake', over: ' in three days', more: WARM, less: COOL },
  waterChange7dC: { what: 'lake', over: ' in a week', more: WARM, less: COOL },
  // A fall counts as positive.
  airDrop24hC: { what: 'air', over: ' in a day', more: COOL, less: WARM },
  airTrend3dCPerDay: { what: 'air', over: ' over three days', more: WARM, less: COOL },
};

const steady = (signal: SignalId, value: number): boolean => Math.abs(value) < (STEADY_BELOW[signal] ?? 0);

function changed({ what, over, more, less }: Change, signal: SignalId, to: number, from: number): string {
  const amount = (value: number): string => quantity(SIGNALS[signal], Math.abs(value));
  const side = (value: number): Change['more'] => (value > 0 ? more : less);
  const had = steady(signal, to) ? 'held steady' : `${side(to)[0]} ${amount(to)}`;
  const instead = steady(signal, from) ? 'holding steady' : `${side(from)[1]} ${amount(from)}`;
  return `Had the ${what} ${had}${over} instead of ${instead}`;
}

const dayRun = (value: number): string => {
  const days = Math.round(value);
  if (days === 0) return 'no run of warming or cooling days';
  const size = Math.abs(days);
  return `${size} ${days > 0 ? 'warming' : 'cooling'} ${size === 1 ? 'day' : 'days in a row'}`;
};

const pocketAgainst = (value: number, than: string): string =>
  steady('pocketMinusMainC', value)
    ? 'just as warm'
    : `${quantity('temperatureDifference', Math.abs(value))} ${value > 0 ? 'warmer' : 'colder'}${than}`;

/** `Had the lake fallen 0.4 ft in a day instead of rising 0.4 ft`: signed changes by their verb, not by a minus sign. */
function condition(signal: SignalId, to: number, from: number, words: string): string {
  const change = CHANGES[signal];
  if (change !== undefined) return changed(change, signal, to, from);
  if (signal === 'warmingDays') return `With ${dayRun(to)} instead of ${dayRun(from)}`;
  if (signal === 'pocketMinusMainC') {
    const than = ' than the main lake';
    return `If the pockets were ${pocketAgainst(to, than)} instead of ${pocketAgainst(from, '')}`;
  }
  const kind = SIGNALS[signal];
  return `If the ${words} were ${quantity(kind, to)} instead of ${quantity(kind, from)}`;
}

const swapWords = (text: RuleText): Catalogue<SwapFact> => {
  const name = (signal: SignalId): string => ruleWords(text, `matters.${signal}`);
  const then = ({ first, second }: SwapFact): string =>
    `${placeName(text, second)} would come before ${placeName(text, first)}.`;
  return {
    changed: (fact) => `${condition(fact.signal, fact.to, fact.from, name(fact.signal))}, ${then(fact)}`,
    measured: (fact) =>
      `If you measure a ${name(fact.signal)} of ${quantity(SIGNALS[fact.signal], fact.to)}, ${then(fact)}`,
  };
};

const confidenceWords = (text: RuleText): Catalogue<ConfidenceFact> => ({
  seasonClear: () => 'the season phase is clear',
  placeClear: () => 'the first place is clear',
  seasonBetween: () => 'the day lies between two season phases',
  placesClose: () => 'first and second place are close',
  forecastEnds: () => 'the forecast ends before the day does',
  timeOfYearUnknown: () => 'the time of year is unknown',
  unknown: ({ signals }) => `unknown: ${list(signals.map((signal) => ruleWords(text, `matters.${signal}`)))}`,
  allKnown: () => 'nothing that the rules ask for is missing',
  ageing: ({ count, signals }) => {
    const are = count === 1 ? 'is' : 'are';
    if (signals === undefined)
      return `${count === 1 ? 'one figure' : `${count} figures`} ${are} some hours old`;
    return `${list(signals.map((signal) => ruleWords(text, `matters.${signal}`)))} ${are} some hours old`;
  },
});

/** What the advice says of season, places and ranking. Rules say their own sentences, which come with the rules. */
export const advice = {
  season: seasonWords,
  reason: reasonWords,
  limit: limitWords,
  period: periodWords,
  lead: leadWords,
  swap: swapWords,
  confidence: confidenceWords,
  /** @param parts clauses, what is clear first */
  confidenceLine: (parts: readonly string[]): string => capital(`${parts.join('; ')}.`),
  noReason: 'Nothing known today speaks for it.',
};
