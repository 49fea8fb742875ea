/** The page for one reading of the thermometer, and what is asked back before a doubtful one is kept. */
import type { ReadingQuestion } from '../../record/index.ts';
import { quantity } from '../../units/index.ts';
import type { Catalogue } from '../catalogue.ts';

const c = (value: number): string => quantity('temperature', value);

/** Quantities stay placeholders. */
const question: Catalogue<ReadingQuestion> = {
  inFuture: () => 'Its time is in the future.',
  veryDeep: ({ depthM }) => `${quantity('depth', depthM)} is very deep for a hand thermometer.`,
  notLakeWater: ({ written, waterC, otherUnitFits }) =>
    `${written === null ? '' : `${written} is `}${waterC.toFixed(1)} °C, which lake water hardly has.${otherUnitFits ? ' It looks like a number in the other unit.' : ''}`,
  againstOthers: ({ waterC, nearestC, otherUnitFits }) =>
    `${c(waterC)} is against all other readings; the nearest in time says ${c(nearestC)}.${otherUnitFits ? ' In the other unit it would fit.' : ''}`,
  farFromAir: ({ waterC, meanC }) => `${c(waterC)} is far from the mean air of these two weeks, ${c(meanC)}.`,
  oddClarity: ({ clarityM }) => `A clarity of ${quantity('clarity', clarityM)} is unusual: check its unit.`,
};

export const readingPage = {
  title: (lake: string): string => `The water at ${lake}`,
  label: 'Main lake now, about 3 ft down',
  isRight: 'It is right',
  keep: 'Keep it',
  note: 'Away from the bank and the outboard, after a minute in the water. The reading goes into the lake’s estimate, and goes when you erase your address. Give it with the boat at rest.',
  kept: (water: string, at: string): string => `${water} at ${at}. The next briefing builds on it.`,
  back: 'Take it back',
  outing: 'Tell how the day was',
  gone: { title: 'Taken back', body: 'The reading is gone, as if it had not been given.' },
  nothing: {
    title: 'Nothing to take back',
    body: 'That reading is not here, or was given too long ago: ask who runs these pages.',
  },
  notTemperature: (given: string): string =>
    `"${given}" is not a temperature with its unit: write it as 9.4C or 49F.`,
  question,
};
