/**
 * The invented mornings as the program issued them: kept documents, so that every test reads the same ones quickly.
 * `tests/briefing/mornings.test.ts` issues them anew and compares; after a wanted change it rewrites them with `-u`.
 */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { briefingSchema, type Briefing } from '../../src/briefing/index.ts';
import type { UnitSystem } from '../../src/units/index.ts';
import { pageOf, wordsFor, type BriefingPage } from '../../src/words/index.ts';
import { PLANS } from './mornings/plans.ts';

export interface Morning {
  readonly name: string;
  readonly units: UnitSystem;
  /** As the program archives it. */
  readonly facts: Briefing;
  /** The same, said in English. */
  readonly document: BriefingPage;
}

export const keptPath = (name: string): string =>
  fileURLToPath(new URL(`../../fixtures/mornings/${name}.json`, import.meta.url));

/** Text of a kept document; six decimals, because the last digits of a sine are not the same on every machine. */
export const keptText = (document: Briefing): string =>
  `${JSON.stringify(document, (_key, value: unknown) => (typeof value === 'number' ? Number(value.toFixed(6)) : value), 1)}\n`;

const kept = (): readonly Morning[] =>
  PLANS.map(({ name, units = 'us' }) => {
    const facts = briefingSchema.parse(JSON.parse(readFileSync(keptPath(name), 'utf8')));
    return { name, units, facts, document: pageOf(facts, wordsFor('en')) };
  });

let read: readonly Morning[] | undefined;
export function mornings(): readonly Morning[] {
  read ??= kept();
  return read;
}

export function morningNamed(name: string): Morning {
  const found = mornings().find((morning) => morning.name === name);
  if (found === undefined) throw new Error(`no morning ${name}`);
  return found;
}
