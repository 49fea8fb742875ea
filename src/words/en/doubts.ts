/** Why a value of an instrument is not believed; each a clause that stands after a colon. */
import type { Doubt } from '../../record/index.ts';
import type { Catalogue } from '../catalogue.ts';

const short = (value: number): string => String(Math.round(value * 10) / 10);

export const doubts: Catalogue<Doubt> = {
  'doubt.stated': ({ text }) => text,
  'doubt.impossible': ({ low, high }) => `impossible value, outside ${short(low)} to ${short(high)}`,
  'doubt.wrongSeries': ({ share }) =>
    `${Math.max(1, Math.round(share * 100))} % of the series cannot be, so its unit or its column is wrong`,
  'doubt.clock': () => 'stamped by a clock that is wrong, so nobody knows how old it is',
  'doubt.twoValues': () => 'two different values for one instant',
  'doubt.levelStep': ({ stepM }) =>
    `a step of ${stepM.toFixed(1)} m that no water makes: another unit or another zero`,
  'doubt.twoDepths': () => 'two depths on one series',
  'doubt.spike': () => 'spike against the values before and after it',
  'doubt.unconfirmed': () => 'sudden step that no later value confirms yet',
  'doubt.stuck': ({ hours }) => `stuck: the same value for ${hours} h or more`,
  'doubt.duplicateDay': () => 'duplicate day: repeats the day before to the last digit',
  'doubt.dryRange': ({ rangeK }) => `out of the water: ${rangeK.toFixed(1)} K in a day`,
  'doubt.tracksAir': () => 'out of the water: follows the air',
  'doubt.datumJump': ({ stepM }) =>
    stepM === null
      ? 'datum jump afterwards: not comparable with later days'
      : `datum jump of ${stepM.toFixed(2)} m afterwards: not comparable with later values`,
};
