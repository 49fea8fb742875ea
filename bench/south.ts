/**
 * Water that nobody has read, near 30 N and beside it small northern lakes: `npx tsx bench/south.ts`.
 *
 * The constant of warm climates is judged on each of the two southern waters as the other alone would set it.
 */
import { nowcastLake, type LakeDay, type LakeSite } from '../src/water/lake/index.ts';
import { neonSites, type NeonSite } from './neon-data.ts';

/** A large slow river is taken for a lake like this, as in the river model. */
const WIDE_RIVER = { meanDepthM: 3, areaKm2: 5 };
const IN_USE_PER_C = 0.13;
const warmthC = (meanAirC: number): number => Math.min(8, Math.max(0, meanAirC - 14));

function errorsOf(site: NeonSite, lake: LakeSite): { errors: number[]; inside: number; warmC: number } {
  const known = site.weather.flatMap(({ airC }) => (airC === null ? [] : [airC]));
  const warmC = warmthC(known.reduce((sum, airC) => sum + airC, 0) / known.length);
  const { days } = nowcastLake(lake, site.weather, []);
  const told = days.flatMap((day: LakeDay) => {
    const waterC = site.water.get(day.date);
    return waterC === undefined ? [] : [{ day, waterC }];
  });
  return {
    errors: told.map(({ day, waterC }) => day.waterC - waterC),
    inside: told.filter(({ day, waterC }) => waterC >= day.lowC && waterC <= day.highC).length / told.length,
    warmC,
  };
}

const mean = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0) / values.length;
const rmse = (values: readonly number[], shift = 0): number =>
  Math.sqrt(mean(values.map((value) => (value + shift) ** 2)));

const sites = neonSites('air_model_c');
const cases = ['SUGG', 'TOMB', 'CRAM', 'PRLA'].map((name) => {
  const site = sites.find((s) => s.name === name)!;
  const lake = site.lake ?? { latDeg: site.latDeg, ...WIDE_RIVER };
  return { name, ...errorsOf(site, lake) };
});
console.log('No readings, raw model air where there is one; degC');
for (const { name, errors, inside } of cases)
  console.log(
    `${name}  RMSE ${rmse(errors).toFixed(2)}  bias ${mean(errors).toFixed(2)}  in the 80 % interval ${(100 * inside).toFixed(0)} %`,
  );
const south = cases.slice(0, 2);
south.forEach((own, i) => {
  const other = south[1 - i]!;
  const perC = IN_USE_PER_C - mean(other.errors) / other.warmC;
  const shift = (perC - IN_USE_PER_C) * own.warmC;
  console.log(
    `${own.name} by the constant that ${other.name} alone sets (${perC.toFixed(2)}): RMSE ${rmse(own.errors, shift).toFixed(2)}  bias ${(mean(own.errors) + shift).toFixed(2)}`,
  );
});
const since2021 = sites.find(({ name }) => name === 'SUGG')!;
const late = { ...since2021, water: new Map([...since2021.water].filter(([date]) => date >= '2021')) };
const { errors } = errorsOf(late, late.lake!);
console.log(
  `SUGG from 2021, where all air is the model's: RMSE ${rmse(errors).toFixed(2)}  bias ${mean(errors).toFixed(2)}`,
);
