import { ThawlineError } from '../../units/index.ts';
import type { GaugeConfig, GaugeVariable } from '../../config/index.ts';
import type { Observation } from '../../record/index.ts';
import { ATTRIBUTIONS } from '../attributions.ts';
import { finite, instantMs } from '../parse.ts';
import { spacingS } from '../spacing.ts';
import { toSi } from '../units.ts';
import { areAlike } from '../twoValues.ts';
import type { RowOfInstant } from './series.ts';

const NAME = ATTRIBUTIONS.usgs.name;

/** The usual parameter of a variable; inflow and release have none and must be configured. */
const PARAMETER: Partial<Record<GaugeVariable, string>> = {
  level: '00065',
  discharge: '00060',
  water_temp: '00010',
  turbidity: '63680',
  rain: '00045',
};

/** Vertical datum that the parameter itself states (62614: above NGVD 1929, 62615: above NAVD 1988; from memory). */
const DATUM: Readonly<Record<string, string>> = { '00065': 'gage', '62614': 'NGVD29', '62615': 'NAVD88' };

/** Datums that are in the parameter's own definition, so that a configured one cannot be right if it differs. */
const DEFINED_DATUM: readonly string[] = ['62614', '62615'];

/** Vertical datum of a level: the parameter's own where it defines one, else the configured one. */
export function datumOf(gauge: GaugeConfig, parameter: string): string | undefined {
  if (gauge.variable !== 'level') return undefined;
  if (DEFINED_DATUM.includes(parameter)) return DATUM[parameter];
  return gauge.datum ?? DATUM[parameter];
}

/** How the old service wrote "no value"; it can survive in copies of its data. */
export const LEGACY_NO_DATA = -999_999;

export function parameterOf(gauge: GaugeConfig): string {
  const code = gauge.parameter ?? PARAMETER[gauge.variable];
  if (code === undefined || !/^\d{5}$/.test(code)) {
    throw new ThawlineError(
      'service',
      `The ${gauge.variable} gauge ${gauge.station} needs a five-digit "parameter" in the configuration.`,
    );
  }
  return code;
}

/** `01234567` and `USGS-01234567` are the same station; other agencies keep their prefix. */
export function siteOf(gauge: GaugeConfig): string {
  return /^\d+$/.test(gauge.station) ? `USGS-${gauge.station}` : gauge.station;
}

/**
 * Rows of one series to observations in SI. A null value is a gap; a row without a zoned time is not used.
 *
 * @param rows  one series, in order of time
 * @throws ThawlineError for an unknown unit or a series that changes its unit
 */
export function mapSeries(rows: readonly RowOfInstant[], gauge: GaugeConfig, lake: string): Observation[] {
  const usable = rows.flatMap((row) => {
    const value = finite(row.value);
    const atMs = instantMs(row.time);
    return value === null || value === LEGACY_NO_DATA || atMs === null ? [] : [{ row, value, atMs }];
  });
  const units = new Set(usable.map(({ row }) => row.unit_of_measure ?? ''));
  if (units.size > 1) {
    throw new ThawlineError(
      'service',
      `${NAME} ${gauge.station} changes its unit within one series; it was not used.`,
    );
  }
  const [unit] = units;
  if (unit === undefined) return [];
  const convert = toSi(gauge.variable, unit, NAME);
  const periodS = gauge.variable === 'rain' ? spacingS(usable.map((u) => u.atMs)) : 0;
  if (periodS === null) return [];
  const parameter = parameterOf(gauge);
  const datum = datumOf(gauge, parameter);
  return usable.map(({ row, value, atMs }) => {
    const rival = finite(row.rival);
    const si = convert(value);
    const apart = rival === null || rival === LEGACY_NO_DATA ? 0 : Math.abs(convert(rival) - si);
    const isTwo = apart > 0 && !areAlike(gauge.variable, si, si + apart);
    const qualifiers = typeof row.qualifier === 'string' ? [row.qualifier] : (row.qualifier ?? []);
    return {
      lake,
      variable: gauge.variable,
      source: 'usgs',
      station: `${siteOf(gauge)}/${parameter}/${row.time_series_id}`,
      kind: 'observed',
      atMs,
      periodS,
      value: si,
      issuedMs: null,
      ...(isTwo ? { doubt: { code: 'doubt.twoValues', apart } as const } : {}),
      provisional: row.approval_status !== 'Approved',
      ...(qualifiers.length === 0 ? {} : { qualifiers }),
      ...(datum === undefined ? {} : { datum }),
    };
  });
}
