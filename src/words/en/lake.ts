/** What wind and sun do at the lake's own places, one sentence a fact; and the words of the map. */
import type { LakeFact } from '../../signals/index.ts';
import { dayNumber } from '../../units/time/index.ts';
import { inert, quantity, quantityRange } from '../../units/index.ts';
import type { Catalogue } from '../catalogue.ts';
import { en } from './page.ts';
import { POINTS } from './plan.ts';
import { clockWords } from '../letters.ts';

const side = (eighth: number): string => POINTS[eighth] ?? '';

/** Local clock time of a decimal hour, `06:00`. */
const and = (parts: readonly string[]): string =>
  [parts.slice(0, -1).join(', '), parts.at(-1) ?? ''].filter((part) => part !== '').join(' and ');

const list = (names: readonly string[]): string => and(names.map(inert));

const wave = (waveM: number): string => quantity('waveHeight', waveM);

/** `Thu 16 Jul` of a date. */
function dayWords(date: string): string {
  const [, month = 1, day = 1] = date.split('-').map(Number);
  return en.dayShort(en.weekdays[(dayNumber(date) + 3) % 7] ?? '', day, en.months[month - 1] ?? '');
}

type Told = Extract<LakeFact, { code: 'releaseTold' }>['spans'][number];

/** `14:00 to 18:00 (2 units)`. */
function toldWords({ fromHour, toHour, flowM3s, units }: Told): string {
  const much = [
    ...(flowM3s === null ? [] : [quantity('flow', flowM3s)]),
    ...(units === null ? [] : [`${units} ${units === 1 ? 'unit' : 'units'}`]),
  ].join(', ');
  return `${clockWords(fromHour)} to ${clockWords(toHour)}${much === '' ? '' : ` (${much})`}`;
}

const isOff = ({ flowM3s, units }: Told): boolean => (flowM3s ?? units ?? 0) === 0;

/** What shows that water runs. */
const RAN = { release: 'water ran', discharge: 'the flow was up', level: 'the water was up' } as const;

const fact: Catalogue<LakeFact> = {
  waves: ({ openM, hour, rough, calm }) => {
    const parts = [
      `Waves up to ${wave(openM)} on open water by ${clockWords(hour)}`,
      ...rough.map(({ name, waveM }) => `${wave(waveM)} at ${inert(name)}`),
    ];
    return `${parts.join(', ')}${calm.length === 0 ? '' : `; ${list(calm)} calm`}.`;
  },
  windOn: ({ on, fromHour, toHour, side: from, out }) =>
    `Wind from the ${side(from)} stands on ${list(on)} from ${clockWords(fromHour)} to ${clockWords(toHour)}${
      out.length === 0
        ? ''
        : `; out of it: ${out.map(({ name, faces }) => `${inert(name)} (open to the ${side(faces)})`).join(', ')}`
    }.`,
  ramp: ({ name, faces, waveM, ofSeveral, reached }) =>
    `${ofSeveral ? 'Most sheltered ramp' : 'Ramp'}: ${inert(name)}, open to the ${side(faces)}${
      waveM === null
        ? reached
          ? ', wind on it for a part of the day'
          : ', out of the wind'
        : `, waves up to ${wave(waveM)}`
    }.`,
  setUp: ({ bank, riseM, hour }) =>
    `By ${clockWords(hour)} the wind holds the water ${quantity('levelError', riseM)} higher at the ${side(bank)} end.`,
  releaseTold: ({ toldOn, spans }) => {
    const on = spans.filter((span) => !isOff(span));
    const off = spans.filter(isOff);
    const parts = [
      ...(on.length === 0 ? [] : [`Release ${and(on.map(toldWords))}`]),
      ...(off.length === 0
        ? []
        : [
            `${on.length === 0 ? 'No' : 'no'} release ${and(off.map(({ fromHour, toHour }) => `${clockWords(fromHour)} to ${clockWords(toHour)}`))}`,
          ]),
    ];
    return `${parts.join(', ')}, told by the operator on ${dayWords(toldOn)}. Hours change without notice: horns, lights and rising water come first.`;
  },
  releaseUsual: ({ by, weekday, spans }) => {
    const day = `${en.weekdaysLong[weekday - 1] ?? ''}s`;
    const parts = spans.map(
      ({ fromHour, toHour, held, of }) =>
        `on ${held} of the last ${of} ${day} known ${RAN[by]} from ${clockWords(fromHour)} to ${clockWords(toHour)}`,
    );
    const said = and(parts);
    return `${said.charAt(0).toUpperCase()}${said.slice(1)}: an estimate from the gauge, nobody announced it for today.`;
  },
  layerEstimate: ({ depthM, lowM, highM }) =>
    `Warm and cold water meet near ${quantity('depth', depthM)} (${quantityRange('depth', lowM, highM)}, estimated from the size of the lake). Stay above the layer that your sounder shows.`,
  sun: ({ name, faces, sunH, fromHour, toHour }) =>
    `Longest direct sun: ${inert(name)}, open to the ${side(faces)}, ${quantity('hours', sunH)} between ${clockWords(fromHour)} and ${clockWords(toHour)} where the sky is clear.`,
};

/** Words of the map and the page by the hour. */
export const lake = {
  fact,
  heading: 'The lake today',
  map: {
    north: 'N',
    title: (lake: string, time: string): string =>
      time === '' ? `Map of ${lake}.` : `Map of ${lake} at ${time}.`,
    wind: (time: string, from: string, speed: string): string => `${time}: wind from the ${from}, ${speed}`,
    noWind: 'The wind is not known.',
    reaches: (bank: string): string => `It reaches the ${bank} banks.`,
    at: (name: string, height: string): string => `${name} ${height}`,
    rough: (places: string): string => `Waves: ${places}.`,
    /** A wind on a bank makes small waves too: they are not called calm. */
    low: (places: string, under: string): string => `Waves under ${under}: ${places}.`,
    lowAt: (name: string, under: string): string => `${name} under ${under}`,
    block: (number: string, place: string, hours: string, off: boolean): string =>
      `${number}: ${place}, ${hours}${off ? ' (not on the map)' : ''}.`,
    ramp: (name: string, side: string): string => `Ramp: ${name}, open to the ${side}.`,
    pocket: (name: string, difference: string): string => `${name} ${difference} against the lake.`,
    keyBanks: 'banks the wind reaches',
    keyWaves: (one: string, two: string, three: string): string =>
      `waves: one line from ${one}, two ${two}, three ${three}`,
    keyRamp: 'ramp',
    hourTitle: (lake: string): string => `${lake} by the hour`,
    hour: 'Hour',
    show: 'Show this hour',
    list: 'Every hour in words',
    none: 'This issue has no map: the lake has no outline, or no wind is known.',
    caution:
      'Waves are computed for open water and may be higher. Look at the water before you launch; local rules and official warnings come first.',
  },
};
