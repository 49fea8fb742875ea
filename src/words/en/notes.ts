/** What stands under the figures of the table. */
import type { NoteFact, SaidFact } from '../../briefing/index.ts';
import { quantity } from '../../units/index.ts';
import type { Catalogue } from '../catalogue.ts';
import { inert } from '../page/sentence.ts';
import { clock } from '../page/when.ts';
import { capital } from '../letters.ts';

const listed = (days: readonly number[]): string =>
  days.length < 2 ? String(days[0] ?? '') : `${days.slice(0, -1).join(', ')} or ${days.at(-1) ?? ''}`;
const range = (lowM: number, highM: number): string => {
  const [low, high] = [quantity('level', lowM), quantity('level', highM)];
  return low === high ? low : `${low} to ${high}`;
};

const CLASS = { clear: 'clear', stained: 'stained', muddy: 'muddy', 'very-muddy': 'very muddy' } as const;

type Stand = NonNullable<Extract<NoteFact, { code: 'level.stand' }>['band']>;

function band({ lowM, highM, days, stands }: Stand): string {
  const span = days === null ? 'the past year' : `${days} days of the past year`;
  switch (stands) {
    case 'held':
      return `held within ${quantity('levelChange', highM - lowM)} over ${span}`;
    case 'above':
    case 'below':
      return `${stands} the range of ${span}, ${range(lowM, highM)}`;
    default:
      return `in the ${stands} third of the range of ${span}, ${range(lowM, highM)}`;
  }
}

function againstPool(offM: number): string {
  if (offM === 0) return 'at normal pool';
  return `${quantity('levelChange', Math.abs(offM))} ${offM > 0 ? 'above' : 'below'} normal pool`;
}

/** Sentences of the briefing's own facts; `said` passes on a sentence that its writer gave. */
export const notes: Catalogue<NoteFact | SaidFact> = {
  said: ({ text }) => text,
  'water.noChange': ({ days }) => `No clear change in ${listed(days)} days.`,
  'water.change': ({ spans }) =>
    `${spans
      .map(
        ({ days, changeK, clear }, i) =>
          `${quantity('temperatureDifference', changeK, true)} in ${days}${i === 0 ? ' days' : ''}${clear ? '' : ' (unsure)'}`,
      )
      .join(', ')}.`,
  'pocket.row': ({ name, warmestMs, zone, warmer }) =>
    `${inert(name)}, near ${clock(warmestMs, zone)}.` +
    (warmer === undefined ? '' : ` ${inert(warmer)} gets warmer still, but with less fresh water.`),
  'level.stand': (fact) =>
    `${capital(
      [
        ...(fact.offPoolM === undefined ? [] : [againstPool(fact.offPoolM)]),
        ...(fact.band === undefined ? [] : [band(fact.band)]),
      ].join('; '),
    )}.`,
  'level.pace': ({ spans }) =>
    `${capital(
      spans
        .map(({ hours, changeM, rateMPerH }) =>
          changeM === null
            ? `steady over ${hours} h`
            : `${quantity('levelChange', changeM, true)} in ${hours} h` +
              (rateMPerH === undefined ? '' : ` (${quantity('levelRate', rateMPerH, true)})`),
        )
        .join('; '),
    )}.`,
  'rain.snow': ({ airC }) =>
    `As water: by the air while it fell (${quantity('temperature', airC)}) it was snow, which runs off when it melts.`,
  'rain.check': ({ measuredMm, modelMm }) =>
    `Measured ${quantity('rain', measuredMm)}, weather model ${quantity('rain', modelMm)}. ` +
    'The measured one is used. A shower can miss a gauge: look at the creeks.',
  'clarity.class': ({ class: of, confidence, measured, because }, inner) =>
    measured
      ? `${capital(CLASS[of])}, ${confidence} confidence. ${inner(because)}`
      : `${capital(confidence)} confidence. ${inner(because)}`,
};
