// Mutation testing of one room on a seeded sample, outside CI: `npm run mutants -- --room water --seed 1 --count 300`.
// Stryker makes the mutants; `mutants/ask.ts` runs the room's own tests that reach each of them in a copy under
// `out/mutants`; this file draws the sample, keeps which test noticed what, and states score and interval.
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { Command, Option } from 'commander';
import { z } from 'zod';
import { askMutants } from './mutants/ask.ts';
import { ROOMS, roomNamed } from './mutants/rooms.ts';
import { drawSample } from './mutants/sample.ts';
import { scoreLines, survivorLines } from './mutants/verdict.ts';

const OUT = 'out/mutants';

interface Options {
  room: string;
  seed: number;
  count: number;
  most: number;
}

const options = new Command('mutants')
  .description('mutation score of a room on a seeded sample')
  .addOption(new Option('--room <name>', 'room').choices(Object.keys(ROOMS)).makeOptionMandatory())
  .addOption(new Option('--seed <number>', 'which sample').argParser(Number).default(1))
  .addOption(new Option('--count <number>', 'mutants in it').argParser(Number).default(300))
  .addOption(
    new Option(
      '--most <seconds>',
      'processor time for one mutant; what nobody noticed by then counts as survived',
    )
      .argParser(Number)
      .default(Infinity),
  )
  .parse()
  .opts<Options>();

const room = roomNamed(options.room);
const { sample, population } = await drawSample(room.sources, options.seed, options.count);
mkdirSync(OUT, { recursive: true });

// What noticed each mutant: asked first the next time, so that a second run is a matter of the survivors.
const kept = join(OUT, `${options.room}.noticed.json`);
const killers = new Map(
  existsSync(kept)
    ? Object.entries(z.record(z.string(), z.string()).parse(JSON.parse(readFileSync(kept, 'utf8'))))
    : [],
);
const stopping = new AbortController();
process.once('SIGINT', () => {
  stopping.abort();
});
const asked = await askMutants(
  room,
  sample,
  { killers, mostMs: 1000 * Math.min(86_400, options.most), stopped: stopping.signal },
  (line) => {
    console.log(line);
  },
);
for (const { sampled, by } of asked) if (by !== undefined) killers.set(sampled.rank, by);
writeFileSync(kept, JSON.stringify(Object.fromEntries(killers)));

const survivors = survivorLines(asked, (path) => readFileSync(path, 'utf8'));
writeFileSync(join(OUT, `${options.room}.survivors.txt`), survivors.join('\n'));
console.log(scoreLines({ room: options.room, seed: options.seed, population, asked }).join('\n'));
console.log(`survivors: ${join(OUT, `${options.room}.survivors.txt`)}`);
