/** Why a reading was refused, in sentences for the person who gave it; quantities as placeholders. */
import { quantity } from '../units/index.ts';

export type WaterKind = 'lake' | 'river';

/** Fresh water that a thermometer can have been in, degC; the low end leaves room for its error at freezing. */
const POSSIBLE_C = { low: -0.5, high: 40 } as const;

/** Why a reading of a day outside the weather is refused. */
export const NO_WEATHER =
  'There is no weather for that day, so the reading cannot be compared with anything.';

/** @returns why the value cannot be water of that kind, or undefined when it can */
export function impossible(waterC: number, water: WaterKind): string | undefined {
  if (!Number.isFinite(waterC)) return 'The water temperature is no number.';
  if (waterC >= POSSIBLE_C.low && waterC <= POSSIBLE_C.high) return undefined;
  return `${quantity('temperature', waterC)} cannot be ${water} water; check the unit.`;
}

/**
 * @param differenceC reading minus expectation, K
 * @param expected    what it differs from, in words
 * @param leftOut     false where the reading counted a little
 */
export function tooFar(differenceC: number, expected: string, leftOut: boolean): string {
  const side = differenceC > 0 ? 'above' : 'below';
  const fate = leftOut
    ? 'it was left out until another one agrees'
    : 'it counts for little until others agree';
  return `It is ${quantity('temperatureDifference', Math.abs(differenceC))} ${side} ${expected}; ${fate}.`;
}
