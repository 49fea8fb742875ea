import { type Dimension, ThawlineError, toSiValue, unitNamed } from '../units/index.ts';
import { VARIABLE, type QuantityKind, type Variable } from '../vocabulary/index.ts';

type VariableKind = (typeof VARIABLE)[Variable]['kind'];

/** In which dimension the values of a kind come. */
const DIMENSION: Readonly<Record<VariableKind, Dimension>> = {
  temperature: 'temperature',
  percent: 'percent',
  rain: 'rain',
  windSpeed: 'speed',
  angle: 'angle',
  pressure: 'pressure',
  irradiance: 'irradiance',
  level: 'length',
  flow: 'flow',
  turbidity: 'turbidity',
  stormEnergy: 'stormEnergy',
  count: 'count',
} satisfies Partial<Record<QuantityKind, Dimension>>;

type Convert = (value: number) => number;

/**
 * Converter from a service's own unit to the SI unit of the variable.
 *
 * @param variable  what is measured
 * @param unit  the unit as the service wrote it
 * @throws ThawlineError naming the unit when it is missing or not one of the variable's
 */
export function toSi(variable: Variable, unit: string | null | undefined, service: string): Convert {
  const plain = (unit ?? '').trim();
  const word = plain.replace(/^(wmoUnit|nwsUnit|unit):/i, '');
  const found = word === '' ? null : unitNamed(DIMENSION[VARIABLE[variable].kind], word);
  if (found === null) {
    const named = plain === '' ? 'no unit' : `the unit "${plain.slice(0, 40)}"`;
    throw new ThawlineError(
      'service',
      `${service} gave ${named} for ${variable}; the values were not used, because guessing a unit is worse than a gap.`,
    );
  }
  return (value) => {
    const si = toSiValue(value, found);
    if (Number.isFinite(si)) return si;
    throw new ThawlineError(
      'service',
      `${service} gave a value for ${variable} that is too large to be one.`,
    );
  };
}
