/** Conditions that somebody writes down: the form, what was understood of it, and the answer. */
import type { Assumption, FormFault, UnderstoodFigure, UnwrittenSignal } from '../../advice/whatIf/index.ts';
import { quantity, quantityRange } from '../../units/index.ts';
import { SIGNALS, type Species, type WaterBody } from '../../vocabulary/index.ts';
import type { Catalogue } from '../catalogue.ts';
import { sentenceOf } from '../page/sentence.ts';
import { hourWords } from '../page/when.ts';
import { pointOf } from './plan.ts';

/** Less does not show in whole degrees Fahrenheit. */
const SAME_K = 0.28;
const against = (differenceC: number): string =>
  `${quantity('temperatureDifference', Math.abs(differenceC))} ${differenceC < 0 ? 'colder' : 'warmer'} than`;

/** What is taken for granted; of a figure, how it was come by. */
const assumed: Catalogue<Assumption> = {
  dayLength: ({ usualLatDeg }) =>
    usualLatDeg === null
      ? 'Day length was worked out from date and latitude.'
      : `Day length was worked out from the date, at ${usualLatDeg} degrees north because no latitude was given.`,
  sunTime: () =>
    'Hours are sun time, with noon at 12:00; by summer clocks add about an hour, or give sunrise and sunset under sun.',
  airTrend3d: () => 'The three-day trend of the air was worked out from the 24-hour and 3-day means.',
  airTrend7d: () => 'The seven-day trend of the air was worked out from its means.',
  airDrop: () => 'The fall of the air temperature was worked out from yesterday’s and today’s means.',
  clarity: () => 'Clarity was worked out from turbidity.',
  rain72h: () =>
    'Rain of three days was not given; that of the last 24 hours was taken as the least it can be.',
  hoursSinceRain: ({ hours }) =>
    `Hours since the rain were not given; about ${hours} were assumed from the rain totals.`,
  layer: ({ depthM, lowM, highM, of }) =>
    `Where warm and cold water meet was not given: ${quantity('depth', depthM)} was taken, from the ${of === 'kind' ? 'kind of water' : 'length of open water'}, where ${quantityRange('depth', lowM, highM)} is likely. No lure is told below it; stay above the layer that your sounder shows.`,
  currentOfSection: () =>
    'The current at the surface was worked out from the flow, the width and the depth; a channel runs faster in its middle and slower behind whatever stands in it.',
  runoffGuessed: () => 'The temperature of the runoff was guessed from the air of the last day.',
  runoffMixed: () =>
    'The runoff was taken for rain mixed with water that the ground had stored, as it is on land of mixed cover.',
  clearColdNight: () =>
    'Whether a clear cold night has passed since the rain was judged from last night’s low and the sky.',
  pocketRenewed: () =>
    'The share of pocket water renewed is a coarse class figure: rain over a watershed 75 times a pocket 5 ft deep.',
  pocketCoarse: () =>
    'The pocket was estimated coarsely from rain, its temperature and the hours since, halving every 24 hours; check with a thermometer.',
  pocketByHour: () =>
    'The pocket is written at its best hour. For the other hours what runoff brought was kept and what the sun brings was taken to be a quarter at dawn; give it by the hour under hours if you know more.',
  pocketSun: ({ facesDeg, sunH, hour, differenceC, oppositeC }) =>
    `A pocket open to the ${pointOf(facesDeg)} has about ${quantity('hours', sunH)} of direct sun on such a day. By its heat balance it is ${against(differenceC)} the main lake at ${hourWords(hour)}, when it is at its warmest; open to the ${pointOf(facesDeg + 180)} it would be ${Math.abs(differenceC - oppositeC) < SAME_K ? 'about as warm' : `${against(oppositeC)} it`}. A small pocket with trees on its other sides was taken; check with a thermometer.`,
  usualPlaces: () =>
    'Ranked and planned are the places that such a water usually has and that are under water now; name others under places.',
  species: () => 'No species was given; mixed bass were taken.',
  waterBody: () => 'No kind of water was given; a highland reservoir was taken.',
};

/** What a number that no field gives is called. */
const UNWRITTEN: Readonly<Record<UnwrittenSignal, string>> = {
  dayLengthH: 'day length',
  dayLengthChangeHPerWeek: 'turn of the day length',
  airTrend3dCPerDay: 'three-day trend of the air',
  airTrend7dCPerDay: 'seven-day trend of the air',
  airDrop24hC: 'fall of the air temperature',
  turbidityFnu: 'turbidity',
  clarityM: 'clarity',
  rain72Mm: 'rain of three days',
  hoursSinceRain: 'hours since the rain',
  runoffC: 'runoff temperature',
  clearColdNightSinceRain: 'clear cold night since the rain',
  pocketRenewedShare: 'share of pocket water renewed',
  pocketMinusMainC: 'pocket against main lake',
  lowLightShare: 'low light',
  windMaxMs: 'strongest wind',
  airMinTodayC: 'lowest air of today',
  generationOn: 'generation',
  currentMs: 'current',
};

/** A number as understood: what it is called and its placeholder. */
export interface FigureWords {
  readonly field: string;
  readonly text: string;
}

const ON_FROM = 0.5;
/** Numbers that people tell in words: what runs or does not, a share of the light, a flow against its usual. */
const IN_WORDS: Readonly<Partial<Record<UnderstoodFigure['signal'], (value: number) => string>>> = {
  generationOn: (value) => (value >= ON_FROM ? 'on' : 'off'),
  clearColdNightSinceRain: (value) => (value >= ON_FROM ? 'yes' : 'no'),
  lowLightShare: (value) =>
    value < 0.03
      ? 'none'
      : value > 0.97
        ? 'all of the time'
        : `about ${quantity('share', value)} of the time`,
  dischargeRatio: (value) => `${Number(value.toPrecision(2))} times the usual flow`,
};

function figure(of: UnderstoodFigure): FigureWords {
  const text = IN_WORDS[of.signal]?.(of.value) ?? quantity(SIGNALS[of.signal], of.value);
  if (of.field !== null) return { field: of.field, text };
  const name = UNWRITTEN[of.signal];
  return { field: of.workedOut ? `worked out: ${name}` : name, text };
}

const expected = (units: readonly string[], example: string, words: readonly string[] = []): string =>
  `expected a number and a unit (${units.join(', ')}), for example "${example}"${words.length === 0 ? '' : `; or one of ${words.join(', ')}`}`;

const SUN = { dawn: 'dawn', rise: 'sunrise', noon: 'noon', set: 'sunset', dusk: 'dusk' } as const;
const SPAN = { last24h: '24 hours', last72h: '72 hours', last7d: '7 days' } as const;

/** What the schema of the form refuses by itself. */
export type FormRefusal =
  | { readonly code: 'notDate' }
  | { readonly code: 'notTime' }
  | { readonly code: 'notDirection' }
  | { readonly code: 'notOneOf'; readonly values: readonly string[] }
  | { readonly code: 'unread' };

/** Goes on after the name of the field; a clause. */
const fault: Catalogue<FormFault | FormRefusal> = {
  notQuantity: ({ found, units, example, words }) => `found "${found}", ${expected(units, example, words)}`,
  noUnit: ({ found, units, example, words }) =>
    `found "${found}" without a unit, ${expected(units, example, words)}`,
  unknownUnit: ({ found, units, example, words }) =>
    `found the unit "${found}", ${expected(units, example, words)}`,
  outOfRange: ({ found, units, example, words }) =>
    `found "${found}", which is out of range. Check the number and its unit; ${expected(units, example, words)}`,
  fishingOrder: ({ from, to }) =>
    `fishing ends at ${to}, before it begins at ${from}; a night that passes midnight is two days`,
  sunOrder: ({ first, firstAt, then, thenAt }) =>
    `${SUN[then]} at ${thenAt} is not after ${SUN[first]} at ${firstAt}`,
  hourOrder: ({ before, at }) => `${at} is not after ${before}; give each hour once, in the order of the day`,
  gustBelowWind: ({ at }) => `${at === null ? '' : `at ${at} `}the gusts are weaker than the wind`,
  airAboveHigh: ({ at }) => `the air at ${at} is warmer than the day’s high`,
  lessRain: ({ than }) => `less rain than in the last ${SPAN[than]}, which are part of it`,
  placeNever: ({ place }) => `this kind of water never has the place "${place}"`,
  placeBoth: ({ place }) => `"${place}" is said to be there and not to be there`,
  noTurbines: () => 'a pond has no turbines',
  notDate: () => 'expected a date such as 2026-03-06',
  notTime: () => 'expected a local time, for example 05:30',
  notDirection: () =>
    'expected degrees from 0 to 360, clockwise from north, or one of 16 points such as N, NE or SSW',
  notOneOf: ({ values }) => `expected one of ${values.join(', ')}`,
  unread: () => 'this cannot be read',
};

const species: Readonly<Record<Species, string>> = {
  largemouth: 'largemouth',
  spotted: 'spotted',
  smallmouth: 'smallmouth',
  mixed: 'mixed',
};

const waterBody: Readonly<Record<WaterBody, string>> = {
  'highland-reservoir': 'highland reservoir',
  'hill-land-reservoir': 'hill-land reservoir',
  'run-of-river': 'run of river',
  tailwater: 'tailwater',
  'natural-lake': 'natural lake',
  pond: 'pond',
};

export const whatIf = {
  assumed,
  figure,
  fault,
  leftOutToday: 'Left out: hazards leave no hours to fish.',
  title: 'What if',
  answer: 'Answer',
  empty: 'Fill in what you know; what you leave empty stays unknown.',
  problem: (field: string, clause: string): string => sentenceOf(`${field}: ${clause}`),
  form: {
    unitsOfAnswer: 'Units of the answer',
    group: { water: 'Water', weather: 'Weather', place: 'Place and day' },
    quantity: {
      'water.main': 'Main lake, about 3 ft down',
      'water.change3d': 'Its change over 3 days',
      'water.pocket': 'Warmest inflow pocket',
      'water.clarity': 'A white disc disappears at',
      'level.change24h': 'Level, change in 24 hours',
      'air.mean24h': 'Mean air of the last 24 hours',
      'air.drop24h': 'Fall of the air behind a front',
      'rain.last24h': 'Rain of the last 24 hours',
      'rain.temperature': 'Temperature of the rain',
      'wind.speed': 'Mean wind of the day',
    },
    choice: {
      sky: 'Sky',
      time: 'Time of day',
      bank: 'Banks',
      'flow.generation': 'Water through the turbines',
      species: 'Bass looked for',
      waterBody: 'Kind of water',
    },
    valueOf: {
      sky: { clear: 'clear', partly: 'partly', overcast: 'overcast' },
      time: {
        dawn: 'dawn',
        morning: 'morning',
        midday: 'midday',
        afternoon: 'afternoon',
        dusk: 'dusk',
        night: 'night',
      },
      bank: { gentle: 'gentle', medium: 'medium', steep: 'steep' },
      'flow.generation': { on: 'on', off: 'off' },
      species,
      waterBody,
    },
    unknown: 'unknown',
    example: (value: string): string => `unknown, or for example ${value}`,
    date: 'Date',
    latitude: 'Latitude, degrees north',
    show: 'Show what that means',
  },
  hours: {
    legend: 'The day by the hour',
    note: 'A cell holds until the next one that is filled in. What stays empty is not known.',
    from: 'From',
    row: {
      air: 'Air',
      wind: 'Wind',
      windFrom: 'Wind from',
      gust: 'Gusts',
      cloud: 'Cloud',
      rain: 'Rain of each hour',
      thunder: 'Chance of thunder',
      pocket: 'Warmest pocket',
      generation: 'Turbines, on or off',
    },
    hour: (number: number): string => `Hour ${number}`,
    hourTime: (number: number): string => `Hour ${number}, local time`,
    cellAt: (row: string, at: string): string => `${row} at ${at}`,
    cellFrom: (row: string, at: string): string => `${row} from ${at}`,
    begin: 'You begin at',
    end: 'You are off the water at',
    firstLight: 'first light',
    dusk: 'dusk',
  },
  result: {
    safety: 'Safety first',
    level: (level: number, words: string): string => `Level ${level}: ${words}`,
    notChecked: (gaps: string): string => `Not checked: ${gaps}`,
    day: 'The day',
    where: 'Where',
    place: (name: string, depth: string, because: string): string => `${name}, ${depth}: ${because}`,
    limitedBy: (limit: string): string => `Limited by: ${limit}`,
    how: 'How',
    worked: (lure: string, place: string, because: string): string => `${lure} at ${place}: ${because}`,
    confidence: (word: string, because: string): string => `Confidence ${word}: ${because}`,
    confidenceOf: { high: 'high', medium: 'medium', low: 'low' },
    understood: 'What was understood',
    assumed: (sentence: string): string => `Assumed: ${sentence}`,
  },
  /** Lines of the plan. */
  plan: {
    /** @param hours `06:00-09:00` */
    block: (hours: string, place: string, depth: string, lure: string): string =>
      `${hours} ${place}, ${depth}, ${lure}`,
    because: (reasons: string): string => `because ${reasons}`,
    closed: (hours: string, hazard: string): string => `${hours} closed: ${hazard}`,
    pattern: (place: string, depth: string, lure: string): string => `${place}, ${depth}, ${lure}`,
    second: (pattern: string): string => `At the same time: ${pattern}`,
    bigFish: (pattern: string): string => `Larger fish tend to be at: ${pattern}`,
    manyFish: (pattern: string): string => `More fish tend to be at: ${pattern}`,
  },
  /** What the page's script says. */
  script: {
    slider: ', slider',
    notGiven: 'not given',
    noAnswer: 'No answer from the server: use the button.',
  },
};
