/**
 * How many lines a second `what-if --lines` answers on one core: `npx tsx bench/what-if-lines.ts [lines, default 600]`,
 * after `npm run build`. Processor time of the built program less its start, without and with the day's hours; the first
 * is the baseline of the second.
 */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { commandMs } from './builtProgram.ts';

const LINES = Number(process.argv[2] ?? 600);
const folder = mkdtempSync(join(tmpdir(), 'what-if-lines-'));

const form = (i: number, hours: boolean): unknown => ({
  schema: 'thawline-conditions/1',
  date: `2026-${['03', '05', '07', '10'][i % 4]}-12`,
  latitude: '35',
  species: ['largemouth', 'mixed', 'smallmouth'][i % 3],
  waterBody: ['highland-reservoir', 'natural-lake', 'run-of-river'][i % 3],
  water: { main: `${42 + (i % 40)} F`, clarity: `${2 + (i % 9)} ft` },
  air: { mean24h: `${45 + (i % 35)} F`, mean3d: `${44 + (i % 35)} F` },
  ...(hours
    ? { hours: [{ at: '06:00', air: '50 F', cloud: '40 %', wind: `${i % 12} mph`, windFrom: 'SW' }] }
    : { wind: { speed: `${i % 12} mph` }, sky: `${(i * 7) % 100} %` }),
});

/** Processor time of the program on so many lines, ms. */
function cpuMs(count: number, hours: boolean): number {
  const file = join(folder, 'lines.jsonl');
  writeFileSync(file, Array.from({ length: count }, (_, i) => JSON.stringify(form(i, hours))).join('\n'));
  return commandMs(['what-if', '--lines', file]);
}

try {
  let baseline = 0;
  for (const hours of [false, true]) {
    const few = cpuMs(LINES / 10, hours);
    const many = cpuMs(LINES, hours);
    const each = (many - few) / (LINES * 0.9);
    baseline ||= each;
    console.log(
      `${hours ? 'with hours   ' : 'without hours'} ${each.toFixed(2)} ms of processor a line: ${(1000 / each).toFixed(0)} a second, ${(each / baseline).toFixed(1)} x`,
    );
  }
} finally {
  rmSync(folder, { recursive: true, force: true });
}
