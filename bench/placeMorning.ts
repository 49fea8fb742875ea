/** One morning's configuration for `bench/place.ts`: what the same one without an outline costs is taken off. */
import { performance } from 'node:perf_hooks';
import { loadConfig } from '../src/config/index.ts';
import { keepShapes, keptShapes, openRecord } from '../src/record/index.ts';

const [, , shaped, bare, recordPath] = process.argv;
if (shaped === undefined || bare === undefined || recordPath === undefined)
  throw new Error('placeMorning <configuration with an outline> <one without> <record>');
process.env['THAWLINE_RECORD'] = recordPath;

async function timed(file: string) {
  const before = process.cpuUsage();
  const start = performance.now();
  const config = await loadConfig(file, keptShapes);
  const ms = performance.now() - start;
  const { user, system } = process.cpuUsage(before);
  return { config, ms, cpuMs: (user + system) / 1000 };
}

// A morning has its record open and its modules loaded, with or without an outline.
const record = await openRecord(recordPath);
await timed(bare);
const outlined = await timed(shaped);
const without = await timed(bare);
const shapes = outlined.config.made ?? [];
await keepShapes(record, shapes);
await record.close();
process.stdout.write(
  JSON.stringify({
    ms: outlined.ms - without.ms,
    cpuMs: outlined.cpuMs - without.cpuMs,
    made: shapes.length,
  }),
);
