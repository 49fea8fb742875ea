// Mutation testing of one room on a seeded sample, outside CI: `npm run mutants -- --room water --seed 1 --count 300`.
// Stryker makes the mutants, runs each against the room's own tests that reach it in a copy under `out/mutants`, and
// keeps what was killed; this file draws the sample, asks again what ran out of time, and states score and interval.
import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { Stryker } from '@stryker-mutator/core';
import type { MutantResult, PartialStrykerOptions } from '@stryker-mutator/api/core';
import { Command, Option } from 'commander';
import { forgetAllButKilled } from './mutants/incremental.ts';
import { ROOMS, roomNamed } from './mutants/rooms.ts';
import { drawSample, keyOfResult, rangeOf, type Sampled } from './mutants/sample.ts';
import { scoreLines, survivorLines } from './mutants/verdict.ts';

const OUT = 'out/mutants';
/** Half a minute over the tests' own time: a machine busy with other things must not look like an endless loop. */
const PATIENCE_MS = 30_000;

interface Options {
  room: string;
  seed: number;
  count: number;
  fresh: boolean;
}

const options = new Command('mutants')
  .description('mutation score of a room on a seeded sample')
  .addOption(new Option('--room <name>', 'room').choices(Object.keys(ROOMS)).makeOptionMandatory())
  .addOption(new Option('--seed <number>', 'which sample').argParser(Number).default(1))
  .addOption(new Option('--count <number>', 'mutants in it').argParser(Number).default(300))
  .option('--fresh', 'ask the ones again that an earlier run killed', false)
  .parse()
  .opts<Options>();

const room = roomNamed(options.room);
const kept = join(OUT, `${options.room}.json`);

async function run(sample: readonly Sampled[], patienceMs: number): Promise<MutantResult[]> {
  const asked = join(OUT, `${options.room}.sample.json`);
  mkdirSync(OUT, { recursive: true });
  writeFileSync(asked, JSON.stringify(sample.map(({ key }) => key)));
  // Both are read by Stryker's own processes: the plugin that lets the sample through, and the tests' configuration.
  process.env['THAWLINE_MUTANTS'] = join(process.cwd(), asked);
  process.env['THAWLINE_MUTANTS_TESTS'] = room.tests;
  const asking: PartialStrykerOptions = {
    testRunner: 'vitest',
    // Every test file of the room: which of them reach a mutant is measured, not guessed from imports.
    vitest: { configFile: 'vitest.mutants.config.ts', related: false },
    plugins: ['@stryker-mutator/vitest-runner', './scripts/mutants/onlySampled.mjs'],
    checkers: ['sampled'],
    coverageAnalysis: 'perTest',
    mutate: sample.map(rangeOf),
    incremental: true,
    incrementalFile: kept,
    force: options.fresh,
    concurrency: 1,
    timeoutMS: patienceMs,
    timeoutFactor: 4,
    tempDirName: join(OUT, 'tmp'),
    ignorePatterns: ['dist', 'docs', 'out', 'coverage', 'data', 'bench'],
    reporters: ['progress-append-only'],
    allowConsoleColors: false,
  };
  const wanted = new Set(sample.map(({ key }) => key));
  const results = await new Stryker(asking).runMutationTest();
  forgetAllButKilled(kept);
  return results.filter((result) => wanted.has(keyOfResult(result)));
}

/** The late ones with twice the time; as they were, where the tests no longer begin: somebody is at work on them. */
async function secondChance(): Promise<MutantResult[]> {
  const asked = drawn.sample.filter(({ key }) => lateKeys.has(key));
  return run(asked, 2 * PATIENCE_MS).catch((error: unknown) => {
    console.error(error);
    return late;
  });
}

if (options.fresh) rmSync(kept, { force: true });
const drawn = await drawSample(room.sources, options.seed, options.count);
const first = await run(drawn.sample, PATIENCE_MS);
const late = first.filter(({ status, statusReason }) => status === 'Timeout' && statusReason === undefined);
const lateKeys = new Set(late.map(keyOfResult));
const again = late.length === 0 ? [] : await secondChance();
const results = [...first.filter((result) => !lateKeys.has(keyOfResult(result))), ...again];

const survivors = survivorLines(results, (path) => readFileSync(path, 'utf8'));
writeFileSync(join(OUT, `${options.room}.survivors.txt`), survivors.join('\n'));
console.log(
  scoreLines({
    room: options.room,
    seed: options.seed,
    population: drawn.population,
    results,
    askedTwice: late.length,
  }).join('\n'),
);
console.log(`survivors: ${join(OUT, `${options.room}.survivors.txt`)}`);
