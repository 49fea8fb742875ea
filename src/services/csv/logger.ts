import { DateTime } from 'luxon';
import { ThawlineError } from '../../units/index.ts';
import type { GaugeConfig } from '../../config/types.ts';
import type { Observation } from '../../record/types.ts';
import { finite, plausible } from '../parse.ts';
import { spacingS } from '../spacing.ts';
import { toSi } from '../units.ts';
import { readTable } from './table.ts';

/** What a logger file gave, and how many rows could not be read. */
export interface LoggerResult {
  readonly observations: Observation[];
  readonly problem: string;
}

/**
 * Read one column of a logger file. Times without an offset are in the configured zone; those that the change of
 * clocks makes ambiguous or impossible are left out rather than guessed.
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
  const rows = readTable(text, csv.path);
  for (const column of [csv.timeColumn, csv.valueColumn]) {
    if (rows[0]?.has(column) === false) {
      throw new ThawlineError(
        'service',
        `The logger file ${csv.path} has no column "${column}"; it has ${[...rows[0].keys()].join(', ')}.`,
      );
    }
  }
  const points = new Map<number, number>();
  let bad = 0;
  for (const row of rows) {
    const raw = row.get(csv.valueColumn) ?? '';
    if (raw === '') continue;
    const atMs = timeMs(row.get(csv.timeColumn) ?? '', csv.zone, csv.timeFormat);
    const value = finite(raw);
    if (atMs === null || value === null) bad += 1;
    else points.set(atMs, value);
  }
  if (points.size === 0 && bad > 0) {
    throw new ThawlineError(
      'service',
      `No row of the logger file ${csv.path} could be read; check "timeFormat" and "zone".`,
    );
  }
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
  const problem =
    bad === 0 ? '' : `${bad} of ${rows.length} rows of the logger file ${csv.path} could not be read.`;
  return { observations, problem };
}

function timeMs(text: string, zone: string, format: string | undefined): number | null {
  const time =
    format === undefined
      ? DateTime.fromISO(text.replace(' ', 'T'), { zone })
      : DateTime.fromFormat(text, format, { zone });
  if (!time.isValid || !plausible(time.toMillis())) return null;
  const stated = /(Z|[+-]\d{2}:?\d{2})$/.test(text);
  // In the hour that comes twice a wall time has two instants; in the one that is skipped it has none.
  if (!stated && (time.getPossibleOffsets().length > 1 || !wallTimeKept(time, text, format))) return null;
  return time.toMillis();
}

/** luxon moves a wall time that does not exist by an hour; reading it back in UTC shows the hour that was written. */
function wallTimeKept(time: DateTime, text: string, format: string | undefined): boolean {
  const written =
    format === undefined
      ? DateTime.fromISO(text.replace(' ', 'T'), { zone: 'utc' })
      : DateTime.fromFormat(text, format, { zone: 'utc' });
  return written.hour === time.hour && written.minute === time.minute;
}
