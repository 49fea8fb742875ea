/**
 * How far the stated interval holds when a thermometer that was read each day falls silent, with the weather that came:
 * `npx tsx bench/lake-gap.ts [path of feeagh.csv]`. Four lakes set what the scale of the interval is far from a reading,
 * the others judge it.
 */
import { nowcastLake, type WaterReading } from '../src/water/lake/index.ts';
import { feeagh, fixtureLakes } from './lake-data.ts';
import { neonSites } from './neon-data.ts';

/** Days since the last reading, 1: read each day. */
const SILENT_DAYS = [1, 4, 8, 11] as const;
const SET_BY = ['Slawskie', 'Selmet', 'CRAM', 'SUGG'];
const FROM = '2000';

const path = process.argv[2];
const lakes = [
  ...[...fixtureLakes(), ...(path === undefined ? [] : [feeagh(path)])].map(
    ({ name, site, weather, water, heldOutFrom }) => ({
      name,
      site,
      weather: weather.filter(({ date }) => date >= FROM),
      water: new Map([...water].filter(([date]) => date >= FROM)),
      from: heldOutFrom,
    }),
  ),
  ...neonSites('air_model_c').flatMap(({ name, lake, weather, water }) =>
    lake === undefined ? [] : [{ name, site: lake, weather, water, from: '' }],
  ),
];

const mean = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0) / values.length;
console.log('In the 80 % interval (RMSE, degC), by days since the last of daily readings');
const rows = lakes.map(({ name, site, weather, water, from }) => {
  const readings = [...water].map(([date, waterC]): WaterReading => ({
    date,
    waterC,
    depthM: 1,
    sdC: 0.1,
    source: 'logger',
  }));
  const found = SILENT_DAYS.map((readingLagDays) => {
    const told = nowcastLake(site, weather, readings, { readingLagDays }).days.flatMap((day) => {
      const waterC = water.get(day.date);
      const age = day.readingAgeDays ?? Infinity;
      return waterC === undefined || day.date < from || age > readingLagDays + 1 ? [] : [{ day, waterC }];
    });
    return {
      inside: mean(told.map(({ day, waterC }) => (waterC >= day.lowC && waterC <= day.highC ? 1 : 0))),
      rmseC: Math.sqrt(mean(told.map(({ day, waterC }) => (day.waterC - waterC) ** 2))),
    };
  });
  console.log(
    name.padEnd(14) +
      found
        .map(({ inside, rmseC }) => `${(100 * inside).toFixed(0)} % (${rmseC.toFixed(2)})`.padStart(14))
        .join(''),
  );
  return { name, found };
});
for (const [label, sets] of [
  ['that set it', true],
  ['that judge', false],
] as const) {
  const own = rows.filter(({ name }) => SET_BY.includes(name) === sets);
  console.log(
    label.padEnd(14) +
      SILENT_DAYS.map((_, i) =>
        `${(100 * mean(own.map(({ found }) => found[i]!.inside))).toFixed(0)} %`.padStart(14),
      ).join(''),
  );
}
