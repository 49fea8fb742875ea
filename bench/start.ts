/**
 * How long the built program takes to start, as multiples of an empty Node in the same run: `--help`, `what-if` with a
 * small file, and the demonstration. Each is started in turn with the others and the quickest of its runs counts, so
 * that a busy machine bends all of them alike. Build first: npm run build && npx tsx bench/start.ts
 */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';

const MAIN = 'dist/cli/main.js';
const ROUNDS = Number(process.argv[2] ?? 7);
if (!existsSync(MAIN)) throw new Error('Build first: npm run build');

const scratch = mkdtempSync(join(tmpdir(), 'thawline-start-'));
const conditions = join(scratch, 'conditions.yaml');
writeFileSync(conditions, 'date: 2026-03-06\nwater: { main: 47 F }\n');

const COMMANDS: Readonly<Record<string, readonly string[]>> = {
  empty: ['-e', '0'],
  help: [MAIN, '--help'],
  'what-if': [MAIN, 'what-if', conditions],
  demo: [MAIN, 'demo', '--out', join(scratch, 'out')],
};

/** Written by the child as it ends: its own processor time, whatever else the machine does. */
const meter = join(scratch, 'meter.cjs');
const spent = join(scratch, 'spent.json');
writeFileSync(
  meter,
  `process.on('exit', () => require('node:fs').writeFileSync(${JSON.stringify(spent)}, JSON.stringify(process.cpuUsage())));`,
);

interface Cost {
  readonly wallMs: number;
  readonly processorMs: number;
}

function start(words: readonly string[]): Cost {
  const from = performance.now();
  const run = spawnSync(process.execPath, ['--require', meter, ...words], { stdio: 'ignore' });
  const wallMs = performance.now() - from;
  if (run.status !== 0) throw new Error(`${words.join(' ')} ended with ${String(run.status)}`);
  const { user, system } = JSON.parse(readFileSync(spent, 'utf8')) as { user: number; system: number };
  return { wallMs, processorMs: (user + system) / 1000 };
}

const runs = new Map<string, Cost[]>(Object.keys(COMMANDS).map((name) => [name, []]));
for (let round = 0; round < ROUNDS; round += 1)
  for (const [name, words] of Object.entries(COMMANDS)) runs.get(name)?.push(start(words));
rmSync(scratch, { recursive: true });

const quickest = (name: string, of: keyof Cost): number =>
  Math.min(...(runs.get(name) ?? []).map((cost) => cost[of]));
const times = (name: string, of: keyof Cost): number =>
  Math.round((quickest(name, of) / quickest('empty', of)) * 10) / 10;
const report = Object.fromEntries(
  Object.keys(COMMANDS)
    .filter((name) => name !== 'empty')
    .map((name) => [
      name,
      { timesEmptyNode: times(name, 'wallMs'), timesItsProcessorTime: times(name, 'processorMs') },
    ]),
);
process.stdout.write(
  `${JSON.stringify({ rounds: ROUNDS, emptyNodeMs: Math.round(quickest('empty', 'wallMs')), ...report }, null, 2)}\n`,
);
