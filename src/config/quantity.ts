import { z } from 'zod';
import { quantityPattern, readQuantity } from '../units/index.ts';

/** Dimensions that a configuration writes. */
export type Written = 'length' | 'area' | 'mass' | 'angle' | 'speed';

/**
 * A number with its unit, as written in a configuration (`42 ft`, `1.5 km2`), turned to SI (m, m2, kg, deg, m/s).
 * The unit is never optional: a bare number could be either system's.
 */
export function quantity(dimension: Written, range: { min?: number; max?: number } = {}) {
  const readable = z
    .string({
      error: ({ input }) => {
        const read = readQuantity(typeof input === 'number' ? String(input) : '', dimension);
        if (!('problem' in read)) return undefined;
        if (typeof input === 'number') return read.problem;
        return read.problem.replace(/^found "",/, `found ${JSON.stringify(input) ?? 'nothing'},`);
      },
    })
    .meta({ pattern: quantityPattern(dimension) });
  return readable.transform((written, context) => {
    const read = readQuantity(written, dimension);
    if ('problem' in read) {
      context.addIssue({ code: 'custom', message: read.problem });
      return z.NEVER;
    }
    const { si } = read;
    if (si < (range.min ?? -Infinity) || si > (range.max ?? Infinity)) {
      context.addIssue({
        code: 'custom',
        message: `found "${written}", which is out of range (${range.min ?? 'any'} to ${range.max ?? 'any'} in ${SI_WORDS[dimension]}). Check the number and its unit.`,
      });
      return z.NEVER;
    }
    return si;
  });
}

const SI_WORDS: Readonly<Record<Written, string>> = {
  length: 'm',
  area: 'm2',
  mass: 'kg',
  angle: 'degrees',
  speed: 'm/s',
};
