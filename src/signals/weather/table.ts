/** The hourly weather of a lake. */
import type { LakeConfig } from '../../config/index.ts';
import { freshness, type RecordView } from '../../record/index.ts';
import { HOUR_MS } from '../../units/time/index.ts';
import { hourly, HourSeries } from './hourly.ts';

/** A weather model is issued every six hours at least; three issues missed and it is no basis for a morning. */
export const WEATHER_INTERVAL_S = 6 * 3600;

export interface WeatherTable {
  readonly air: HourSeries;
  readonly humidity: HourSeries;
  readonly rain: HourSeries;
  readonly wind: HourSeries;
  readonly gust: HourSeries;
  readonly windDir: HourSeries;
  readonly cloud: HourSeries;
  readonly shortwave: HourSeries;
  readonly thunder: HourSeries;
  /** Figure of WMO code table 4677. */
  readonly weatherCode: HourSeries;
  /** Convective available potential energy, J/kg. */
  readonly cape: HourSeries;
  /** Only where no humidity is known. */
  readonly dewPoint: HourSeries;
  /** Latest issue of any of the series, or the latest observed hour: what the freshness of the whole is judged by. */
  readonly lastMs: number | null;
  /** The service it came from, '' where there is none. */
  readonly service: string;
}

/**
 * Hourly series of the lake's weather, each hour from the best source that has it. Each is judged by its own age: what
 * fails one of them says nothing of the others, and an old forecast of one is not made fresh by a new one of another.
 */
export function weatherTable(view: RecordView, lake: LakeConfig): WeatherTable {
  const of = (variable: Parameters<typeof hourly>[1]): HourSeries => hourly(view, variable, lake.weather);
  const [air, humidity] = [of('air_temp'), of('humidity')];
  const table = {
    air,
    humidity,
    rain: of('rain'),
    wind: of('wind_speed'),
    gust: of('wind_gust'),
    windDir: of('wind_dir'),
    cloud: of('cloud'),
    shortwave: of('shortwave'),
    thunder: of('thunder'),
    weatherCode: of('weather_code'),
    cape: of('cape'),
    dewPoint: humidity.isEmpty ? of('dew_point') : HourSeries.EMPTY,
  };
  const newest = Object.values(table)
    .map((series) => newestOf(series, view.asOfMs))
    .reduce(later, NOTHING);
  // Where all is old alike, the age of the whole is told instead.
  if (newest.lastMs === null || isOld(newest.lastMs, view.asOfMs)) return { ...table, ...newest };
  const own = (series: HourSeries): HourSeries => {
    const { lastMs } = newestOf(series, view.asOfMs);
    return lastMs !== null && isOld(lastMs, view.asOfMs) ? series.until(lastMs) : series;
  };
  return {
    air: own(table.air),
    humidity: own(table.humidity),
    rain: own(table.rain),
    wind: own(table.wind),
    gust: own(table.gust),
    windDir: own(table.windDir),
    cloud: own(table.cloud),
    shortwave: own(table.shortwave),
    thunder: own(table.thunder),
    weatherCode: own(table.weatherCode),
    cape: own(table.cape),
    dewPoint: own(table.dewPoint),
    ...newest,
  };
}

const isOld = (lastMs: number, asOfMs: number): boolean =>
  freshness(lastMs, asOfMs, WEATHER_INTERVAL_S) === 'stale';

type Newest = Pick<WeatherTable, 'lastMs' | 'service'>;
const NOTHING: Newest = { lastMs: null, service: '' };

const later = (one: Newest, other: Newest): Newest =>
  other.lastMs !== null && (one.lastMs === null || other.lastMs > one.lastMs) ? other : one;

function newestOf(series: HourSeries, asOfMs: number): Newest {
  let lastMs: number | null = null;
  let service = '';
  for (let end = series.firstMs; end <= series.lastMs; end += HOUR_MS) {
    const origin = series.originAt(end);
    const stamp = series.stampAt(end);
    if (origin === undefined || stamp === undefined) continue;
    const known = origin.issuedMs ?? (origin.kind === 'forecast' ? null : Math.min(stamp, asOfMs));
    if (known === null || (lastMs !== null && known < lastMs)) continue;
    lastMs = known;
    service = origin.source;
  }
  return { lastMs, service };
}
