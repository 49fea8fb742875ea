import { ThawlineError } from '../../units/index.ts';

const NUMBER_AND_UNIT = /^([+-]?\d+(?:\.\d+)?)\s*([^\d\s].*)?$/;

const TO_C: Readonly<Record<string, (shown: number) => number>> = {
  C: (c) => c,
  F: (f) => (f - 32) / 1.8,
};

const TO_M: Readonly<Record<string, number>> = { m: 1, cm: 0.01, ft: 0.3048, in: 0.0254 };

export interface WrittenWater {
  readonly waterC: number;
  readonly written: string;
  /** The same number read in the other unit, degC: the usual slip. */
  readonly otherUnitC: number;
}

/**
 * A water temperature as an angler writes it: `9.4C`, `49 F`, `9.4 °C`.
 *
 * @throws ThawlineError `usage` without a number or without its unit
 */
export function parseWater(text: string): WrittenWater {
  const [, number, unit = ''] = NUMBER_AND_UNIT.exec(text.trim().replace('\u2212', '-')) ?? [];
  const letter = unit.replace('°', '').trim().toUpperCase();
  const convert = TO_C[letter];
  if (number === undefined || convert === undefined)
    throw new ThawlineError(
      'usage',
      `"${text}" is not a temperature with its unit: write it as 9.4C or 49F.`,
    );
  const other = TO_C[letter === 'C' ? 'F' : 'C'] ?? convert;
  return {
    waterC: convert(Number(number)),
    written: `${number} °${letter}`,
    otherUnitC: other(Number(number)),
  };
}

/**
 * A length such as `0.6m` or `2 ft`, in m.
 *
 * @param bareUnit what a number without a unit is taken as; without it a unit must be given
 * @throws ThawlineError `usage` when it is not a length of 0 or more
 */
export function parseLengthM(text: string, name: string, bareUnit?: 'm'): number {
  const [, number, unit = bareUnit ?? ''] = NUMBER_AND_UNIT.exec(text.trim()) ?? [];
  const factor = TO_M[unit.toLowerCase()];
  if (number === undefined || factor === undefined || Number(number) < 0)
    throw new ThawlineError(
      'usage',
      `${name} "${text}" is not a length with its unit: write it as 0.6m or 2ft.`,
    );
  return Number(number) * factor;
}
