/**
 * A language nobody speaks, made from another: every letter carries an accent, and every third one stands twice, so that
 * a sentence outside the catalogue shows, and so does a place too narrow for a longer language.
 */
import type { Words } from './languages.ts';

const OPEN = '\uE000';
const CLOSE = '\uE001';

const PLAIN = 'abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ';
const ACCENTED = 'áƀçđéƒğĥíĵķĺɱñóþɋŕšťúṽŵẋýžÁɃÇĐÉƑĞĤÍĴĶĹṀÑÓÞɊŔŠŤÚṼŴẊÝŽ';
const LETTERS = new Map(Array.from(PLAIN, (letter, i) => [letter, ACCENTED.charAt(i)]));

/** Accents what the catalogue adds; what was handed to it and placeholders of quantities stay. */
function accented(text: string): string {
  let depth = 0;
  let count = 0;
  let result = '';
  for (const part of text.match(/\{\{.*?\}\}|[\s\S]/gu) ?? []) {
    if (part === OPEN) depth += 1;
    else if (part === CLOSE) depth -= 1;
    else {
      const letter = depth > 0 ? undefined : LETTERS.get(part);
      if (letter === undefined) result += part;
      else {
        count += 1;
        result += count % 3 === 0 ? letter + letter : letter;
      }
    }
  }
  return result;
}

function pseudo(value: unknown, key = ''): unknown {
  // A sentence that a rule's own writer gave is passed on, whatever the language.
  if (key === 'said') return value;
  if (typeof value === 'string') return accented(value);
  if (typeof value === 'function') {
    const call = value as (...args: unknown[]) => unknown;
    return (...args: unknown[]): unknown => {
      const said = call(...args.map((arg) => (typeof arg === 'string' ? OPEN + arg + CLOSE : arg)));
      return typeof said === 'string' ? accented(said) : pseudo(said);
    };
  }
  if (Array.isArray(value)) return value.map((item) => pseudo(item));
  if (value === null || typeof value !== 'object') return value;
  return Object.fromEntries(Object.entries(value).map(([name, item]) => [name, pseudo(item, name)]));
}

/** Name of the language that is made from English. */
export const PSEUDO = 'en-XA';

export function pseudoWords(words: Words): Words {
  // The same shape, sentence for sentence.
  const made = pseudo(words) as Words;
  const ofRules: Words['ofRules'] = (tables) => made.ofRules({ en: tables[PSEUDO] ?? tables['en'] ?? {} });
  return { ...made, ofRules, page: { ...made.page, language: PSEUDO } };
}
