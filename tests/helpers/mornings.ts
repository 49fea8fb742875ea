/**
 * The invented mornings as the program issued them: kept documents, so that every test reads the same ones quickly.
 * `tests/briefing/mornings.test.ts` issues them anew and compares; after a wanted change it rewrites them with `-u`.
 */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { briefingSchema, type BriefingDocument } from '../../src/briefing/index.ts';
import type { UnitSystem } from '../../src/units/index.ts';
import { PLANS } from './mornings/plans.ts';

export interface Morning {
  readonly name: string;
  readonly units: UnitSystem;
  readonly document: BriefingDocument;
}

export const keptPath = (name: string): string =>
  fileURLToPath(new URL(`../../fixtures/mornings/${name}.json`, import.meta.url));

/** Text of a kept document; six decimals, because the last digits of a sine are not the same on every machine. */
export const keptText = (document: BriefingDocument): string =>
  `${JSON.stringify(document, (_key, value: unknown) => (typeof value === 'number' ? Number(value.toFixed(6)) : value), 1)}\n`;

const kept = (): readonly Morning[] =>
  PLANS.map(({ name, units = 'us' }) => ({
    name,
    units,
    document: briefingSchema.parse(JSON.parse(readFileSync(keptPath(name), 'utf8'))),
  }));

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
