import { DateTime } from 'luxon';
import { commaHint, ThawlineError } from '../../units/index.ts';
import type { GaugeConfig } from '../../config/index.ts';
import type { Observation } from '../../record/index.ts';
import { finite } from '../parse.ts';
import { instantsByLine } from './clock.ts';
import { spacingS } from '../spacing.ts';
import { toSi } from '../units.ts';
import { demandColumn, fileFault, readTable, type Table } from './table.ts';
import { unitDoubt } from './unitWatch.ts';

/** What a logger file gave, and how many rows could not be read. */
export interface LoggerResult {
  readonly observations: Observation[];
  readonly problem: string;
}

/**
 * Read one column of a logger file. Times without an offset are in the configured zone; of those that come twice in
 * autumn the order of the rows tells which is which, what stays ambiguous or is impossible is left out rather than guessed.
 * Faults are told of rows that count: of those before `fromMs` nobody needs to know.
 *
 * @param fromMs  rows before it are ignored
 * @param toMs  rows after it are ignored
 * @throws ThawlineError when a column, the zone or the unit is wrong, or no row can be read
 */
export function mapLogger(
  text: string,
  gauge: GaugeConfig,
  lake: string,
  fromMs: number,
  toMs: number,
): LoggerResult {
  const csv = gauge.csv;
  if (csv === undefined) {
    throw new ThawlineError(
      'service',
      `The CSV gauge ${gauge.station} needs a "csv" section in the configuration.`,
    );
  }
  const convert = toSi(gauge.variable, csv.unit, `The logger file ${csv.path}`);
  if (!DateTime.local({ zone: csv.zone }).isValid) {
    throw new ThawlineError('service', `The zone "${csv.zone}" of the logger file ${csv.path} is not known.`);
  }
  const table = readTable(text, csv.path);
  for (const column of [csv.timeColumn, csv.valueColumn]) demandColumn(table, csv.path, column);
  const { points, faults } = pointsOf(table, csv);
  const [any] = faults;
  const told = faults.filter(({ atMs }) => atMs === null || (atMs >= fromMs && atMs <= toMs));
  const [first] = told;
  if (points.size === 0 && any !== undefined)
    throw fileFault(csv.path, any.line, `${any.sentence} No row of it could be read.`);
  const doubt = unitDoubt(gauge.variable, csv.unit, csv.valueColumn, [...points.values()]);
  const doubted = doubt === null ? '' : `column "${csv.valueColumn}": ${doubt.sentence}`;
  if (doubt?.isSure === true) throw fileFault(csv.path, table.headLine, doubted);
  const sorted = [...points].sort((a, b) => a[0] - b[0]);
  const periodS = gauge.variable === 'rain' ? spacingS(sorted.map(([atMs]) => atMs)) : 0;
  const within = sorted.filter(([atMs]) => atMs >= fromMs && atMs <= toMs);
  const observations = within.flatMap(([atMs, value]): Observation[] =>
    periodS === null
      ? []
      : [
          {
            lake,
            variable: gauge.variable,
            source: 'csv',
            station: gauge.station,
            kind: 'observed',
            atMs,
            periodS,
            value: convert(value),
            issuedMs: null,
            ...(gauge.datum === undefined ? {} : { datum: gauge.datum }),
          },
        ],
  );
  const problems = [
    ...(first === undefined
      ? []
      : [
          `The logger file ${csv.path}, line ${first.line}: ${first.sentence}` +
            (told.length === 1 ? '' : ` ${told.length} of ${table.rows.length} rows were not used.`),
        ]),
    ...(doubted === '' ? [] : [`The logger file ${csv.path}, line ${table.headLine}: ${doubted}`]),
  ];
  return { observations, problem: problems.join(' ') };
}

interface Fault {
  readonly line: number;
  /** About when, by its own time or that of the row before it; null where no row before it has one. */
  readonly atMs: number | null;
  readonly sentence: string;
}

type CsvSettings = NonNullable<GaugeConfig['csv']>;

/** Values by instant, and the rows that gave none. An instant with two values has none: nobody knows which is right. */
function pointsOf(
  { rows, names }: Table,
  csv: CsvSettings,
): { readonly points: Map<number, number>; readonly faults: Fault[] } {
  const points = new Map<number, number>();
  const lines = new Map<number, number>();
  const twice = new Set<number>();
  const faults: Fault[] = [];
  const instants = instantsByLine(rows, csv);
  let aboutMs: number | null = null;
  for (const row of rows) {
    const raw = row.get(csv.valueColumn);
    if (raw === '') continue;
    const written = row.get(csv.timeColumn);
    const atMs = instants.get(row.line) ?? null;
    aboutMs = atMs ?? aboutMs;
    const near = aboutMs;
    const fault = (sentence: string): void => void faults.push({ line: row.line, atMs: near, sentence });
    const value = finite(raw);
    const before = atMs === null ? undefined : points.get(atMs);
    if (row.surplus > 0)
      fault(
        `${names.length + row.surplus} fields where the header has ${names.length}. If a comma stands before decimals, put semicolons between the fields or write a decimal point.`,
      );
    else if (value === null)
      fault(
        `column "${csv.valueColumn}": found "${raw.slice(0, SHOWN)}", expected a number${cureOf(commaHint(raw))}.`,
      );
    else if (atMs === null)
      fault(
        `column "${csv.timeColumn}": found "${written.slice(0, SHOWN)}", expected ${csv.timeFormat === undefined ? 'a time such as 2026-03-05 06:00' : `a time of the form ${csv.timeFormat}`} that the clocks of ${csv.zone} show, and in autumn each time of the hour that comes twice two times; correct it, "timeFormat" or "zone".`,
      );
    else if (before !== undefined && before !== value) {
      fault(
        `column "${csv.valueColumn}": found ${value} for ${written}, but line ${lines.get(atMs) ?? 0} has ${before} for the same time; neither is used. Remove the wrong one.`,
      );
      twice.add(atMs);
    } else {
      points.set(atMs, value);
      if (!lines.has(atMs)) lines.set(atMs, row.line);
    }
  }
  for (const atMs of twice) points.delete(atMs);
  return { points, faults };
}

/** Letters of a field that a sentence shows. */
const SHOWN = 40;
const cureOf = (hint: string | null): string => (hint === null ? '' : `; ${hint}`);
