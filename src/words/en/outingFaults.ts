/** What is wrong with an outing as somebody wrote it, and how to mend it. */
import type { OutingFault, OutingProblem, WrittenOuting } from '../../outings/index.ts';
import { say, type Catalogue } from '../catalogue.ts';

/** The name of a field as a person would call it. */
const CALLED: Readonly<Record<keyof WrittenOuting, string>> = {
  date: 'date',
  from: 'from',
  to: 'to',
  hours: 'hours',
  places: 'places',
  lures: 'lures',
  bites: 'bites',
  fish: 'fish',
  biggest: 'biggest fish',
  water: 'water temperature',
  depth: 'depth',
  clarity: 'clarity',
  plan: 'plan',
  note: 'note',
  shared: 'shared',
};

/** Goes on after the name of the field, and what stands there. */
const fault: Catalogue<OutingFault> = {
  notDate: () => 'is no local date; write it like 2026-03-07',
  inFuture: ({ lake, today }) =>
    `lies in the future: at ${lake} it is ${today}; tell an outing once it is over`,
  tooOld: () => 'is more than ten years ago; correct the year',
  notTime: () => 'is no time of the day; write it like 06:30',
  untilMissing: () => 'is missing: say until when, or give only the hours',
  sinceMissing: () => 'is missing: say from when, or give only the hours',
  notAfter: () => 'is not after "from"; tell what lies beyond midnight as an outing of the next day',
  notYet: () => 'has not come yet today; tell an outing once it is over',
  hoursMissing: () =>
    'are missing: fish without hours give no rate, so say how long you fished, also when you caught nothing',
  hoursOutOfRange: ({ most }) => `must be a number above 0 and up to ${most}, with a decimal point`,
  moreThanSpan: ({ from, to }) => `are more than lie between ${from} and ${to}`,
  moreThanDay: () => 'are more than this day has had so far',
  fishMissing: () => 'are missing: write 0 for none; a day without fish teaches most',
  countOutOfRange: ({ most }) => `must be a whole number from 0 to ${most}`,
  tooMany: ({ perH, most }) =>
    `are ${perH.toFixed(0)} an hour, and more than ${most} are hardly ever caught; check the fish and the hours`,
  biggestOfNone: () => 'is told, but no fish: correct one of the two',
  tooHeavy: () =>
    'is heavier than any black bass on record (about 22 lb or 10 kg); check the number and its unit',
  tooLight: () => 'weighs next to nothing; check the number and its unit',
  notSize: () => 'is no weight or length with its unit; write it like 2.4 lb, 1.1 kg, 17 in or 43 cm',
  notBassLength: () => 'is no length of a bass (5 to 85 cm, 2 to 33 in); check the number and its unit',
  notTemperature: () => 'is no temperature with its unit; write it like 9.4 C or 49 F',
  notLakeWater: ({ waterC, looksLikeF }) =>
    `is ${waterC.toFixed(1)} °C, which lake water hardly has${looksLikeF ? '; it looks like degrees Fahrenheit: give it as such' : '; check the number and its unit'}`,
  notLength: () => 'is no length with its unit; write it like 0.6 m or 2 ft',
  lengthOutOfRange: ({ lowM, highM }) =>
    `must lie between ${lowM} and ${highM} m; check the number and its unit`,
  tooManyPlaces: ({ most }) => `are more than ${most}; tell each stretch of the day as an outing of its own`,
  unknownPlace: ({ word, lake, near, some }) =>
    `name "${word}", which ${lake} does not have; known are ${near === null ? `its own names and the kinds of place such as ${some.join(', ')}` : `for example ${near}`}`,
  tooManyLures: ({ most }) => `are more than ${most}; name those that were in the water longest`,
  unknownLure: ({ word, near, some }) =>
    `name "${word}", which is no class of lure here; ${near === null ? `known are ${some.join(', ')} and others` : `did you mean ${near}?`}`,
  notPlan: () => 'must be "followed" or "elsewhere", or left out',
  noteTooLong: ({ most }) => `is longer than ${most} characters; shorten it`,
  fewerThanFish: () => 'are fewer than the fish: each fish is a bite as well',
  depthOfNothing: () => 'belongs to a water temperature, and there is none; give both or neither',
};

/** A problem as a sentence; of a note nothing is repeated. */
export function outingProblem({ field, found, fault: of }: OutingProblem): string {
  const hidden = found.trim() === '' || field === 'note' || field === 'places' || field === 'lures';
  const name = CALLED[field];
  return `${name.charAt(0).toUpperCase()}${name.slice(1)}${hidden ? '' : ` "${found.trim().slice(0, 60)}"`} ${say(fault, of)}.`;
}
