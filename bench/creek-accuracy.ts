/**
 * How well flowing water is known without readings and in the first year of weekly ones:
 * `npx tsx bench/creek-accuracy.ts [kind, default lowland]`. Ten creeks and rivers; readings are known a day later.
 */
import type { WaterReading } from '../src/water/lake/index.ts';
import { nowcastRiver, type RiverKind } from '../src/water/river/index.ts';
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
