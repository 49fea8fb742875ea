/**
 * Lakes that nobody has read, each judged by what the others would set: `npx tsx bench/lakes-apart.ts [path of feeagh.csv]`.
 *
 * The offset is the mean bias of the other lakes of its side of 37 N, the width of the interval the factor that holds
 * 80 % of the days of all others: so no lake is judged by constants of its own. In use: offset 0, factor 1.
 */
import { nowcastLake, type LakeDay } from '../src/water/lake/index.ts';
import { feeagh, fixtureLakes } from './lake-data.ts';
import { medianOf } from './lake-score.ts';
import { neonSites } from './neon-data.ts';

interface Told {
  readonly name: string;
  readonly latDeg: number;
  /** Model minus water, K, and that over the half-width of the interval. */
  readonly misses: readonly number[];
  readonly shares: readonly number[];
}

const TARGET = 0.8;
const SOUTH_DEG = 37;
const path = process.argv[2];

function told(
  name: string,
  latDeg: number,
  days: readonly LakeDay[],
  water: ReadonlyMap<string, number>,
): Told {
  const both = days.flatMap((day) => {
    const waterC = water.get(day.date);
    return waterC === undefined ? [] : [{ day, miss: day.waterC - waterC }];
  });
  return {
    name,
    latDeg,
    misses: both.map(({ miss }) => miss),
    shares: both.map(({ day, miss }) => Math.abs(miss) / (day.highC - day.waterC)),
  };
}

const lakes: Told[] = [
  ...[...fixtureLakes(), ...(path === undefined ? [] : [feeagh(path)])].map((lake) => {
    const { days } = nowcastLake(lake.site, lake.weather, []);
    return told(
      lake.name,
      lake.site.latDeg,
      days.filter(({ date }) => date >= lake.heldOutFrom),
      lake.water,
    );
  }),
  ...neonSites('air_model_c').flatMap(({ name, lake, weather, water }) =>
    lake === undefined ? [] : [told(name, lake.latDeg, nowcastLake(lake, weather, []).days, water)],
  ),
];

const mean = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0) / values.length;
const rmse = (values: readonly number[], offset = 0): number =>
  Math.sqrt(mean(values.map((value) => (value - offset) ** 2)));
const within = ({ shares }: Told, factor: number): number => mean(shares.map((s) => (s <= factor ? 1 : 0)));

/** Factor of the width at which the lakes hold 80 % in the mean, each counting the same. */
function factorOf(others: readonly Told[]): number {
  let [low, high] = [0.1, 5];
  for (let i = 0; i < 40; i++) {
    const middle = (low + high) / 2;
    if (mean(others.map((lake) => within(lake, middle))) < TARGET) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

const percent = (share: number): string => `${(100 * share).toFixed(0)} %`.padStart(6);
console.log('No readings; degC. By the others: their offset taken off, their width of the interval.');
console.log('lake             RMSE   bias  in 80 %   by the others: offset  RMSE  width  in 80 %');
const rows = lakes.map((lake) => {
  const others = lakes.filter((other) => other !== lake);
  const alike = others.filter(({ latDeg }) => latDeg < SOUTH_DEG === lake.latDeg < SOUTH_DEG);
  const offset = alike.length === 0 ? 0 : mean(alike.map(({ misses }) => mean(misses)));
  const factor = factorOf(others);
  return { lake, offset, factor, own: rmse(lake.misses), apart: rmse(lake.misses, offset) };
});
for (const { lake, offset, factor, own, apart } of rows)
  console.log(
    `${lake.name.padEnd(15)} ${own.toFixed(2).padStart(5)} ${mean(lake.misses).toFixed(2).padStart(6)} ${percent(within(lake, 1))}   ${offset.toFixed(2).padStart(18)} ${apart.toFixed(2).padStart(6)} ${factor.toFixed(2).padStart(5)} ${percent(within(lake, factor))}`,
  );
console.log(
  `median RMSE ${medianOf(rows.map(({ own }) => own)).toFixed(2)}, by the others ${medianOf(rows.map(({ apart }) => apart)).toFixed(2)}; in the interval, mean of the lakes ${percent(mean(lakes.map((lake) => within(lake, 1))))}, by the others ${percent(mean(rows.map(({ lake, factor }) => within(lake, factor))))}`,
);
