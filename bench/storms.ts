/**
 * What 16 storms did to a small wooded creek, foretold: `npx tsx bench/storms.ts`.
 *
 * Each storm is foretold with the shares fitted to the other fifteen. No humidity is at hand: rain is taken 1 K below
 * the air it fell through, the wet bulb of air near 90 % (Stull 2011).
 */
import { readFileSync } from 'node:fs';
import { EVENT_WATER, swollenStreamC } from '../src/science/index.ts';
import { numberOf, rowsOf } from './lake-data.ts';

const RAIN_BELOW_AIR_K = 1;
const storms = rowsOf(
  readFileSync(new URL('../fixtures/water/creek_storms.csv', import.meta.url), 'utf8'),
).map((row) => {
  const value = (name: string): number => numberOf(row[name])!;
  return {
    fallenMm: value('rain_mm'),
    airC: value('rain_weighted_air_c'),
    beforeC: value('creek_before_c'),
    cameC: value('creek_extreme_c'),
  };
});
type Storm = (typeof storms)[number];

const median = (values: readonly number[]): number => {
  const sorted = [...values].sort((a, b) => a - b);
  return (sorted[(sorted.length - 1) >> 1]! + sorted[sorted.length >> 1]!) / 2;
};
function report(name: string, told: readonly number[]): void {
  const misses = told.map((toldC, i) => toldC - storms[i]!.cameC);
  const rmse = Math.sqrt(misses.reduce((sum, miss) => sum + miss ** 2, 0) / misses.length);
  console.log(
    `${name.padEnd(44)} median ${median(misses.map(Math.abs)).toFixed(2)}  RMSE ${rmse.toFixed(2)}`,
  );
}

/** Best most-share for a half-rain over some storms, by least squares. */
function fitted(own: readonly Storm[], halfMm: number): { most: number; squares: number } {
  const rows = own.map((s) => ({
    x: ((s.airC - RAIN_BELOW_AIR_K - s.beforeC) * s.fallenMm) / (s.fallenMm + halfMm),
    y: s.cameC - s.beforeC,
  }));
  const most = Math.min(
    1,
    rows.reduce((sum, { x, y }) => sum + x * y, 0) / rows.reduce((sum, { x }) => sum + x * x, 0),
  );
  return { most, squares: rows.reduce((sum, { x, y }) => sum + (y - most * x) ** 2, 0) };
}

console.log(`${storms.length} storms; K`);
report(
  'no change',
  storms.map((s) => s.beforeC),
);
report(
  'the air of the rain',
  storms.map((s) => s.airC),
);
report(
  'half way',
  storms.map((s) => (s.beforeC + s.airC) / 2),
);
for (const halfMm of [0, 8, 16])
  report(
    `mixing, half at ${halfMm} mm, leaving one out`,
    storms.map((storm) => {
      const { most } = fitted(
        storms.filter((other) => other !== storm),
        halfMm,
      );
      return (
        storm.beforeC +
        ((most * storm.fallenMm) / (storm.fallenMm + halfMm)) *
          (storm.airC - RAIN_BELOW_AIR_K - storm.beforeC)
      );
    }),
  );
report(
  `as the pocket model has it (${EVENT_WATER.wooded.most}, half at ${EVENT_WATER.wooded.halfMm} mm)`,
  storms.map((s) => swollenStreamC(EVENT_WATER.wooded, s.airC - RAIN_BELOW_AIR_K, s.beforeC, s.fallenMm)),
);
console.log(`most share fitted to all storms, half at 8 mm: ${fitted(storms, 8).most.toFixed(2)}`);
