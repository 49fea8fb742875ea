import { formatNumber, formatQuantity } from './display.ts';
import { ThawlineError } from './errors.ts';
import { SI_UNIT, type QuantityKind, type UnitSystem } from './quantity.ts';

/** No brace inside: whoever reads a long row of them again and again would take seconds over 64 kB. */
const MARK = /\{\{([^{}]*)\}\}/g;
/** Stands for a brace of text that is no sentence of ours. */
const BRACE = '{{brace}}';
const NUMBER = String.raw`[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:e[+-]?\d+)?`;
const INSIDE = new RegExp(String.raw`^([a-zA-Z]+):(${NUMBER})(?:\.\.(${NUMBER}))?$`);

const isKind = (word: string): word is QuantityKind => Object.hasOwn(SI_UNIT, word);

/**
 * Sentence with its quantities written for a reader.
 *
 * A sentence keeps numbers as `{{kind:value}}` (SI), e.g. `{{temperature:8.3}}`; a value written with a plus sign is
 * printed signed, `{{levelChange:+0.3}}` -> `+0.3 m`; `{{depth:0.6..2.4}}` prints a range with one unit, or one
 * number where both ends print alike.
 *
 * @param joint word between the ends of a range, in the reader's language
 * @throws {ThawlineError} `internal` when a placeholder names no kind of quantity or carries no number: a template
 *   that is wrong must not reach a reader.
 */
export function expandQuantities(text: string, system: UnitSystem, joint = 'to'): string {
  return text.replace(MARK, (whole, inside: string) => {
    if (whole === BRACE) return '{';
    const found = INSIDE.exec(inside.trim());
    const [, kind = '', first = '', second] = found ?? [];
    if (found === null || !isKind(kind)) {
      throw new ThawlineError('internal', `The sentence holds a quantity that cannot be read: ${whole}.`);
    }
    const signed = first.startsWith('+');
    if (second === undefined) return formatQuantity(Number(first), kind, system, signed);
    return formatRange(Number(first), Number(second), kind, system, signed, joint);
  });
}

/** Text of others, made safe to stand in a sentence: the expansion prints it as it was written. */
export const inert = (text: string): string => text.replaceAll('{', BRACE);

function formatRange(
  first: number,
  second: number,
  kind: QuantityKind,
  system: UnitSystem,
  signed: boolean,
  joint: string,
): string {
  const from = formatNumber(first, kind, system, signed);
  const until = formatQuantity(second, kind, system, signed);
  return from === formatNumber(second, kind, system, signed) ? until : `${from} ${joint} ${until}`;
}

/**
 * Placeholder for a quantity, to be put into a sentence: `quantity('depth', 1.8)` -> `{{depth:1.8}}`.
 * Rounded to six significant digits, far below any display step, so that sentences of equal days are equal.
 *
 * @throws {ThawlineError} `internal` when the value is not finite: unknown numbers are said in words.
 */
export function quantity(kind: QuantityKind, si: number, signed = false): string {
  return `{{${kind}:${plain(si, kind, signed)}}}`;
}

/** Placeholder for a range of a quantity: `quantityRange('depth', 1, 3)` -> `{{depth:1..3}}`. */
export function quantityRange(kind: QuantityKind, fromSi: number, toSi: number, signed = false): string {
  return `{{${kind}:${plain(fromSi, kind, signed)}..${plain(toSi, kind, signed)}}}`;
}

function plain(si: number, kind: QuantityKind, signed: boolean): string {
  if (!Number.isFinite(si)) {
    throw new ThawlineError('internal', `A sentence was given no finite ${kind} to print.`);
  }
  const value = Number(si.toPrecision(6));
  return (signed && value >= 0 ? '+' : '') + String(value);
}
