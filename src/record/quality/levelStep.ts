import type { Observation } from '../types.ts';
import { DAY_MS, HOUR_MS } from '../../units/time/index.ts';
import { NO_DOUBTS, type Check } from './check.ts';
import type { Doubt } from './doubt.ts';

/**
 * Most that water moves between two values of a gauge, m, and what each hour between them adds. Ground: the flash flood
 * of 4 July 2025 raised the Guadalupe River in Texas by about 8 m in 45 minutes, the fastest rise of a gauge in the trade's
 * memory (from memory); reservoirs are slower by far. What moves more is another unit or another zero.
 */
const AT_ONCE_M = 10;
const PER_HOUR_M = 1;
/** Hours that count for it, so that a long silence does not excuse everything. */
const MOST_HOURS = 24;
/**
 * A step from rest to rest. A flood moves before and after its steepest hour; water let through a dam does not, and may
 * come up by 3.4 m in minutes (11 ft, as the warning signs below Buford Dam say; from memory).
 */
const STEP_FROM_REST_M = 5;
/** At rest: the value before the step and the two after it lie within this share of it. */
const REST_SHARE = 0.1;
const CLOSE_MS = 3 * HOUR_MS;

type Row = Pick<Observation, 'atMs' | 'value'>;

/** Values between two steps that water cannot make. */
interface Stretch<R> {
  readonly rows: readonly R[];
  /** Size of the step it begins with, m; 0 for the first. */
  readonly stepM: number;
}

/** Stretches on one zero and in one unit, however often the gauge left and came back to it. */
interface Footing<R> {
  readonly stretches: Stretch<R>[];
  lastM: number;
  isLasting: boolean;
}

function cannotBe(rows: readonly Row[], i: number, fromRestM: number): boolean {
  const [before, row] = [rows[i - 1], rows[i]];
  if (before === undefined || row === undefined) return false;
  const stepM = Math.abs(row.value - before.value);
  const hours = Math.min(MOST_HOURS, (row.atMs - before.atMs) / HOUR_MS);
  if (stepM > AT_ONCE_M + PER_HOUR_M * hours) return true;
  if (stepM <= fromRestM || row.atMs - before.atMs > CLOSE_MS) return false;
  const restsBy = (one: Row | undefined, other: Row): boolean =>
    one !== undefined &&
    Math.abs(other.atMs - one.atMs) <= CLOSE_MS &&
    Math.abs(other.value - one.value) < REST_SHARE * stepM;
  // A second value after the step, where there is one: a flood's crest rests for the first.
  const second = rows[i + 2];
  return (
    restsBy(rows[i - 2], before) &&
    restsBy(rows[i + 1], row) &&
    (second === undefined || Math.abs(second.value - row.value) < REST_SHARE * stepM)
  );
}

function stretchesOf<R extends Row>(rows: readonly R[], fromRestM: number): Stretch<R>[] {
  const found: Stretch<R>[] = [];
  let start = 0;
  let stepM = 0;
  for (let i = 1; i <= rows.length; i += 1) {
    if (i < rows.length && !cannotBe(rows, i, fromRestM)) continue;
    found.push({ rows: rows.slice(start, i), stepM });
    stepM = Math.abs((rows[i]?.value ?? 0) - (rows[i - 1]?.value ?? 0));
    start = i;
  }
  return found;
}

const spanMs = (rows: readonly Row[]): number => (rows.at(-1)?.atMs ?? 0) - (rows[0]?.atMs ?? 0);

/** The stretches by footing: one that comes back nearer to an earlier level than half its step belongs there. */
function footingsOf<R extends Row>(stretches: readonly Stretch<R>[]): Footing<R>[] {
  const footings: Footing<R>[] = [];
  for (const stretch of stretches) {
    const firstM = stretch.rows[0]?.value ?? 0;
    const lastM = stretch.rows.at(-1)?.value ?? 0;
    const back = footings
      .filter((one) => Math.abs(one.lastM - firstM) < stretch.stepM / 2)
      .sort((a, b) => Math.abs(a.lastM - firstM) - Math.abs(b.lastM - firstM))[0];
    const isLasting = spanMs(stretch.rows) >= DAY_MS;
    if (back === undefined) footings.push({ stretches: [stretch], lastM, isLasting });
    else {
      back.stretches.push(stretch);
      back.lastM = lastM;
      back.isLasting ||= isLasting;
    }
  }
  return footings;
}

const totalMs = <R extends Row>({ stretches }: Footing<R>): number =>
  stretches.reduce((sum, { rows }) => sum + spanMs(rows), 0);

/**
 * Levels that stand on another footing than the gauge's present one. Present is the newest that ever lasted a day; where
 * none did, the one that was held longest. What came before it is of a moved zero, what came since is no water.
 *
 * @param rows      levels of one gauge in time order, m
 * @param fromRestM step from rest to rest that is no water, m
 */
export function levelSteps<R extends Row>(
  rows: readonly R[],
  fromRestM: number = STEP_FROM_REST_M,
): ReadonlyMap<R, Doubt> {
  const stretches = stretchesOf(rows, fromRestM);
  if (stretches.length < 2) return new Map();
  const footings = footingsOf(stretches);
  const present =
    footings.filter(({ isLasting }) => isLasting).sort((a, b) => endMs(b) - endMs(a))[0] ??
    footings.reduce((best, one) => (totalMs(one) > totalMs(best) ? one : best));
  const first = present.stretches[0]?.rows[0];
  const sinceMs = first?.atMs ?? -Infinity;
  return new Map(
    footings
      .filter((one) => one !== present)
      .flatMap(({ stretches: others }) => others)
      .flatMap(({ rows: doubted, stepM }) =>
        doubted.map((row): [R, Doubt] => {
          const code = row.atMs < sinceMs ? 'doubt.datumJump' : 'doubt.levelStep';
          return [row, { code, stepM: stepM > 0 ? stepM : Math.abs(row.value - (first?.value ?? 0)) }];
        }),
      ),
  );
}

const endMs = <R extends Row>({ stretches }: Footing<R>): number =>
  stretches.at(-1)?.rows.at(-1)?.atMs ?? -Infinity;

/** A level that moved as no water does: other units, another zero. */
export const levelStep: Check = (rows) => (rows[0]?.variable === 'level' ? levelSteps(rows) : NO_DOUBTS);
