/** The first screen and the plan of the day. */
import { POINTS } from './plan.ts';

export const front = {
  danger: (word: string, level: number): string => `${word}, ${level} of 4.`,
  dangerHours: (word: string, hours: string): string => `${word} ${hours}`,
  /** @param spans in order and apart */
  hours: (spans: readonly (readonly [string, string])[]): string => {
    const [first, last] = [spans[0], spans.at(-1)];
    // What stops and begins more than once is told as a whole: nobody plans by its breaks.
    return spans.length > 2 && first !== undefined && last !== undefined
      ? `${first[0]} to ${last[1]}, with breaks`
      : spans.map(([from, to]) => `${from} to ${to}`).join(' and ');
  },
  dangerWords: { 1: 'Usual care', 2: 'Extra care', 3: 'Serious', 4: 'Stay ashore' },
  headings: {
    plan: 'The day',
    clock: 'The day on one clock',
    cards: 'How to work it',
    reasons: 'Why these places',
  },
  byWater: (way: string): string => `It is ${way} by water.`,
  span: (from: string, to: string): string => `${from} to ${to}`,
  hazardHours: (headline: string, hours: string): string => `${headline}, ${hours}`,
  /** A place by its own name, and what kind it is. */
  placeNamed: (name: string, kind: string): string => `${name}, ${kind}`,
  what: (depth: string, lure: string): string => `${depth}, ${lure}`,
  weighed: (weight: string, lure: string): string => `${weight} ${lure}`,
  /** A bait without any weight is told by its length. */
  bait: (length: string, lure: string): string => `${length} ${lure.replace(/^weightless /, '')}, no weight`,
  beIn: (at: string): string => `Be in by ${at}.`,
  /** Of the first block, on the first screen; and of any other, at its start. */
  fogFirst: (to: string): string => `Fog to about ${to}: idle speed, or wait.`,
  /** Of the first block of a day in cold water. */
  startLate: (at: string): string => `Best from late morning on; nothing is lost by starting at ${at}.`,
  inFog: (to: string): string =>
    `Begins in likely fog, to about ${to}: idle with lights and sound signals, or wait until you see the far bank.`,
  lightAllNight: 'It is light all night.',
  /** A hazard in the middle of the day: off the water for it, and in for good at the end. */
  offThenIn: (from: string, to: string, end: string): string =>
    `Off the water ${from} to ${to}. Be in by ${end}.`,
  bigFish: (place: string, lure: string): string => `For one big fish: ${place}, ${lure}.`,
  manyFish: (place: string, lure: string): string => `For many fish: ${place}, ${lure}.`,
  second: (place: string, lure: string): string => `As good a pattern: ${place}, ${lure}.`,
  /** Of a block that is planned. */
  here: { bigFish: 'Larger fish tend to be here.', manyFish: 'More fish tend to be here.' },
  ashore: 'No plan today: stay ashore.',
  noPlan: 'No plan today: too little is known.',
  water: {
    lake: (week: string): string => (week === '' ? 'lake' : `lake, ${week} in a week`),
    lakeDay: (day: string): string => `lake, ${day} in a day`,
    pocket: (name: string, hour: string): string => `by ${hour} in ${name}`,
    typicalPocket: 'a typical small pocket',
    level: 'level in a day',
    steady: 'level steady',
    clarity: 'clarity',
    clarityWords: (words: string): string => `clarity ${words}`,
    unknown: 'The water is not known today.',
  },
  sure: {
    high: 'How sure: high.',
    medium: 'How sure: fairly.',
    low: 'How sure: not very.',
    reading: (age: string): string => `Last reading ${age}.`,
    estimated: 'The lake is estimated.',
    nil: 'Nothing fresh is known.',
  },
  tomorrow: (word: string): string => `Tomorrow: ${word}.`,
  eveningBefore: (date: string, time: string): string => `${date}, as seen at ${time} the evening before`,
  changed: {
    first: 'First issue for this lake.',
    /** @param since moment of the issue before; '' for yesterday's */
    nothing: (since: string): string => `Nothing new since ${since === '' ? 'yesterday' : since}.`,
    one: (sentence: string, since: string): string =>
      `New${since === '' ? '' : ` since ${since}`}: ${sentence}`,
  },
  /** Titles of the strip's lanes. */
  lanes: {
    light: 'Light',
    wind: 'Wind',
    rain: 'Rain',
    air: 'Air',
    /** Its line is a difference. */
    pocket: 'Pocket\nvs lake',
    release: 'Release',
    plan: 'Plan',
    dry: 'none today',
    gusts: (v: string): string => `gusts ${v}`,
    /** From the first hour that is closed; one is off the water before it. */
    closed: 'closed',
  },
  /** Sides of the lake, from the north on with the sun. */
  sides: POINTS,
  windSide: (from: string, to: string, bank: string, sheltered: string): string =>
    `From ${from} to ${to} wind on the ${bank} banks; the ${sheltered} side is sheltered.`,
  /** On the day on which clocks are set. */
  clocksForward: 'Clocks go forward in the night to this day: all hours here are the new ones.',
  clocksBack: 'Clocks go back in the night to this day: all hours here are the new ones.',
  waterLineAlt: (since: string, from: string, to: string): string =>
    `The lake since ${since}: from ${from} to ${to}.`,
  /** Where an hour of release is from. */
  releaseBy: { gauge: 'measured', operator: 'told', weekday: 'estimate' },
  releaseAlt: (spans: string): string => `Water runs through the dam: ${spans}.`,
  stripAlt: (parts: string): string => `The day on one clock. ${parts}`,
  blockAlt: (from: string, to: string, place: string, what: string): string =>
    `${from} to ${to}: ${place}, ${what}.`,
  closedAlt: (from: string, to: string, why: string): string => `Closed ${from} to ${to}: ${why}.`,
  windAlt: (from: string, speeds: string, hour: string, gust: string): string =>
    `Wind ${from === '' ? '' : `from ${from}, `}${speeds}, strongest at ${hour}${gust === '' ? '' : `, gusts ${gust}`}.`,
  /** Where one speed prints for the whole day. */
  windEvenAlt: (from: string, speed: string, gust: string): string =>
    `Wind ${from === '' ? '' : `from ${from}, `}about ${speed}${gust === '' ? '' : `, gusts ${gust}`}.`,
  /** Where the wind of one hour is all that is known. */
  windOnlyAlt: (hour: string, speed: string): string =>
    `Wind about ${speed} at ${hour}; of the rest of the day nothing is known.`,
  calmAlt: (gust: string): string => `Hardly any wind${gust === '' ? '' : `, gusts ${gust}`}.`,
  /** A wind that goes round slowly, and one that turns. */
  windVeers: (from: string, to: string): string => `${from} to ${to}`,
  windTurns: (at: string, from: string): string => `from ${at} ${from}`,
  snowAlt: (sum: string, from: string): string => `Snow, ${sum} of water, from ${from}.`,
  rainAlt: (sum: string, from: string): string => `Rain ${sum}, from ${from}.`,
  noRainAlt: 'No rain.',
  /** Where the hours after it are not known, or some in between. */
  rainTo: (said: string, to: string): string =>
    `${said.replace(/\.$/, '')} to ${to}; of the hours after it nothing is known.`,
  rainKnown: (said: string): string => `${said.replace(/\.$/, '')} in the hours that are known.`,
  points: ['N', 'NE', 'E', 'SE', 'S', 'SW', 'W', 'NW'],
  why: (reason: string): string => reason,
  planView: {
    bank: 'bank',
    boat: 'boat',
    cut: 'Above: cut along the cast. Below: seen from above.',
    scale: (v: string): string => v,
    alt: (angle: string): string => `From above the cast runs at ${angle} to the bank.`,
  },
};
