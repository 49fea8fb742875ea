/** Nanoseconds per simulated day: `npx tsx bench/lake-speed.ts`. Processor time, best of several runs. */
import { nowcastLake } from '../src/water/lake/index.ts';
import { ExchangePair } from '../src/water/lake/exchange.ts';
import { fixtureLakes, readingsEvery } from './lake-data.ts';

function bestNsPerDay(days: number, run: () => void): number {
  let best = Infinity;
  for (let i = 0; i < 12; i++) {
    const before = process.cpuUsage();
    run();
    const { user, system } = process.cpuUsage(before);
    best = Math.min(best, ((user + system) * 1000) / days);
  }
  return best;
}

const [lake] = fixtureLakes();
if (lake === undefined) throw new Error('The fixtures hold no lake.');
const { site, weather } = lake;
const days = weather.length;
const weekly = readingsEvery(lake, 7);
const sum = { c: 0 };
const model = bestNsPerDay(days, () => {
  const pair = new ExchangePair(site, 5);
  const day = { airC: 0, sun: 2, dryness: 0, windExcess: 0 };
  for (const { airC } of weather) {
    day.airC = airC ?? 0;
    pair.step(day);
  }
  sum.c += pair.meanC;
});
const free = bestNsPerDay(days, () => nowcastLake(site, weather, []));
const read = bestNsPerDay(days, () => nowcastLake(site, weather, weekly, { readingLagDays: 1 }));
console.log(`both exchange models      ${model.toFixed(0)} ns a day`);
console.log(`nowcast without readings  ${free.toFixed(0)} ns a day`);
console.log(`nowcast, weekly readings  ${read.toFixed(0)} ns a day (${days} days)`);
