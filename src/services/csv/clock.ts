/** What a written local time of a logger means; the hour that comes twice is told apart by the order of the rows. */
import { DateTime } from 'luxon';
import type { GaugeConfig } from '../../config/index.ts';
import { plausible } from '../parse.ts';
import type { TableRow } from './table.ts';

type CsvSettings = NonNullable<GaugeConfig['csv']>;

const inZone = (text: string, zone: string, format: string | undefined): DateTime =>
  format === undefined
    ? DateTime.fromISO(text.replace(' ', 'T'), { zone })
    : DateTime.fromFormat(text, format, { zone });

/** Instants that a written time may be, earlier first: none, one, or two in the hour that comes twice. */
function instantsOf(text: string, { zone, timeFormat }: CsvSettings): readonly number[] {
  const time = inZone(text, zone, timeFormat);
  if (!time.isValid || !plausible(time.toMillis())) return [];
  if (/(Z|[+-]\d{2}:?\d{2})$/.test(text)) return [time.toMillis()];
  // luxon moves a wall time that does not exist by an hour; reading it back in UTC shows the hour that was written.
  const written = inZone(text, 'utc', timeFormat);
  if (written.hour !== time.hour || written.minute !== time.minute) return [];
  return time
    .getPossibleOffsets()
    .map((one) => one.toMillis())
    .sort((a, b) => a - b);
}

/** Times of one autumn night, in the order of the rows. */
interface Twice {
  readonly line: number;
  readonly instants: readonly number[];
}

/**
 * The instant of each row by its line. In the night that the clocks go back a logger without offset writes an hour
 * twice: where each of its times stands there twice, the first pass is summer time and the second is not (the other way
 * round in a file whose newest row comes first). Where one is missing, or the rows would run back in time, nobody knows,
 * and none of that night has an instant.
 */
export function instantsByLine(rows: readonly TableRow[], csv: CsvSettings): ReadonlyMap<number, number> {
  const at = new Map<number, number>();
  const nights = new Map<number, Twice[]>();
  let [firstMs, lastMs] = [0, 0];
  for (const row of rows) {
    const instants = instantsOf(row.get(csv.timeColumn), csv);
    const [one, other] = instants;
    if (one === undefined) continue;
    if (other === undefined) {
      at.set(row.line, one);
      if (firstMs === 0) firstMs = one;
      lastMs = one;
    } else {
      const night = Math.floor(one / NIGHT_MS);
      nights.set(night, [...(nights.get(night) ?? []), { line: row.line, instants }]);
    }
  }
  for (const night of nights.values())
    for (const [line, atMs] of passesOf(night, lastMs < firstMs)) if (atMs !== null) at.set(line, atMs);
  return at;
}

/** A day of UTC: no two changes of clocks fall on one. */
const NIGHT_MS = 86_400_000;

function passesOf(night: readonly Twice[], newestFirst: boolean): [number, number | null][] {
  const seen = new Map<number, number>();
  const passes = night.map(({ line, instants: [early = 0, late = 0] }): [number, number] => {
    const pass = seen.get(early) ?? 0;
    seen.set(early, pass + 1);
    return [line, (pass === 0) === newestFirst ? late : early];
  });
  const isTwice = [...seen.values()].every((count) => count === 2);
  const runsOn = passes.every(([, atMs], i) => i === 0 || atMs > (passes[i - 1]?.[1] ?? 0) !== newestFirst);
  return isTwice && runsOn ? passes : night.map(({ line }) => [line, null]);
}
