/**
 * Fits the creek run to all creeks at hand together, each counting the same, and judges each by the fit to the others:
 * `npx tsx bench/creek-fit.ts`.
 */
import { nowcastRiver } from '../src/water/river/index.ts';
import { CREEK } from '../src/water/river/parameters.ts';
import type { CreekParameters } from '../src/water/river/creek.ts';
import { medianOf } from './lake-score.ts';
import { minimise } from './minimise.ts';
import { neonSites, type NeonSite } from './neon-data.ts';

const parametersOf = ([
  offsetC = 0,
  perMeanC = 0,
  day = 0,
  week = 0,
  month = 0,
]: readonly number[]): CreekParameters => ({
  offsetC,
  perMeanC,
  day,
  week,
  month,
});

function meanSquare(site: NeonSite, creek: CreekParameters, alone: boolean): number {
  const { days } = nowcastRiver('lowland', site.weather, [], {
    latDeg: site.latDeg,
    creek,
    ...(alone ? { belief: { creek: 1 } } : { watershedKm2: site.watershedKm2! }),
  });
  const misses = days.flatMap((day) => {
    const waterC = site.water.get(day.date);
    return waterC === undefined ? [] : [day.waterC - waterC];
  });
  return misses.reduce((sum, miss) => sum + miss ** 2, 0) / misses.length;
}

const inUse = [CREEK.offsetC, CREEK.perMeanC, CREEK.day, CREEK.week, CREEK.month];
const fit = (sites: readonly NeonSite[]): readonly number[] =>
  minimise((a) => sites.reduce((sum, site) => sum + meanSquare(site, parametersOf(a), true), 0), inUse, 1, 60)
    .at;

const flowing = neonSites().filter((site) => site.lake === undefined);
const all = fit(flowing);
console.log(`all: ${all.map((value) => value.toFixed(3)).join(' ')} (in use ${inUse.join(' ')})`);
const rows = flowing.map((site) => {
  const others = parametersOf(fit(flowing.filter((other) => other !== site)));
  return {
    name: site.name,
    alone: Math.sqrt(meanSquare(site, others, true)),
    mixed: Math.sqrt(meanSquare(site, others, false)),
  };
});
console.log(
  'RMSE in degC without readings, creek constants fitted to the others: creek run alone, and as a lowland river',
);
for (const { name, alone, mixed } of rows) console.log(`${name}  ${alone.toFixed(2)}  ${mixed.toFixed(2)}`);
console.log(
  `median  ${medianOf(rows.map((r) => r.alone)).toFixed(2)}  ${medianOf(rows.map((r) => r.mixed)).toFixed(2)}`,
);
