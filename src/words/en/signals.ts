/** Where figures are from, and what is not known. */
import { lowerFirst } from '../page/sentence.ts';
import { inert, quantity } from '../../units/index.ts';
import { HOUR_MS } from '../../units/time/index.ts';
import type { AskedSignal, GapFact, SourceFact, WeatherPartName } from '../../signals/index.ts';
import type { Doubt } from '../../record/index.ts';
import { serviceRow } from '../../vocabulary/index.ts';
import { say, type Catalogue } from '../catalogue.ts';
import { clockWords } from '../letters.ts';
import { doubts } from './doubts.ts';
import { en as water } from './water.ts';

const counted = (count: number, one: string): string => `${count} ${count === 1 ? one : `${one}s`}`;

const inWords = (names: readonly string[]): string =>
  names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names.at(-1) ?? ''}`;

/** A span in whole hours, from two days on in days. */
export function spanWords(ms: number): string {
  const hours = Math.round(ms / HOUR_MS);
  return hours < 48 ? counted(hours, 'hour') : counted(Math.round(hours / 24), 'day');
}

/** Age of the last reading that counted, in whole days. */
const readingWords = (ageDays: number): string =>
  ageDays === 0 ? 'read today' : `last reading ${counted(ageDays, 'day')} old`;

const WEATHER: Readonly<Record<string, string>> = {
  'open-meteo': 'Open-Meteo model',
  nws: 'US National Weather Service',
  'open-meteo-archive': 'Open-Meteo archive',
};

const source: Catalogue<SourceFact> = {
  gauge: ({ service, station, where, fallback, isDayMean = false }) => {
    const { gaugeName } = serviceRow(service);
    const name = service === 'csv' ? gaugeName : `${gaugeName} ${station.replace(/^USGS-/, '')}`;
    return `${name}, ${where}${fallback ? ' (fallback)' : ''}${isDayMean ? ', means of whole days' : ''}`;
  },
  weather: ({ service }) => WEATHER[service] ?? service,
  rainMeasured: ({ service }) => `rain gauge or analysis (${service})`,
  waterModel: ({ readingAgeDays }) =>
    `water model, ${readingAgeDays === null ? 'no water reading yet' : readingWords(readingAgeDays)}`,
  pocketModel: ({ pocket, coarse, readingAgeDays }) =>
    `pocket model${pocket === null ? '' : `, ${pocket}`}${coarse ? ' (coarse class)' : ''}${
      readingAgeDays === null ? '' : `, ${readingWords(readingAgeDays)}`
    }`,
  clarityOfRunoff: (fact) => `class ${fact.class} from runoff, ${fact.confidence} confidence`,
  anglerReading: () => 'reading by an angler',
  lakeThermometer: () => 'gauge thermometer',
  stageForecast: () => 'official stage forecast',
  sunAndCalendar: () => 'sun and calendar',
  configuration: () => 'configuration',
  given: ({ as }) => (as === undefined ? 'given' : `given as "${as}"`),
  hour: () => 'hour of the day',
  workedOut: () => 'worked out from the form',
};

/** What a what-if was not told. */
const NOT_GIVEN: Readonly<Record<AskedSignal, string>> = {
  dayLengthH: 'The date',
  waterC: 'The main-lake temperature',
  waterChange7dC: 'The lake’s change over the week',
  airMean24hC: 'The air temperature',
  airTrend3dCPerDay: 'The trend of the air',
  warmingDays: 'The run of warming or cooling days',
  airDrop24hC: 'The fall of the air temperature since yesterday',
  airMinLastNightC: 'Last night’s low',
  rain72Mm: 'The rain of the last three days',
  pocketMinusMainC: 'The pocket temperature',
  level24hM: 'The level change',
  clarityM: 'Clarity',
  windMs: 'The wind',
  cloudPct: 'The sky',
  lowLightShare: 'The time of day',
  bankDeg: 'The slope of the banks',
  currentMs: 'The current',
};

/** Parts of the weather in a sentence. */
const WEATHER_PART: Readonly<Record<WeatherPartName, string>> = {
  air: 'air temperature',
  wind: 'wind',
  rain: 'rain',
  cloud: 'cloud',
  thunder: 'thunder',
};

/** A doubt in a sentence for readers, in their units where it has a size. */
const doubtWords = (doubt: Doubt): string =>
  doubt.code === 'doubt.levelStep'
    ? `a step of ${quantity('levelChange', doubt.stepM)} that no water makes: another unit or another zero`
    : say(doubts, doubt);

const APART = 'the level is not set against normal pool';
const DATED = {
  late: 'The daily values of the thermometer seem dated a day late. Each counts for the day before.',
  early: 'The daily values of the thermometer seem dated a day early. Check its dates.',
} as const;

const gap: Catalogue<GapFact> = {
  noWeather: () => 'No weather at all has reached the record: nothing that rests on it is printed.',
  weatherLacks: ({ parts }) =>
    `Of the weather ${inWords(parts.map((part) => WEATHER_PART[part]))} ${parts.length === 1 ? 'is' : 'are'} not known: what rests on ${parts.length === 1 ? 'it' : 'them'} is not printed.`,
  weatherEnds: ({ parts, hour, reachesAhead }) => {
    const what = `${inWords(parts.map((part) => WEATHER_PART[part]))} of the hours ${reachesAhead ? 'after it' : 'to come'} ${parts.length === 1 ? 'is' : 'are'} not known, and not known is not safe.`;
    return reachesAhead
      ? `The forecast ends at ${clockWords(hour)}: ${what}`
      : `There is no forecast beyond ${clockWords(hour)}: ${what}`;
  },
  weatherHoles: ({ parts, hours }) =>
    `Of the weather’s hours about ${hours} of 24 are missing (${inWords(parts.map((part) => WEATHER_PART[part]))}): no figure of a whole day is made of the rest.`,
  rainGaugeHole: ({ hours, modelMm }) =>
    `The rain gauge was silent for ${counted(hours, 'hour')} between its own of the last three days: the weather model stands in with ${quantity('rain', modelMm)}, and may have missed what fell.`,
  weatherTooOld: ({ ageMs }) =>
    `The weather is ${spanWords(ageMs)} old: too old for a forecast, no rule uses it.`,
  weatherAgeing: ({ ageMs }) => `The weather was last fetched ${spanWords(ageMs)} ago.`,
  noLevelGauge: () => 'No level gauge is configured: look at the water line at the ramp.',
  levelNeverSent: () => 'The level gauge has sent nothing: no level rule is used.',
  levelDailyOnly: ({ where, ageMs }) =>
    `The level gauge ${inert(where)} sends means of whole days only, the last of a day that ended ${spanWords(ageMs)} ago: how fast the level moves within a day, and since then, is not known.`,
  levelSilent: ({ ageMs }) =>
    `The level gauge has been silent for ${spanWords(ageMs)}: its last value is shown, no level rule is used.`,
  levelNotBelieved: ({ where, doubt }) =>
    `What the level gauge ${inert(where)} sends is not believed (${doubtWords(doubt)}): the level and its changes are not known. Look at the ramp.`,
  levelBeyondLake: ({ where, changeM, hours }) =>
    `The level gauge ${inert(where)} shows ${quantity('levelChange', changeM, true)} in ${counted(hours, 'hour')}, more than this lake can: another unit or another zero, so the level and its changes are not known. Look at the ramp.`,
  levelJumped: ({ where, jumpM }) =>
    `The level gauge ${inert(where)} shows a jump of ${quantity('levelChange', jumpM, true)} that no second value confirms yet. It is not used: look at the ramp.`,
  poolOnOtherDatum: ({ levelDatum, poolDatum }) =>
    `The level gauge counts from ${inert(levelDatum)} and normal pool from ${inert(poolDatum)}: ${APART}.`,
  levelDatumUnknown: ({ where }) => `The datum of the level gauge ${inert(where)} is not known: ${APART}.`,
  poolTooFar: ({ offM }) =>
    `The level gauge stands ${quantity('levelChange', Math.abs(offM))} from normal pool, more than a lake can: not the same datum or unit, so ${APART}.`,
  dailyLevelsDiffer: ({ biasM }) =>
    `The daily levels of the gauge's service differ from the gauge's own by ${quantity('levelChange', Math.abs(biasM))}: the year's range is taken from the gauge's own record alone.`,
  thermometerSilent: ({ ageMs }) =>
    `The lake thermometer has been silent for ${spanWords(ageMs)}: the lake model carries on from it.`,
  thermometerNotBelieved: ({ doubt }) =>
    `What the lake thermometer sends is not believed (${say(doubts, doubt)}): the lake model carries on without it.`,
  waterAsMeasured: ({ ageMs }) =>
    `The lake model has no fresh air temperature to run on: the water stands as it was measured ${ageMs < HOUR_MS ? 'within the last hour' : `${spanWords(ageMs)} ago`}, its changes are not known.`,
  noWaterReading: () =>
    'No water reading yet: the lake temperature is the model alone. One reading will about halve its error.',
  readingRefused: ({ reason }) => `A water reading was refused: ${say(water.refusal, reason)}`,
  clarityTooDeep: ({ clarityM }) =>
    `A clarity of ${quantity('clarity', clarityM)} was not believed: that is deeper than the lake. Check its unit.`,
  thermometerDated: ({ dating }) => DATED[dating],
  pocketReadingRefused: ({ pocket, reason }) =>
    `A reading in ${inert(pocket)} was refused: ${say(water.refusal, reason)}`,
  valuesDoubted: ({ count, variable, doubt, isWeather = false }) =>
    `${count} ${isWeather ? 'weather model' : 'gauge'} ${count === 1 ? 'value was' : 'values were'} not believed in three days (${variable.replace('_', ' ')}: ${doubtWords(doubt)}).`,
  noFlowThroughPool: () =>
    'No flow through this pool is known: its temperature is estimated as that of a still lake. A discharge gauge would mend that.',
  alertsNotChecked: () => 'Official alerts were not checked: look at your weather office before you launch.',
  floodNotChecked: () => 'No flood gauge is configured: flood stages were not checked.',
  notGiven: ({ signal, field }) =>
    `${NOT_GIVEN[signal]} is not known (field ${field}); rules that need it are silent.`,
};

/** Several fields of a form that were left out, in one sentence. */
const notGiven = (missing: readonly Extract<GapFact, { code: 'notGiven' }>[]): string =>
  `Not given, so that rules which need it are silent: ${missing.map(({ signal, field }) => `${lowerFirst(NOT_GIVEN[signal].replace(/^The /, ''))} (${field})`).join(', ')}.`;

export const en = { source, gap, notGiven };
