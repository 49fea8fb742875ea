/**
 * Fits the stream equation to the calibration years of each river: `npx tsx bench/river-fit.ts [restarts, default 5]`.
 *
 * Restarts from the parameters in use and from random ones; all must end at the same error, and the validation years
 * are only printed. Last, one set for both rivers. The discharge ratio is to the mean of the calibration years.
 */
import { dayNumber, dayOfYear } from '../src/units/time/calendar.ts';
import { FITTED, stepStream, type StreamParameters } from '../src/water/river/index.ts';
import { minimise, type Minimum } from './minimise.ts';
import { fixtureRivers, type ObservedRiver } from './river-data.ts';

/** First days that still depend on the start. */
const SPIN_UP_DAYS = 60;
const LARGEST_RATE = 50;

interface Day {
  readonly airC: number;
  readonly ratio: number;
  readonly doy: number;
  readonly waterC: number | undefined;
  readonly heldOut: boolean;
}

function daysOf({ weather, water, heldOutFrom }: ObservedRiver): Day[] {
  const flows = weather.filter((d) => d.date < heldOutFrom).map((d) => d.dischargeM3s ?? 0);
  const usual = flows.reduce((sum, flow) => sum + flow, 0) / flows.length;
  return weather.map(({ date, airC, dischargeM3s }) => ({
    airC: airC ?? 0,
    ratio: (dischargeM3s ?? usual) / usual,
    doy: dayOfYear(dayNumber(date)),
    waterC: water.get(date),
    heldOut: date >= heldOutFrom,
  }));
}

function rmseC(days: readonly Day[], a: readonly number[], heldOut: boolean): number {
  const parameters = { a } as unknown as StreamParameters;
  const [, , a3 = 0, , , , , a8 = 0] = a;
  if (!(a3 + a8 > 0.01) || a3 < 0 || a8 < 0 || a3 + a8 > LARGEST_RATE) return Infinity;
  let waterC = 5;
  let squares = 0;
  let count = 0;
  days.forEach((day, i) => {
    waterC = stepStream(parameters, waterC, day.airC, day.ratio, day.doy);
    if (i < SPIN_UP_DAYS || day.waterC === undefined || day.heldOut !== heldOut) return;
    squares += (waterC - day.waterC) ** 2;
    count++;
  });
  return Math.sqrt(squares / count);
}

// Numbers that look random and are the same in every run.
let seed = 7;
const random = (): number => (seed = (seed * 1664525 + 1013904223) % 2 ** 32) / 2 ** 32;

const restarts = Number(process.argv[2] ?? 5);
const rivers = fixtureRivers().map((river) => ({
  name: river.name,
  days: daysOf(river),
  inUse: FITTED[river.kind === 'lowland' ? 'lowland' : 'alpine'].a,
}));

function fit(
  error: (a: readonly number[]) => number,
  known: readonly (readonly number[])[],
): { ends: Minimum[]; best: Minimum } {
  const chance = Array.from({ length: restarts }, () =>
    [1, 1, 1, 0.8, 4, 2, 1, 1].map((scale) => scale * random()),
  );
  const ends = [...known, ...chance].map((start) => minimise(error, start, 4, 800));
  return { ends, best: ends.reduce((a, b) => (b.value < a.value ? b : a)) };
}

for (const { name, days, inUse } of rivers) {
  const error = (a: readonly number[]): number => rmseC(days, a, false);
  const { ends, best } = fit(error, [inUse]);
  console.log(`${name}: RMSE in degC, calibration / validation`);
  console.log(`  in use ${error(inUse).toFixed(4)} / ${rmseC(days, inUse, true).toFixed(4)}`);
  console.log(`  best   ${best.value.toFixed(4)} / ${rmseC(days, best.at, true).toFixed(4)}`);
  console.log(`  ends of the restarts: ${ends.map(({ value }) => value.toFixed(4)).join(' ')}`);
  console.log(`  a = [${best.at.map((v) => Number(v.toPrecision(5))).join(', ')}]`);
}

const { best } = fit(
  (a) => Math.hypot(...rivers.map(({ days }) => rmseC(days, a, false))),
  rivers.map(({ inUse }) => inUse),
);
console.log('One set for both, validation RMSE in degC:');
for (const { name, days } of rivers) console.log(`  ${name} ${rmseC(days, best.at, true).toFixed(2)}`);
