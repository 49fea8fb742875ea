/** Numbers with their unit, as people write them: one reader for configuration, conditions and readings. */
import { toSiValue, UNITS, unitNamed, unitNames, type Dimension } from './conversion.ts';

const WRITTEN = /^([+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:e[+-]?\d+)?)\s*([^\d\s.,+-].{0,20})?$/i;

/** What a text says: a number, and the unit behind it where there is one; null where it is no such thing. */
export function readNumber(text: string): { readonly number: number; readonly unit: string | null } | null {
  const found = WRITTEN.exec(text.trim());
  if (found?.[1] === undefined) return null;
  return { number: Number(found[1]), unit: found[2]?.trim() ?? null };
}

/**
 * How to mend a number with a comma in it: the comma between thousands is left out, the one before decimals becomes a
 * point. Null when there is no such comma.
 */
export function commaHint(text: string): string | null {
  const found = /^\s*[+-]?\d+(?:,\d+)+(?:\.\d+)?/.exec(text);
  if (found === null) return null;
  const written = found[0].trim();
  const without = written.replaceAll(',', '');
  const point = written.replace(',', '.');
  const groups = /^[+-]?[1-9]\d{0,2}(,\d{3})+(\.\d+)?$/.test(written);
  if (groups && (written.match(/,/g)?.length ?? 0) === 1 && !written.includes('.'))
    return `numbers have no comma here: write ${without}, or ${point} if a decimal is meant`;
  return groups
    ? `numbers have no comma here: write ${without}`
    : `numbers have a decimal point, no comma: write ${point}`;
}

/** An example of each dimension, as a person would write it. */
const EXAMPLE: Readonly<Partial<Record<Dimension, string>>> = {
  length: '42 ft',
  area: '3 km2',
  mass: '12 lb',
  angle: '30 deg',
  speed: '25 mph',
};

export type Read = { readonly si: number } | { readonly problem: string };

/**
 * SI value of a quantity as written. The unit is never optional: a bare number could be either system's.
 *
 * @returns the value, or what was found and what is expected
 */
export function readQuantity(text: string, dimension: Dimension): Read {
  const names = Object.keys(UNITS[dimension]).join(', ');
  const expected = `expected a number and a unit of ${dimension} (${names}), for example "${EXAMPLE[dimension] ?? '1'}"`;
  const comma = commaHint(text);
  if (comma !== null) return { problem: `found ${JSON.stringify(text)}: ${comma}; ${expected}` };
  const read = readNumber(text);
  if (read === null) return { problem: `found ${JSON.stringify(text)}, ${expected}` };
  if (read.unit === null) return { problem: `found a number without a unit (${text.trim()}), ${expected}` };
  const unit = unitNamed(dimension, read.unit);
  if (unit !== null) return { si: toSiValue(read.number, unit) };
  const other = Object.keys(UNITS).find((one) => unitNamed(one as Dimension, read.unit ?? '') !== null);
  const whose = other === undefined ? '' : `, which is a unit of ${other}`;
  return { problem: `found the unit "${read.unit}"${whose}, ${expected}` };
}

/** Pattern of a quantity as written, for editors: a number, a space or none, and one of the dimension's units. */
export function quantityPattern(dimension: Dimension): string {
  const escaped = unitNames(dimension).map((name) => name.replace(/[.*+?^${}()|[\]\\/]/g, String.raw`\$&`));
  return String.raw`^\s*[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?\s*(${escaped.join('|')})\s*$`;
}
