import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join, relative, resolve } from 'node:path';
import { Instrumenter } from '@stryker-mutator/instrumenter';
import type { Location, Mutant } from '@stryker-mutator/api/core';

export interface Sampled {
  readonly key: string;
  /** By what it does, wherever it stands. */
  readonly rank: string;
  readonly file: string;
  /** Lines and columns from 0. */
  readonly location: Location;
  readonly mutatorName: string;
  readonly replacement: string;
}

/**
 * Mutants of a folder, the `count` first in an order that the seed shuffles.
 *
 * The order is a hash of what a mutant does, not of where it stands: a change elsewhere in the folder leaves the rest
 * of the sample as it was, and a smaller sample is a part of a larger one of the same seed.
 *
 * @returns the sample, and how many mutants it was drawn from
 */
export async function drawSample(
  folder: string,
  seed: number,
  count: number,
): Promise<{ sample: Sampled[]; population: number }> {
  const files = filesIn(folder).map((name) => ({
    name: resolve(name),
    mutate: true,
    content: readFileSync(name, 'utf8'),
  }));
  const { mutants } = await new Instrumenter(SILENT).instrument(files, {
    plugins: null,
    excludedMutations: [],
    ignorers: [],
  });
  const seen = new Map<string, number>();
  const ranked = mutants
    .filter(({ status }) => status === undefined)
    .map((mutant) => {
      const content = files.find(({ name }) => name === mutant.fileName)?.content ?? '';
      const file = relative('.', mutant.fileName);
      const does = [file, mutant.mutatorName, textAt(content, mutant.location), mutant.replacement].join(
        '\n',
      );
      const times = seen.get(does) ?? 0;
      seen.set(does, times + 1);
      const rank = createHash('sha256').update(`${seed}\n${times}\n${does}`).digest('hex');
      const { mutatorName, replacement, location } = mutant;
      return { key: keyOf(mutant), rank, file, location, mutatorName, replacement };
    })
    .sort((a, b) => (a.rank < b.rank ? -1 : 1));
  return { sample: ranked.slice(0, count), population: ranked.length };
}

/** Which mutant of an instrumented file it is; lines and columns from 0. */
export function keyOf(mutant: Pick<Mutant, 'fileName' | 'mutatorName' | 'replacement' | 'location'>): string {
  const { start, end } = mutant.location;
  const at = [start.line, start.column, end.line, end.column].join(':');
  return [relative('.', mutant.fileName), mutant.mutatorName, at, mutant.replacement].join('|');
}

/** TypeScript files of a folder, in order. */
export function filesIn(folder: string): string[] {
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.ts'))
    .map((name) => join(folder, name))
    .sort();
}

function textAt(content: string, { start, end }: Location): string {
  const lines = content.split('\n').slice(start.line, end.line + 1);
  const last = lines.length - 1;
  return lines
    .map((line, at) => line.slice(at === 0 ? start.column : 0, at === last ? end.column : undefined))
    .join('\n');
}

/** What Stryker's parts ask for as a logger. */
export const SILENT = {
  isTraceEnabled: () => false,
  isDebugEnabled: () => false,
  isInfoEnabled: () => false,
  isWarnEnabled: () => false,
  isErrorEnabled: () => false,
  isFatalEnabled: () => false,
  trace: () => undefined,
  debug: () => undefined,
  info: () => undefined,
  warn: () => undefined,
  error: () => undefined,
  fatal: () => undefined,
};
