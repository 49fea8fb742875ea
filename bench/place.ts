/**
 * Milliseconds that the outline of a lake costs, each morning in a process of its own as a timer starts one: the first
 * reads 20,000 points (GeoJSON, checks, simplification, places, ways), a later one takes from the record what was computed
 * then. And what waves, wind and sun of the places cost a morning.
 */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from 'rolldown';
import { z } from 'zod';
import { loadConfig } from '../src/config/index.ts';
import { waysOf } from '../src/schedule/ways.ts';
import { lakeReport } from '../src/signals/place/index.ts';

const POINTS = 20_000;
const POSITION = { lat: 35.9, lon: -86.4 };
const radius = (angle: number, phase: number): number =>
  0.0255 *
  (1 +
    0.35 * Math.sin(5 * angle + phase) +
    0.1 * Math.sin(23 * angle) +
    0.02 * Math.sin(301 * angle) +
    0.002 * Math.sin(2999 * angle));

/** An invented lake with bays of every size; each phase is another lake, so that nothing is remembered. */
function outline(phase: number): string {
  const ring = Array.from({ length: POINTS }, (_, i) => {
    const angle = (2 * Math.PI * i) / POINTS;
    const far = radius(angle, phase);
    return [POSITION.lon + (far * Math.cos(angle)) / 0.81, POSITION.lat + far * Math.sin(angle)];
  });
  return JSON.stringify({ type: 'Polygon', coordinates: [[...ring, ring[0]]] });
}

const folder = mkdtempSync(join(tmpdir(), 'thawline-bench-'));
const at = (angle: number, phase: number): string => {
  const far = radius(angle, phase) * 0.985;
  return `{ lat: ${POSITION.lat + far * Math.sin(angle)}, lon: ${POSITION.lon + (far * Math.cos(angle)) / 0.81} }`;
};
const example = readFileSync('config/thawline.example.yaml', 'utf8');
const PLACES = 8;
const config = (phase: number, shaped: boolean): string =>
  example
    .replace(/^ *position: \{ lat: 35\.\d{3,}.*\n/gm, '')
    .replace(/ {4}points:[\s\S]*? {4}# boatSpeed/, () => {
      const points = Array.from(
        { length: PLACES },
        (_, i) => `      - { name: Point ${i}, place: flat, position: ${at((i / PLACES) * 6.28, phase)} }`,
      );
      return `    points:\n${points.join('\n')}\n    # boatSpeed`;
    })
    .replace('area: 6200 acres', 'area: 27 km2')
    .replace('    # outline: ossarly.geojson', shaped ? '    outline: lake.geojson' : '    # none');

const [shapedFile, bareFile] = [join(folder, 'shaped.yaml'), join(folder, 'bare.yaml')];
writeFileSync(join(folder, 'lake.geojson'), outline(0));
writeFileSync(shapedFile, config(0, true));
writeFileSync(bareFile, config(0, false));

const program = 'bench/placeMorning.mjs';
await build({
  input: 'bench/placeMorning.ts',
  platform: 'node',
  external: ['@photostructure/sqlite'],
  output: { file: program, format: 'esm', codeSplitting: false },
  logLevel: 'warn',
});

const measuredSchema = z.object({ ms: z.number(), cpuMs: z.number(), made: z.number() });
const morning = (record: string): z.output<typeof measuredSchema> =>
  measuredSchema.parse(
    JSON.parse(execFileSync(process.execPath, [program, shapedFile, bareFile, record], { encoding: 'utf8' })),
  );
const middle = (values: readonly number[]): string =>
  ([...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? NaN).toFixed(1);
const told = (mornings: readonly z.output<typeof measuredSchema>[]): string =>
  `median ${middle(mornings.map(({ ms }) => ms))} ms (${middle(mornings.map(({ cpuMs }) => cpuMs))} ms of processor, other threads included)`;

const RUNS = 9;
const firsts = Array.from({ length: RUNS }, (_, run) => morning(join(folder, `first-${run}.sqlite`)));
const laters = Array.from({ length: RUNS }, () => morning(join(folder, 'first-0.sqlite')));
rmSync(program);
if (firsts.some(({ made }) => made !== 1) || laters.some(({ made }) => made !== 0))
  throw new Error('what was kept was not taken');
const lake = (await loadConfig(shapedFile)).lakes[0];
if (lake?.shape === undefined) throw new Error('no shape');
process.stdout.write(
  `outline of ${POINTS} points with ${PLACES} places, ${lake.shape.outline.pointsKept} points kept, a process each\n` +
    `first morning: ${told(firsts)}\n` +
    `later morning, from the record: ${told(laters)}\n`,
);

const hours = Array.from({ length: 15 }, (_, i) => ({
  atMs: Date.UTC(2026, 2, 6, 12 + i),
  windMs: 4 + (i % 5),
  windDirDeg: 200 + 5 * i,
  sunAltitudeDeg: 20,
  forecast: true,
}));
const sun = {
  dawnMs: Date.UTC(2026, 2, 6, 12),
  riseMs: Date.UTC(2026, 2, 6, 12, 20),
  setMs: Date.UTC(2026, 2, 6, 23, 50),
  duskMs: Date.UTC(2026, 2, 7, 0, 20),
};
const names = lake.shape.places.map(({ name }) => name);
const none = { dawnMs: null, riseMs: null, setMs: null, duskMs: null };
const found = lake;

/** Wall clock of the first morning, and of those after with their processor time. */
function mornings(withSun: boolean): { firstMs: number; medianMs: string; cpuMs: string } {
  const times: number[] = [];
  let before = process.cpuUsage();
  for (let day = 0; day < RUNS + 1; day += 1) {
    if (day === 1) before = process.cpuUsage();
    const shift = day * 86_400_000;
    const start = performance.now();
    lakeReport(
      found,
      hours.map((hour) => ({ ...hour, atMs: hour.atMs + shift })),
      withSun
        ? {
            dawnMs: sun.dawnMs + shift,
            riseMs: sun.riseMs + shift,
            setMs: sun.setMs + shift,
            duskMs: sun.duskMs + shift,
          }
        : none,
    );
    const { ways } = waysOf(found);
    for (const from of names) for (const to of names) ways?.wayM(from, to);
    times.push(performance.now() - start);
  }
  const after = process.cpuUsage(before);
  return {
    firstMs: times[0] ?? NaN,
    medianMs: middle(times.slice(1)),
    cpuMs: ((after.user + after.system) / 1000 / RUNS).toFixed(1),
  };
}

const outlineOnly = mornings(false);
const all = mornings(true);
process.stdout.write(
  `the first morning, ways between all places included: ${outlineOnly.firstMs.toFixed(1)} ms\n` +
    `each morning after, waves, wind, ramps and ways: median ${outlineOnly.medianMs} ms (mean ${outlineOnly.cpuMs} ms of processor)\n` +
    `the same with the hours of sun: median ${all.medianMs} ms (mean ${all.cpuMs} ms of processor)\n`,
);
