import { capital } from '../letters.ts';
import type { RuleText } from '../../config/index.ts';
import type {
  GiveUp,
  LeftOut,
  NoPattern,
  NotPlanned,
  PlanChange,
  PlanReason,
} from '../../advice/plan/index.ts';
import { eighthOf, quantity } from '../../units/index.ts';
import { say, type Catalogue } from '../catalogue.ts';
import { ruleWords } from '../ruleWords.ts';

/** Sides of the water and where the wind is from, from the north on with the sun. */
export const POINTS = [
  'north',
  'northeast',
  'east',
  'southeast',
  'south',
  'southwest',
  'west',
  'northwest',
] as const;

/** Eighth of the compass that a direction lies in. */
export const pointOf = (deg: number): string => POINTS[eighthOf(deg)] ?? '';
const article = (word: string): string => `${/^[aeiou]/.test(word) ? 'an' : 'a'} ${word}`;
const sentence = (words: string): string => `${capital(words).replace(/\.$/, '')}.`;

/** What a reason is, as a part of a sentence: "the wind blows onto it". */
const reasonClause = (text: RuleText): Catalogue<PlanReason> => ({
  rule: ({ rule }) => ruleWords(text, rule).replace(/\.$/, ''),
  lowLight: () => 'the light is low, and fish feed shallow and in the open',
  highSun: ({ sends }) =>
    sends === 'deeper'
      ? 'the sun stands in an open sky, which sends fish deeper'
      : 'the sun stands in an open sky, which draws fish to shade and cover',
  cloudCover: () => 'cloud keeps the light low',
  windOnIt: ({ windMs, fromDeg }) =>
    fromDeg === undefined
      ? `a wind of ${quantity('windSpeed', windMs)} works on it`
      : `${article(pointOf(fromDeg))} wind of ${quantity('windSpeed', windMs)} works on it`,
  sheltered: ({ windMs }) => `it lies out of the wind of ${quantity('windSpeed', windMs)}`,
  calm: ({ windMs }) => `the air is nearly still, ${quantity('windSpeed', windMs)}`,
  pocketWarmer: ({ differenceC }) =>
    `the pocket is about ${quantity('temperatureDifference', differenceC)} warmer than the main lake`,
  pocketColder: ({ differenceC }) =>
    `the pocket is about ${quantity('temperatureDifference', -differenceC)} colder than the main lake`,
  release: ({ currentMs }) =>
    currentMs === null
      ? 'water is let through and moves'
      : `water moves at about ${quantity('lureSpeed', currentMs)}`,
  slack: () => 'the water is slack there',
  sunWarms: ({ airC }) =>
    `the sun has had hours on it, in air of ${quantity('temperature', airC)} on average`,
  frontPassed: ({ fallC }) =>
    `the air has fallen by ${quantity('temperatureDifference', fallC)}, and fish sit tight on steep banks and cover`,
  dark: () => 'fish come up after dark',
  rainFalling: ({ rainMm }) => `rain falls on it, about ${quantity('rain', rainMm)}`,
  heat: ({ airC }) => `the air is near ${quantity('temperature', airC)}`,
  ranks: ({ atLeast }) =>
    atLeast === 1
      ? 'no other place of this water ranks above it then'
      : 'it is among the better places of this water then',
});

/** What is over of the place before, of what has an opposite. */
const OVER: Readonly<Partial<Record<PlanReason['code'], string>>> = {
  lowLight: 'the light is no longer low',
  highSun: 'the sun no longer stands high in an open sky',
  cloudCover: 'cloud no longer keeps the light low',
  windOnIt: 'the wind no longer works on the place before',
  sheltered: 'the place before no longer lies out of the wind',
  calm: 'the air is no longer still',
  pocketWarmer: 'the pocket is hardly warmer than the main lake any more',
  release: 'the water no longer moves there',
  slack: 'the water is no longer slack there',
  dark: 'it is no longer dark',
  rainFalling: 'no more rain falls on it',
};

/** The light that begins where one stays and ties on another lure. */
const LIGHT = { low: 'the light is low', day: 'the light is no longer low', night: 'it is dark' } as const;

const changeWords = (text: RuleText): Catalogue<PlanChange> => ({
  reason: ({ at, reason }) => sentence(`from ${at} ${say(reasonClause(text), reason)}`),
  over: ({ at, reason }) =>
    sentence(
      `from ${at} ${OVER[reason.code] ?? `what spoke for the place before is over: ${say(reasonClause(text), reason)}`}`,
    ),
  hazardEnds: ({ at, hazard }) =>
    `From ${at} the hours closed for ${ruleWords(text, `safety.${hazard}.label`).toLowerCase()} are over.`,
  light: ({ at, light }) => `From ${at} ${LIGHT[light]}.`,
  fished: () => 'A change of place.',
});

const GIVE_UP: Catalogue<GiveUp> = {
  noBite: ({ minutes }) => `After ${minutes} minutes without a bite try another such place.`,
  noWarmth: ({ leastDifferenceC, minutes }) =>
    `Leave when you measure less than ${quantity('temperatureDifference', leastDifferenceC)} above the main lake, or after ${minutes} minutes without a bite.`,
  windGone: ({ belowMs, minutes }) =>
    `Leave when the wind drops below ${quantity('windSpeed', belowMs)}, or after ${minutes} minutes without a bite.`,
  currentGone: ({ minutes }) =>
    `Leave when the water stands still, or after ${minutes} minutes without a bite.`,
};

const NO_PATTERN: Catalogue<NoPattern> = {
  noneNear: () => 'No other place comes near today.',
  samePlace: () => 'They are at the same places today.',
  noTendency: () => 'No difference is known for this season.',
  unknown: () => 'Too little is known of the day.',
  notPlanned: () => 'There is no plan today.',
};

const notPlanned = (text: RuleText): Catalogue<NotPlanned> => ({
  ashore: ({ hazard }) => `Stay ashore: ${ruleWords(text, `safety.${hazard}.label`).toLowerCase()}.`,
  closed: ({ hazards, hoursUnknown }) => {
    const of = [...new Set(hazards.map((id) => ruleWords(text, `safety.${id}.label`).toLowerCase()))].join(
      ', ',
    );
    return hoursUnknown === true
      ? `Stay ashore today for ${of}: nobody told in which hours. With those the open ones can be planned.`
      : `Hazards leave too little of the day: ${of}.`;
  },
  tooShort: () => 'The fishing hours are too short for a plan.',
  over: ({ openHours }) =>
    openHours < 0.5
      ? 'The fishing hours of today are over.'
      : 'Too little is left of today’s fishing hours for a plan.',
  noHours: () => 'Neither the light nor your own hours are known, so nothing can be planned by the clock.',
  noLight: () =>
    'It does not get light on this day, so nothing is planned. Name hours of your own to plan by them.',
  noPlaces: () => 'No place of this water can be ranked.',
  frozen: () => 'No plan today: the water may be frozen.',
  nothingHolds: () => 'No plan today: no lure fits the places and the water of these hours.',
});

/** What a hazard keeps from coming first; named as the lake does, else by its kind. */
function leftOut(text: RuleText, { hazard, places }: LeftOut): string {
  const names = places.map(({ place, named }) => named ?? ruleWords(text, `place.${place}.name`));
  const why = ruleWords(text, `safety.${hazard}.label`).toLowerCase();
  return `${capital(names.join(', '))} would come first; closed for ${why}.`;
}

/** A rule's words with the side named that the wind comes from, degrees. */
const sided = (words: string, fromDeg: number | undefined): string =>
  words.replaceAll(
    '{windySide}',
    fromDeg === undefined
      ? 'the side the wind comes from'
      : `the ${pointOf(fromDeg)} side, where the wind comes from,`,
  );

/** What the plan says, from its facts and the rules' own words. */
export const planWords = {
  reason: (text: RuleText, fact: PlanReason): string => sentence(say(reasonClause(text), fact)),
  change: (text: RuleText, fact: PlanChange): string => say(changeWords(text), fact),
  giveUp: (fact: GiveUp): string => say(GIVE_UP, fact),
  leftOut,
  sided,
  /**
   * Where, and how it is searched, the side to begin on named by where the wind of its hours comes from, degrees.
   *
   * @param named the lake's own name of the place
   */
  searchStep: (text: RuleText, place: string, fromDeg: number | undefined, named?: string): string =>
    `${capital(named ?? ruleWords(text, `place.${place}.name`))}. ${sided(ruleWords(text, `place.${place}.step`), fromDeg)}`,
  noPattern: (fact: NoPattern): string => say(NO_PATTERN, fact),
  notPlanned: (text: RuleText, fact: NotPlanned): string => say(notPlanned(text), fact),
};
