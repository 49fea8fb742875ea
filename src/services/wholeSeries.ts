/** Series of a weather reply that are wrong as a whole: what of them happens to look possible is as wrong as the rest. */
import type { Observation, Variable } from '../record/index.ts';
import { groupRuns } from '../record/observations/index.ts';
import { isPossible, isWrongSeries, POSSIBLE } from '../record/quality/index.ts';
import { DAY_MS, dayOfYear, HOUR_MS } from '../units/time/index.ts';
import { otherUnit } from './unitFactor.ts';
import { airRangesC, median, type AirRange } from '../science/index.ts';
import { ATTRIBUTIONS } from './attributions.ts';

/** Share of the values that lie outside what the latitude and the season allow, and their number. Common practice, no source. */
const SHARE = 0.05;
const FEWEST = 3;
/**
 * Two replies for the same hours that differ by more in the middle: one of them is in another unit. The widest miss of a
 * day's forecast that models make is about half of it (common practice, no source).
 */
const APART_K = 20;
const FEWEST_SHARED = 12;
/** A share of 1 written where percent are told; air so dry for a day is nowhere. */
const FRACTION = 1;

type Air = Extract<Variable, 'air_temp' | 'dew_point'>;
const isAir = (variable: Variable): variable is Air => variable === 'air_temp' || variable === 'dew_point';

/**
 * Observations without the series of weather models that are wrong as a whole; each is named once. Instruments are judged
 * value by value, since they fail for hours and not by the reply, but for a flow whose unit has changed.
 *
 * @param latDeg latitude of the lake, degrees
 * @param note   told of each with its source
 * @param known  what the record has of the same hours; one that contradicts it and lies further from what the season
 *   allows is refused
 */
export function withoutWrongSeries(
  observations: readonly Observation[],
  latDeg: number,
  note: (problem: string, source: string) => void,
  known: readonly Observation[] = [],
): Observation[] {
  const groups = [...groupRuns(observations, nameOf, isOfColumn).values()];
  const refused = new Set<string>();
  for (const rows of groups) {
    const [first] = rows;
    if (first === undefined) continue;
    const others = (): Observation[] => [
      ...groups.filter((other) => other !== rows && other[0]?.variable === first.variable).flat(),
      ...known.filter(({ variable }) => variable === first.variable),
    ];
    const wrong = first.kind === 'observed' ? null : problemOf(rows, first.variable, latDeg, others);
    const why = wrong ?? unitOf(rows, known);
    if (why === null) continue;
    refused.add(nameOf(first));
    note(
      `${nameOfService(first)}: the whole series of ${first.variable} was refused, because ${why}.`,
      first.source,
    );
  }
  return refused.size === 0 ? [...observations] : observations.filter((row) => !refused.has(nameOf(row)));
}

/** What the record was told of the same instants, times the number between two units. */
function unitOf(rows: readonly Observation[], known: readonly Observation[]): string | null {
  const units = otherUnit(
    rows,
    known.filter(({ variable }) => variable === rows[0]?.variable),
  );
  return units === null
    ? null
    : `it is what it gave for the same hours before, times the number that lies between ${units}: its unit has changed`;
}

const nameOfService = ({ source }: Observation): string =>
  Object.entries(ATTRIBUTIONS).find(([id]) => id === source)?.[1].name ?? source;

/** Past and future of one column of a reply are one series. */
const nameOf = ({ variable, source, station, kind }: Observation): string =>
  `${variable} ${source} ${station} ${kind === 'observed' ? kind : ''}`;

const isOfColumn = (a: Observation, b: Observation): boolean =>
  a.variable === b.variable &&
  a.source === b.source &&
  a.station === b.station &&
  (a.kind === 'observed') === (b.kind === 'observed');

function problemOf(
  rows: readonly Observation[],
  variable: Variable,
  latDeg: number,
  othersOf: () => readonly Observation[],
): string | null {
  const range = 'its unit or its column is wrong';
  if (isWrongSeries(rows)) {
    const wrong = rows.filter((row) => !isPossible(row)).length;
    return `${wrong} of its ${rows.length} values cannot be: ${range}`;
  }
  if (variable === 'humidity' && rows.length >= 24 && isFraction(rows))
    return `its percent are shares of one: ${range}`;
  if (!isAir(variable)) return null;
  const seasons = airRangesC(latDeg);
  const beyond = rows.filter((row) => isBeyond(row, seasons)).length;
  if (beyond >= FEWEST && beyond >= SHARE * rows.length)
    return `${beyond} of its ${rows.length} values are beyond what the latitude and the season allow: ${range}`;
  const others = othersOf();
  const offK = differenceK(rows, others);
  if (offK === null || Math.abs(offK) <= APART_K) return null;
  // Of two that contradict each other the one is refused that is stranger for the season.
  const strange = strangeness(rows, seasons);
  return strange > strangeness(matching(rows, others), seasons)
    ? `it differs by ${Math.round(Math.abs(offK))} K from what is known of the same hours`
    : null;
}

const isFraction = (rows: readonly Observation[]): boolean =>
  rows.every(({ value }) => value <= FRACTION) && rows.some(({ value }) => value > 0);

const dayOf = ({ atMs }: Observation): number => dayOfYear(atMs / DAY_MS);

function isBeyond(row: Observation, range: AirRange): boolean {
  const [low, high] = range(dayOf(row));
  return row.value > high || (row.variable === 'air_temp' && row.value < low);
}

const hourOf = ({ atMs }: Observation): number => Math.round(atMs / HOUR_MS);

/** Of other series of the variable what they have of the same hours. */
function matching(rows: readonly Observation[], others: readonly Observation[]): Observation[] {
  const hours = new Set(rows.map(hourOf));
  return others.filter((other) => other.doubt === undefined && hours.has(hourOf(other)));
}

/** Middle difference to what else is known of the same hours, K; null where too little is. */
function differenceK(rows: readonly Observation[], others: readonly Observation[]): number | null {
  const byHour = new Map(matching(rows, others).map((other) => [hourOf(other), other.value]));
  const differences = rows.flatMap((row) => {
    const other = byHour.get(hourOf(row));
    return other === undefined ? [] : [row.value - other];
  });
  return differences.length < FEWEST_SHARED ? null : median(differences);
}

/** Where between the lowest and the highest of a season its usual air lies, 0 to 1. Common practice, no source. */
const USUAL = 2 / 3;

/** How far the middle of a series lies from what is usual in its season, K. */
const strangeness = (rows: readonly Observation[], range: AirRange): number =>
  median(
    rows.map((row) => {
      const [low, high] = range(dayOf(row));
      return Math.abs(row.value - low - USUAL * (high - low));
    }),
  );

/**
 * Measured water temperatures, those above the hottest air of the season doubted: water in degF that is called degC, of a
 * winter in which cold water is the danger. No lake is warmer than that, below a power station neither (common practice,
 * no source).
 *
 * @param latDeg latitude of the lake, degrees
 */
export function withoutHotWater(observations: readonly Observation[], latDeg: number): Observation[] {
  const [low, most] = POSSIBLE.water_temp;
  const range = airRangesC(latDeg);
  return observations.map((row) => {
    if (row.variable !== 'water_temp' || row.kind !== 'observed' || row.doubt !== undefined) return row;
    const [, high] = range(dayOf(row));
    return row.value <= high || high >= most
      ? row
      : { ...row, doubt: { code: 'doubt.impossible', low, high } };
  });
}
