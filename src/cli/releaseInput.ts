/** Hours of release as they are written: local dates and clock times, a flow or turbines. */
import { createHash } from 'node:crypto';
import { DateTime } from 'luxon';
import type { Release } from '../record/index.ts';
import { readQuantity, ThawlineError } from '../units/index.ts';
import { addDays, DAY_MS, startOfDayMs } from '../units/time/index.ts';
import { readCsv, type CsvRow } from './csvTable.ts';

/** More than any dam lets through, m3/s: the largest river carries about 200,000 in the mean (from memory). */
const MOST_M3S = 300_000;
const MOST_UNITS = 60;
/** Hours told of longer ago or further ahead are a mistake of the year, days. */
const REACH_DAYS = 400;

export interface WrittenRelease {
  readonly date: string;
  readonly from: string;
  readonly to: string;
  readonly flowM3s?: number;
  readonly units?: number;
}

/** What is wrong with a written time: the field, what was expected, and how to mend it. */
export interface ReleaseFault {
  readonly field: 'date' | 'from' | 'to';
  readonly expected: string;
  readonly remedy: string;
}

export interface ReadRelease {
  readonly release: Release;
  /** Said where the clocks show a written time twice; '' otherwise. */
  readonly note: string;
}

/** The same told twice is one: its name comes from what it says. */
function withId(release: Omit<Release, 'id'>): Release {
  const { lake, fromMs, toMs, flowM3s, units } = release;
  const text = JSON.stringify([lake, fromMs, toMs, flowM3s ?? null, units ?? null]);
  return { id: createHash('sha256').update(text).digest('hex').slice(0, 10), ...release };
}

/** Instants of a clock time on a date: none where the clocks skip it, two where they show it twice. */
function instantsOf(date: string, clock: string, zone: string): number[] {
  const wall = DateTime.fromFormat(`${date} ${clock}`, 'yyyy-LL-dd H:mm', { zone: 'utc' });
  const time = wall.setZone(zone, { keepLocalTime: true });
  if (time.hour !== wall.hour || time.minute !== wall.minute) return [];
  return time.getPossibleOffsets().map((one) => one.toMillis());
}

/** Tables of spreadsheets write seconds too. */
const CLOCK = /^((?:[01]?\d|2[0-3]):[0-5]\d)(?::00)?$/;

/**
 * A stretch of release on one local date, `24:00` being its end.
 *
 * @param zone the zone that the times are written in
 * @returns the release, or what is wrong; of a time that the clocks show twice the earlier one begins and the later ends it
 */
export function releaseOf(
  lake: string,
  { date, from, to, flowM3s, units }: WrittenRelease,
  zone: string,
  nowMs: number,
): ReadRelease | ReleaseFault {
  const clock = (field: 'from' | 'to', text: string): number[] | ReleaseFault => {
    if (field === 'to' && /^24:00(?::00)?$/.test(text)) return [startOfDayMs(addDays(date, 1), zone)];
    const [, minutes] = CLOCK.exec(text) ?? [];
    if (minutes === undefined)
      return {
        field,
        expected: `a clock time of 24 hours like ${field === 'to' ? '18:00, or 24:00 for midnight' : '14:00'}`,
        remedy: 'write hours and minutes',
      };
    const instants = instantsOf(date, minutes, zone);
    return instants.length > 0
      ? instants
      : {
          field,
          expected: `a time that ${zone} has on ${date}: the clocks skip it`,
          remedy: 'write the time that the clock showed, an hour later',
        };
  };
  const [begins, ends] = [clock('from', from), clock('to', to)];
  if ('field' in begins) return begins;
  if ('field' in ends) return ends;
  const [fromMs, toMs] = [begins[0] ?? NaN, ends.at(-1) ?? NaN];
  if (toMs <= fromMs)
    return {
      field: 'to',
      expected: `a time after ${from}`,
      remedy: 'hours over midnight are two entries: up to 24:00, and from 00:00 of the next date',
    };
  if (Math.abs(fromMs - nowMs) > REACH_DAYS * DAY_MS)
    return {
      field: 'date',
      expected: `a date within ${REACH_DAYS} days of today`,
      remedy: 'correct the year',
    };
  const twice = [...(begins.length > 1 ? [from] : []), ...(ends.length > 1 ? [to] : [])];
  return {
    release: withId({
      lake,
      fromMs,
      toMs,
      ...(flowM3s === undefined ? {} : { flowM3s }),
      ...(units === undefined ? {} : { units }),
    }),
    note:
      twice.length === 0
        ? ''
        : `The clocks show ${twice.join(' and ')} twice on ${date}: the release is kept as the longest it can be.`,
  };
}

/** A flow with its unit, m3/s. @throws ThawlineError `usage` */
export function parseFlow(text: string): number {
  const read = readQuantity(text, 'flow');
  if ('problem' in read) throw new ThawlineError('usage', `--flow: ${read.problem}.`);
  if (read.si >= 0 && read.si <= MOST_M3S) return read.si;
  throw new ThawlineError(
    'usage',
    `--flow: found "${text}", expected 0 to ${MOST_M3S} m³/s; check its unit.`,
  );
}

/** A number of turbines. @throws ThawlineError `usage` */
export function parseUnits(text: string): number {
  const units = /^\d{1,3}$/.test(text.trim()) ? Number(text) : NaN;
  if (units <= MOST_UNITS) return units;
  throw new ThawlineError(
    'usage',
    `--units: found "${text}", expected how many turbines run, 0 to ${MOST_UNITS}.`,
  );
}

/** Two of a list that say different things of the same time. */
export function overlapOf(all: readonly Release[]): readonly [Release, Release] | null {
  const sorted = [...all].sort((a, b) => a.fromMs - b.fromMs);
  for (const [i, one] of sorted.entries()) {
    const next = sorted[i + 1];
    if (next !== undefined && next.fromMs < one.toMs && next.id !== one.id) return [one, next];
  }
  return null;
}

export interface ReleaseTable {
  readonly releases: readonly Release[];
  readonly notes: readonly string[];
  /** First instant of the first date it speaks of, and the end of the last. */
  readonly fromMs: number;
  readonly toMs: number;
}

/** ft3/s to m3/s, exact by the international foot. */
const M3_PER_FT3 = 0.3048 ** 3;

/** Columns that say how much water runs; one of them is filled. */
const MUCH = ['flow_m3s', 'flow_cfs', 'units'] as const;

function muchOf(row: CsvRow): Pick<WrittenRelease, 'flowM3s' | 'units'> {
  const m3s = row.number('flow_m3s', { low: 0, high: MOST_M3S });
  const cfs = row.number('flow_cfs', { low: 0, high: MOST_M3S / M3_PER_FT3 });
  const units = row.number('units', { low: 0, high: MOST_UNITS });
  if (m3s !== undefined && cfs !== undefined)
    throw row.complain('flow_cfs', 'one flow', 'leave flow_m3s or flow_cfs empty');
  if (units !== undefined && !Number.isInteger(units))
    throw row.complain('units', 'a whole number of turbines', 'correct the field');
  const flowM3s = m3s ?? (cfs === undefined ? undefined : cfs * M3_PER_FT3);
  if (flowM3s === undefined && units === undefined)
    throw row.complain(
      MUCH.find((column) => row.has(column)) ?? MUCH[0],
      'flow_m3s in m³/s, flow_cfs in ft³/s, or units',
      'fill one of them; 0 says that no water runs',
    );
  return { ...(flowM3s === undefined ? {} : { flowM3s }), ...(units === undefined ? {} : { units }) };
}

/**
 * The hours of an operator's table: `date,from,to` and one of `flow_m3s`, `flow_cfs`, `units`. All of it is looked at
 * before any of it is kept.
 *
 * @throws ThawlineError `usage` with file, line and column
 */
export function releasesIn(path: string, lake: string, zone: string, nowMs: number): ReleaseTable {
  const rows = readCsv(path, ['date', 'from', 'to'], ['date', 'from', 'to', ...MUCH]);
  const [first] = rows;
  if (first === undefined)
    throw new ThawlineError(
      'usage',
      `${path}: there is no release in it; give a line for each stretch of hours.`,
    );
  const lineOf = new Map<string, CsvRow>();
  const notes: string[] = [];
  const releases = new Map<string, Release>();
  const dates = rows.map((row) => {
    const date = row.date('date');
    const read = releaseOf(
      lake,
      { date, from: row.text('from') ?? '', to: row.text('to') ?? '', ...muchOf(row) },
      zone,
      nowMs,
    );
    if ('field' in read) throw row.complain(read.field, read.expected, read.remedy);
    lineOf.set(read.release.id, lineOf.get(read.release.id) ?? row);
    releases.set(read.release.id, read.release);
    if (read.note !== '') notes.push(read.note);
    return date;
  });
  const all = [...releases.values()];
  const overlap = overlapOf(all);
  if (overlap !== null) {
    const [one, other] = overlap.map(({ id }) => lineOf.get(id) ?? first);
    const [earlier = first, later = first] = [one, other].sort((a, b) => (a?.line ?? 0) - (b?.line ?? 0));
    throw later.complain('from', `hours apart from those of line ${earlier.line}`, 'correct one of the two');
  }
  const sorted = dates.sort();
  return {
    releases: all,
    notes,
    fromMs: startOfDayMs(sorted[0] ?? '', zone),
    toMs: startOfDayMs(addDays(sorted.at(-1) ?? '', 1), zone),
  };
}
