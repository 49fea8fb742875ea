/** A language nobody speaks: every catalogue word in full-width letters, so that a word outside the catalogue shows. */
import type { Messages } from '../../src/briefing/index.ts';
import { en } from '../../src/words/en/page.ts';

const OPEN = '\uE000';
const CLOSE = '\uE001';

const wide = (text: string): string =>
  text.replace(/[A-Za-z]/g, (letter) => String.fromCharCode(letter.charCodeAt(0) + 0xfee0));

/** Widens what the catalogue adds, not what was handed to it. */
function widenOutside(text: string): string {
  let depth = 0;
  let result = '';
  for (const sign of text) {
    if (sign === OPEN) depth += 1;
    else if (sign === CLOSE) depth -= 1;
    else result += depth > 0 ? sign : wide(sign);
  }
  return result;
}

function pseudo(value: unknown): unknown {
  if (typeof value === 'string') return wide(value);
  if (typeof value === 'function') {
    const call = value as (...args: unknown[]) => string;
    return (...args: unknown[]): string =>
      widenOutside(call(...args.map((arg) => (typeof arg === 'string' ? OPEN + arg + CLOSE : arg))));
  }
  if (Array.isArray(value)) return value.map(pseudo);
  if (value === null || typeof value !== 'object') return value;
  return Object.fromEntries(Object.entries(value).map(([key, item]) => [key, pseudo(item)]));
}

export const pseudoMessages: Messages = { ...(pseudo(en) as Messages), language: 'x-pseudo' };

/** Keys whose values are ids or codes, not words for people. */
const CODES = new Set([
  'id',
  'place',
  'signal',
  'rule',
  'grade',
  'date',
  'kind',
  'freshness',
  'period',
  'bound',
  'word',
  'zone',
  'url',
  'leading',
  'schema',
  'basis',
  'waterBody',
  'species',
  'issueAt',
  'alerts',
  'weather',
  'firstPlace',
  'membership',
  'service',
]);

/** Foreign words of an input replaced by a third alphabet, so that only words of the program itself remain Latin. */
export function foreign<T>(value: T): T {
  const change = (item: unknown, key: string): unknown => {
    if (CODES.has(key)) return item;
    if (typeof item === 'string') {
      return item.replace(/\{\{.*?\}\}|[A-Za-z]/g, (part) => (part.length > 1 ? part : 'ж'));
    }
    if (Array.isArray(item)) return item.map((one) => change(one, key));
    if (item === null || typeof item !== 'object') return item;
    return Object.fromEntries(Object.entries(item).map(([name, one]) => [name, change(one, name)]));
  };
  return change(value, '') as T;
}
