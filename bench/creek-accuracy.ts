/**
 * How well flowing water is known without readings and in the first year of weekly ones:
 * `npx tsx bench/creek-accuracy.ts [kind, default lowland]`. Ten creeks and rivers; readings are known a day later.
 */
import type { WaterReading } from '../src/water/lake/index.ts';
import { creekDays, nowcastRiver, type RiverKind } from '../src/water/river/index.ts';
import { neonSites, type NeonSite } from './neon-data.ts';
import { medianOf } from './lake-score.ts';
import { Tally } from './river-score.ts';

function scoreFlowing(site: NeonSite, kind: RiverKind, everyDays: number): Tally {
  const dates = [...site.water.keys()].sort();
  const first = dates[0]!;
  const tally = new Tally();
  // Each year in turn is the first one with readings.
  const years = everyDays === 0 ? [0] : [...new Set(dates.map((d) => Number(d.slice(0, 4))))].slice(0, -1);
  for (const year of years) {
    const from = everyDays === 0 ? first : `${year}-${first.slice(5)}`;
    const to = everyDays === 0 ? '9999' : `${year + 1}-${first.slice(5)}`;
    const readings: WaterReading[] = [];
    let last = -Infinity;
    if (everyDays > 0)
      for (const date of dates) {
        const n = Date.parse(date) / 864e5;
        if (date < from || n - last < everyDays) continue;
        last = n;
        readings.push({ date, waterC: site.water.get(date)!, depthM: 1, sdC: 0.1, source: 'logger' });
      }
    const { days } = nowcastRiver(kind, site.weather, readings, {
      readingLagDays: 1,
      latDeg: site.latDeg,
      ...(site.watershedKm2 !== null && { watershedKm2: site.watershedKm2 }),
    });
    for (const day of days)
      if (day.date >= from && day.date < to && (everyDays === 0 || day.readingAgeDays !== null))
        tally.add(day, site.water.get(day.date));
  }
  return tally;
}

const kind = (process.argv[2] ?? 'lowland') as RiverKind;
const rivers = neonSites().filter((s) => s.lake === undefined);
for (const every of [0, 7]) {
  const scores = rivers.map((r) => [r.name, scoreFlowing(r, kind, every)] as const);
  console.log(
    every,
    scores.map(([n, t]) => `${n} ${t.rmseC.toFixed(2)} ${(100 * t.coverage).toFixed(0)}%`).join('  '),
    'median',
    medianOf(scores.map(([, t]) => t.rmseC)).toFixed(2),
  );
}

/** RMSE of a pocket's stream between storms: as the ground of the last two weeks has it, and as the creek run has it. */
function streamOf(site: NeonSite): { ground: number; creek: number } {
  const creek = creekDays(site.weather, site.latDeg);
  const misses = site.weather.flatMap(({ date, airC }, i) => {
    const [waterC, creekC] = [site.water.get(date), creek.get(date)];
    const before = site.weather.slice(Math.max(0, i - 14), i).flatMap((day) => day.airC ?? []);
    if (waterC === undefined || creekC === undefined || airC === null || before.length < 8) return [];
    const soilC = Math.max(1, before.reduce((sum, air) => sum + air, 0) / before.length);
    return [[soilC + 0.25 * (Math.max(0, airC) - soilC) - waterC, creekC - waterC] as const];
  });
  const rmse = (k: 0 | 1): number =>
    Math.sqrt(misses.reduce((sum, miss) => sum + miss[k] ** 2, 0) / misses.length);
  return { ground: rmse(0), creek: rmse(1) };
}

const streams = rivers
  .filter(({ name }) => name !== 'TOMB')
  .map((site) => ({ name: site.name, ...streamOf(site) }));
console.log(
  'Stream of a pocket on dry days, ground of two weeks / creek run (constants fitted to these; bench/creek-fit.ts leaves each out)',
);
console.log(
  streams.map(({ name, ground, creek }) => `${name} ${ground.toFixed(2)} / ${creek.toFixed(2)}`).join('  '),
  `median ${medianOf(streams.map((s) => s.ground)).toFixed(2)} / ${medianOf(streams.map((s) => s.creek)).toFixed(2)}`,
);
