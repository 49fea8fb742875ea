/** The hourly weather of a lake. */
import type { LakeConfig } from '../../config/types.ts';
import type { RecordView } from '../../record/types.ts';
import { HOUR_MS } from '../../units/calendar.ts';
import { hourly, HourSeries } from './hourly.ts';

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
  /** Latest issue of the weather source, or the latest observed hour: what its freshness is judged by. */
  readonly lastMs: number | null;
  /** The service it came from, '' where there is none. */
  readonly service: string;
}

/** Hourly series of the lake's weather, each hour from the best source that has it. */
export function weatherTable(view: RecordView, lake: LakeConfig): WeatherTable {
  const of = (variable: Parameters<typeof hourly>[1]): HourSeries => hourly(view, variable, lake.weather);
  const [air, humidity] = [of('air_temp'), of('humidity')];
  return {
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
    ...newestOf(air, view.asOfMs),
  };
}

function newestOf(air: HourSeries, asOfMs: number): Pick<WeatherTable, 'lastMs' | 'service'> {
  let lastMs: number | null = null;
  let service = '';
  for (let end = air.firstMs; end <= air.lastMs; end += HOUR_MS) {
    const origin = air.originAt(end);
    const stamp = air.stampAt(end);
    if (origin === undefined || stamp === undefined) continue;
    const known = origin.issuedMs ?? (origin.kind === 'forecast' ? null : Math.min(stamp, asOfMs));
    if (known === null || (lastMs !== null && known < lastMs)) continue;
    lastMs = known;
    service = origin.source;
  }
  return { lastMs, service };
}
