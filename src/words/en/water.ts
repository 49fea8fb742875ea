/** Why readings of the water do not count, and what an estimate of its clarity rests on. */
import { quantity } from '../../units/index.ts';
import type { Refusal } from '../../water/index.ts';
import type { ClarityReason } from '../../water/clarity/index.ts';
import type { Catalogue } from '../catalogue.ts';

const LIKELY = {
  lake: 'what the weather and the other readings make likely',
  river: 'what weather, flow and the other readings make likely',
  pocket: 'what the weather and the other readings make likely in the pocket',
} as const;

const FATE = {
  leftOut: 'it was left out until another one agrees',
  countsLittle: 'it counts for little until others agree',
} as const;

const refusal: Catalogue<Refusal> = {
  noWeatherThatDay: () =>
    'There is no weather for that day, so the reading cannot be compared with anything.',
  noWeatherThatHour: () => 'There is no weather for its hour, so there is nothing to compare it with.',
  beforeTheWeather: () =>
    'It is older than the weather that the pocket is computed from, so there is nothing to compare it with.',
  notANumber: () => 'The water temperature is no number.',
  notWater: ({ waterC, water }) =>
    `${quantity('temperature', waterC)} cannot be ${water} water; check the unit.`,
  tooFar: ({ differenceC, of, fate }) =>
    `It is ${quantity('temperatureDifference', Math.abs(differenceC))} ${differenceC > 0 ? 'above' : 'below'} ${LIKELY[of]}; ${FATE[fate]}.`,
  stuck: ({ waterC, days, water, movedC }) =>
    `The thermometer has shown ${quantity('temperature', waterC)} for ${days} days while the ${water} must have moved by ${quantity('temperatureDifference', movedC)}; it looks stuck.`,
  belowWarmLayer: ({ depthM }) =>
    `At ${quantity('depth', depthM)} the thermometer is below the warm layer and tells nothing of the surface.`,
  swingsLikeAir: ({ rangeC }) =>
    `The thermometer moved by ${quantity('temperatureDifference', rangeC)} within the day, as air does and lake water does not; it may lie out of the water.`,
  followsAir: () =>
    'The thermometer goes up and down with the air of each day, as water does not; it may lie out of the water.',
  datedLate: () =>
    'The daily readings answer the weather a day late, so they look stamped a day late, as a clock on another zone ' +
    'does; from here on they are refused for their own day and count for the day before.',
  datedEarly: () =>
    'The daily readings answer the weather of the day after, so they look stamped a day early; they are kept, because ' +
    'that costs less than leaving them out, but check the dates.',
  tooOld: ({ days }) => `It is more than ${days} days old, too old to say anything of the pocket now.`,
};

const ageWords = (days: number): string => {
  if (days < 1) return 'less than a day old';
  const whole = Math.round(days);
  return whole === 1 ? '1 day old' : `${whole} days old`;
};

const runoffWords = (mm: number | null): string =>
  mm === null
    ? 'hardly any runoff came in the last two weeks'
    : `runoff of the last two weeks, {{rain:${mm.toFixed(0)}}} over the watershed, has not settled yet`;

const clarity: Catalogue<ClarityReason> = {
  reading: ({ readingM, ageDays, runoffSince }) =>
    `A reading gave {{clarity:${readingM.toFixed(2)}}}, ${ageWords(ageDays)}; ${
      runoffSince === null ? 'whether runoff came since is not known' : 'no runoff to speak of came since'
    }.`,
  gauge: ({ turbidityFnu }) =>
    `The turbidity gauge shows {{turbidity:${turbidityFnu.toFixed(0)}}}; what depth that means differs from lake to lake.`,
  oldReading: ({ readingM, ageDays, runoffMm }) =>
    `The last reading, {{clarity:${readingM.toFixed(2)}}}, is ${ageWords(ageDays)}; ${runoffWords(runoffMm)}.`,
  flood: ({ ratio, rise24hM }) =>
    `Nobody has measured it: the flow is ${ratio.toFixed(0)} times its usual amount and the level rose {{levelChange:${rise24hM.toFixed(2)}}} in a day, so it is stained at least.`,
  runoffAlone: ({ runoffMm }) => `No reading and no turbidity gauge: ${runoffWords(runoffMm)}.`,
};

export const en = { refusal, clarity };
