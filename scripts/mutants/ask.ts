/**
 * Asks a sample of mutants: a copy of the tree under `out/mutants` whose room Stryker instrumented, and one process that
 * loads the room's tests once and runs those that reach a mutant until one of them notices it.
 */
import { spawn, type ChildProcess } from 'node:child_process';
import { cpSync, mkdirSync, readdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { join, relative, resolve } from 'node:path';
import { createInterface } from 'node:readline';
import { Instrumenter } from '@stryker-mutator/instrumenter';
import { z } from 'zod';
import type { Room } from './rooms.ts';
import { filesIn, keyOf, SILENT, type Sampled } from './sample.ts';

/** `Endless`: it ran a hundred times as often as without the mutant. `Timeout`: nothing came of it in the time it had. */
export type Status = 'Killed' | 'Endless' | 'Survived' | 'NoCoverage' | 'Timeout';

export interface Asked {
  readonly sampled: Sampled;
  readonly status: Status;
  /** The test that noticed it. */
  readonly by?: string;
  /** How many tests reach it, and how many of them were run: all of them where it survived, but for a limit. */
  readonly tests: number;
  readonly ran: number;
}

/** What the process says, a line each. */
const said = z.union([
  z.object({ ready: z.number(), ms: z.number(), usedMs: z.number() }),
  z.object({ fault: z.string(), test: z.string() }),
  z.object({ asked: z.string() }),
  z.object({ spoilt: z.string() }),
  z.object({
    verdict: z.string(),
    status: z.enum(['Killed', 'Endless', 'Survived', 'NoCoverage']),
    by: z.string().optional(),
    tests: z.number().default(0),
    ran: z.number().default(0),
    atLoad: z.boolean().default(false),
    hitLimit: z.number().optional(),
  }),
]);
type Verdict = Extract<z.infer<typeof said>, { verdict: string }>;

/** The rest of the tree is read where it is; what tests import or write stands in the copy. */
const COPIED = ['src', 'tests', 'scripts', 'package.json', 'tsconfig.json'];
const LEFT_OUT = new Set([...COPIED, 'out', 'dist', 'coverage', '.git']);
/** Patience with one mutant, times what all tests take without one, and at least, ms: the machine may be busy. */
const PATIENCE_TIMES = 4;
const PATIENCE_MS = 120_000;
const FRESH_PATIENCE_MS = 60_000;

interface Job {
  readonly id: string;
  readonly sampled: Sampled;
}

export interface Asking {
  /** What noticed each mutant in an earlier run, by rank: it is asked first. */
  readonly killers: ReadonlyMap<string, string>;
  /** Time of the processor after which no further test of a mutant is begun, ms. */
  readonly mostMs: number;
  /** Whoever stops has asked a smaller sample of the same seed. */
  readonly stopped: AbortSignal;
}

/** Asks them in the order of the draw. */
export async function askMutants(
  room: Room,
  sample: readonly Sampled[],
  { killers, mostMs, stopped }: Asking,
  tell: (line: string) => void,
): Promise<Asked[]> {
  const folder = resolve('out/mutants/copy', room.sources.replaceAll('/', '-'));
  const jobs = await copyTree(room, sample, folder);
  const files = filesIn('tests')
    .map((name) => relative('.', name))
    .filter((name) => room.tests.test(name));
  const verdicts = new Map<string, Verdict | 'Timeout'>();
  const found = (id: string | undefined): Job => {
    const job = jobs.find((one) => one.id === id);
    if (job === undefined) throw new Error('The process that asks the mutants ended without a word.');
    return job;
  };
  let usualMs = 0;
  const fails: string[] = [];
  let first = '';
  const listen = (line: z.infer<typeof said>): void => {
    if ('ready' in line) {
      usualMs = line.ms;
      const [allS, usedS] = [line.ms / 1000, line.usedMs / 1000].map((s) => s.toFixed(1));
      tell(`${line.ready} tests of the room without a mutant: ${allS} s, of the processor ${usedS} s`);
    } else if ('fault' in line) {
      fails.push(line.test);
      tell(`Left out, since it fails without any mutant: ${line.test}: ${line.fault.slice(0, 300)}`);
    } else if ('verdict' in line) {
      verdicts.set(line.verdict, line);
      const { file, location, replacement } = found(line.verdict).sampled;
      const what = `${file}:${location.start.line + 1} ${replacement.replaceAll(/\s+/g, ' ').slice(0, 60)}`;
      tell(`${verdicts.size} of ${jobs.length}: ${line.status} ${what} ${line.by ?? ''}`);
    }
  };
  const patienceMs = (): number => Math.max(PATIENCE_MS, FRESH_PATIENCE_MS + PATIENCE_TIMES * usualMs);
  const alone: Job[] = [];
  for (;;) {
    const left = jobs.filter((job) => !verdicts.has(job.id) && !alone.includes(job));
    if (left.length === 0) break;
    const mutants = left.map(({ id, sampled: { file, rank } }) => ({ id, file, killer: killers.get(rank) }));
    const ended = await oneProcess(
      folder,
      { files, mutants, mostMs, fails, fromStart: false },
      listen,
      patienceMs,
      stopped,
    );
    if (ended === undefined) continue;
    if (stopped.aborted) break;
    const job = found(ended.id);
    if (ended.isSpoilt && first !== job.id) first = job.id;
    else if (ended.isSpoilt) alone.push(job);
    else verdicts.set(job.id, 'Timeout');
  }
  // What is worked out while tests load is worked out with the mutant only where it was there from the start.
  const later = jobs.filter((job) => {
    const verdict = verdicts.get(job.id);
    return (
      alone.includes(job) ||
      (verdict !== undefined &&
        verdict !== 'Timeout' &&
        verdict.atLoad &&
        (verdict.status === 'Survived' || verdict.status === 'NoCoverage'))
    );
  });
  for (const { id, sampled } of later) {
    const known = verdicts.get(id);
    const hitLimit = known === undefined || known === 'Timeout' ? undefined : known.hitLimit;
    verdicts.delete(id);
    const mutants = [{ id, hitLimit, killer: killers.get(sampled.rank) }];
    const job = { files: namesakesFirst(files, sampled.file), mutants, mostMs, fails, fromStart: true };
    const ended = await oneProcess(folder, job, listen, patienceMs, new AbortController().signal);
    if (ended !== undefined) verdicts.set(id, 'Timeout');
  }
  return jobs.flatMap(({ id, sampled }): Asked[] => {
    const verdict = verdicts.get(id);
    if (verdict === undefined) return [];
    if (verdict === 'Timeout') return [{ sampled, status: 'Timeout', tests: 0, ran: 0 }];
    const { status, by, tests, ran } = verdict;
    return [{ sampled, status, tests, ran, ...(by === undefined ? {} : { by }) }];
  });
}

/** Test files whose names share most with a source's before the others: they are the likeliest to notice. */
function namesakesFirst(files: readonly string[], source: string): string[] {
  const words = source.replace(/\.ts$/, '').split('/').slice(2);
  const shared = (file: string): number =>
    words.filter((word) => file.toLowerCase().includes(word.toLowerCase())).length;
  return [...files].sort((a, b) => shared(b) - shared(a));
}

async function copyTree(room: Room, sample: readonly Sampled[], folder: string): Promise<Job[]> {
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder, { recursive: true });
  for (const name of COPIED) cpSync(name, join(folder, name), { recursive: true });
  for (const name of readdirSync('.'))
    if (!LEFT_OUT.has(name)) symlinkSync(resolve(name), join(folder, name));
  const sources = filesIn(room.sources).map((name) => ({
    name: resolve(name),
    mutate: sample
      .filter(({ file }) => file === relative('.', name))
      .map(({ location: { start, end } }) => ({
        start: { line: start.line, column: start.column },
        end: { line: end.line, column: end.column },
      })),
    content: readFileSync(name, 'utf8'),
  }));
  const made = await new Instrumenter(SILENT).instrument(sources, {
    plugins: null,
    excludedMutations: [],
    ignorers: [],
  });
  for (const { name, content } of made.files)
    writeFileSync(join(folder, relative('.', name)), withCaches(content));
  const ids = new Map(made.mutants.map((mutant) => [keyOf(mutant), mutant.id]));
  // In the order of the draw: who stops has asked a smaller sample of the same seed.
  return sample.flatMap((sampled) => {
    const id = ids.get(sampled.key);
    return id === undefined ? [] : [{ id, sampled }];
  });
}

/** Caches of a module, so that they can be emptied between two mutants. */
const withCaches = (content: string): string =>
  content.replace(/^(const \w+ = )new (Map|WeakMap)(?:<[^\n]*>)?\(/gm, '$1globalThis.thawlineCache($2)(');

interface Stopped {
  readonly id: string | undefined;
  /** A test failed with the mutant and without it: something was left behind. */
  readonly isSpoilt: boolean;
}

/** @returns what the process was asked last where it did not come to its end */
async function oneProcess(
  folder: string,
  job: object,
  listen: (line: z.infer<typeof said>) => void,
  patienceMs: () => number,
  stopped: AbortSignal,
): Promise<Stopped | undefined> {
  const path = join(folder, 'job.json');
  writeFileSync(path, JSON.stringify(job));
  const child = spawn(
    process.execPath,
    ['--import', 'tsx', join(folder, 'scripts/mutants/shared/worker.mjs'), path],
    {
      cwd: folder,
      stdio: ['ignore', 'pipe', 'inherit'],
      env: {
        ...process.env,
        NODE_ENV: 'test',
        THAWLINE_VITEST: resolve('node_modules/vitest/dist/index.js'),
      },
    },
  );
  const ended = new Promise<number | null>((done) => child.once('close', done));
  const onStop = (): void => stop(child);
  stopped.addEventListener('abort', onStop);
  let asked: string | undefined;
  let spoilt: string | undefined;
  let timer: NodeJS.Timeout | undefined;
  for await (const text of createInterface({ input: child.stdout })) {
    if (!text.startsWith('{')) continue;
    const line = said.parse(JSON.parse(text));
    clearTimeout(timer);
    if ('asked' in line) {
      asked = line.asked;
      timer = setTimeout(() => stop(child), patienceMs());
    } else if ('spoilt' in line) spoilt = line.spoilt;
    else if ('verdict' in line) asked = undefined;
    listen(line);
  }
  clearTimeout(timer);
  const code = await ended;
  stopped.removeEventListener('abort', onStop);
  if (spoilt !== undefined) return { id: spoilt, isSpoilt: true };
  return code === 0 ? undefined : { id: asked, isSpoilt: false };
}

function stop(child: ChildProcess): void {
  child.kill('SIGKILL');
}
