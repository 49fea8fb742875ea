import { z } from 'zod';

/** Units a configuration may write, as factor to SI; temperatures carry an offset. */
const UNITS = {
  length: { m: 1, cm: 0.01, km: 1000, ft: 0.3048, in: 0.0254, yd: 0.9144, mi: 1609.344 },
  area: { m2: 1, ha: 10_000, km2: 1e6, acre: 4046.8564224, acres: 4046.8564224, mi2: 2_589_988.110336 },
  mass: { kg: 1, g: 0.001, lb: 0.45359237, oz: 0.028349523125 },
  angle: { deg: 1, '°': 1 },
} as const;

export type Dimension = keyof typeof UNITS;

/**
 * A number with its unit, as written in a configuration (`42 ft`, `1.5 km2`), turned to SI (m, m2, kg, deg).
 * The unit is never optional: a bare number could be either system's.
 */
export function quantity(dimension: Dimension, range: { min?: number; max?: number } = {}) {
  const units: Readonly<Record<string, number>> = UNITS[dimension];
  const expected = `a number and a unit of ${dimension} (${Object.keys(units).join(', ')}), for example "${dimension === 'area' ? '3 km2' : dimension === 'mass' ? '12 lb' : dimension === 'angle' ? '30 deg' : '42 ft'}"`;
  return z
    .union([z.string(), z.number()], {
      error: (issue) => `found ${JSON.stringify(issue.input) ?? 'nothing'}, expected ${expected}`,
    })
    .transform((written, context) => {
      const match = /^([+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:e[+-]?\d+)?)\s*([^\d\s.].*)$/i.exec(
        String(written).trim(),
      );
      const factor = match?.[2] === undefined ? undefined : units[match[2]];
      if (match?.[1] === undefined || factor === undefined) {
        const why =
          typeof written === 'number'
            ? 'a number without a unit'
            : match?.[2]
              ? `the unit "${match[2]}"`
              : JSON.stringify(written);
        context.addIssue({ code: 'custom', message: `found ${why}, expected ${expected}` });
        return z.NEVER;
      }
      const si = Number(match[1]) * factor;
      if (si < (range.min ?? -Infinity) || si > (range.max ?? Infinity)) {
        context.addIssue({
          code: 'custom',
          message: `found "${written}", which is out of range (${range.min ?? 'any'} to ${range.max ?? 'any'} in SI). Check the number and its unit.`,
        });
        return z.NEVER;
      }
      return si;
    });
}
