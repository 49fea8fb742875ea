import { DAY_MS } from '../units/time/index.ts';
import type { LakeDay } from '../water/lake/index.ts';

export interface Score {
  readonly days: number;
  readonly rmseC: number;
  readonly biasC: number;
}

export interface AgeScore extends Score {
  /** `none` or a range of days such as `1` or `8-14`. */
  readonly readingAge: string;
  /** Share of days inside the 80 % interval, 0 to 1. */
  readonly coverage: number;
}

export interface HindcastScore {
  readonly model: Score & { readonly coverage: number };
  readonly byReadingAge: readonly AgeScore[];
  /** The last reading held, on the days where there is one. */
  readonly persistence: Score | null;
  /** The model on those same days. */
  readonly modelWherePersistence: Score | null;
  /** Mean of all other years' readings within 7 days of the same day of the year. */
  readonly dayOfYearMean: Score | null;
  readonly modelWhereDayOfYearMean: Score | null;
}

interface Case {
  readonly date: string;
  readonly waterC: number;
  readonly estimate: LakeDay;
}

const AGE_CLASSES: readonly (readonly [string, number])[] = [
  ['0', 0],
  ['1', 1],
  ['2', 2],
  ['3', 3],
  ['4-7', 7],
  ['8-14', 14],
  ['15-30', 30],
  ['over 30', Infinity],
];
const WINDOW_DAYS = 7;

/**
 * Scores estimates against daily values they did not know yet.
 *
 * @param truth observed daily mean by date, degC
 * @param held last value known on a day, degC, or undefined
 * @returns null when no day can be compared
 */
export function scoreHindcast(
  days: readonly LakeDay[],
  truth: ReadonlyMap<string, number>,
  held: (date: string) => number | undefined,
): HindcastScore | null {
  const cases: Case[] = days.flatMap((estimate) => {
    const waterC = truth.get(estimate.date);
    return waterC === undefined ? [] : [{ date: estimate.date, waterC, estimate }];
  });
  if (cases.length === 0) return null;
  const byClass = new Map<string, Case[]>();
  for (const c of cases) {
    const key = ageClass(c.estimate.readingAgeDays);
    const group = byClass.get(key);
    if (group === undefined) byClass.set(key, [c]);
    else group.push(c);
  }
  const order = ['none', ...AGE_CLASSES.map(([name]) => name)];
  const persistence = against(cases, (c) => held(c.date));
  const seasonal = against(cases, dayOfYearMean(truth));
  return {
    model: { ...errors(cases, modelled), coverage: coverage(cases) },
    byReadingAge: order.flatMap((readingAge) => {
      const group = byClass.get(readingAge);
      return group === undefined
        ? []
        : [{ readingAge, ...errors(group, modelled), coverage: coverage(group) }];
    }),
    persistence: persistence.other,
    modelWherePersistence: persistence.model,
    dayOfYearMean: seasonal.other,
    modelWhereDayOfYearMean: seasonal.model,
  };
}

const modelled = (c: Case): number => c.estimate.waterC;

function ageClass(age: number | null): string {
  if (age === null) return 'none';
  return AGE_CLASSES.find(([, upTo]) => age <= upTo)?.[0] ?? 'over 30';
}

function errors(cases: readonly Case[], of: (c: Case) => number): Score {
  let sum = 0;
  let squares = 0;
  for (const c of cases) {
    const e = of(c) - c.waterC;
    sum += e;
    squares += e * e;
  }
  return { days: cases.length, rmseC: Math.sqrt(squares / cases.length), biasC: sum / cases.length };
}

function coverage(cases: readonly Case[]): number {
  return (
    cases.filter((c) => c.waterC >= c.estimate.lowC && c.waterC <= c.estimate.highC).length / cases.length
  );
}

function against(
  cases: readonly Case[],
  other: (c: Case) => number | undefined,
): { other: Score | null; model: Score | null } {
  const values = new Map<Case, number>();
  for (const c of cases) {
    const value = other(c);
    if (value !== undefined) values.set(c, value);
  }
  const shared = [...values.keys()];
  if (shared.length === 0) return { other: null, model: null };
  return { other: errors(shared, (c) => values.get(c) ?? Number.NaN), model: errors(shared, modelled) };
}

/** Mean of the readings of all other years near a day of the year; undefined without another year. */
function dayOfYearMean(truth: ReadonlyMap<string, number>): (c: Case) => number | undefined {
  const sums = Array.from({ length: 367 }, () => ({
    sum: 0,
    count: 0,
    years: new Map<number, [number, number]>(),
  }));
  for (const [date, waterC] of truth) {
    const { year, doy } = yearDay(date);
    for (let d = doy - WINDOW_DAYS; d <= doy + WINDOW_DAYS; d++) {
      const cell = sums[((d + 366) % 366) + 1] ?? sums[1];
      if (cell === undefined) continue;
      cell.sum += waterC;
      cell.count++;
      const own = cell.years.get(year);
      if (own === undefined) cell.years.set(year, [waterC, 1]);
      else {
        own[0] += waterC;
        own[1]++;
      }
    }
  }
  return (c) => {
    const { year, doy } = yearDay(c.date);
    const cell = sums[((doy + 366) % 366) + 1];
    if (cell === undefined) return undefined;
    const [ownSum, ownCount] = cell.years.get(year) ?? [0, 0];
    return cell.count === ownCount ? undefined : (cell.sum - ownSum) / (cell.count - ownCount);
  };
}

function yearDay(date: string): { year: number; doy: number } {
  const year = Number(date.slice(0, 4));
  return { year, doy: (Date.parse(date) - Date.UTC(year, 0, 1)) / DAY_MS };
}
