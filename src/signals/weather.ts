/** The hourly weather of the lake and its daily means in local days. */
import type { LakeConfig } from '../config/types.ts';
import type { RecordView } from '../record/types.ts';
import { dewPointC } from '../science/index.ts';
import { datesBetween, HOUR_MS } from '../units/calendar.ts';
import { hoursOfDay, localDateAt, startOfDayMs } from '../units/localTime.ts';
import { mean } from './figure.ts';
import { hourly, hoursWithin, type HourSeries } from './hourly.ts';

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
  /** Latest issue of the weather source, or the latest observed hour: what its freshness is judged by. */
  readonly lastMs: number | null;
  readonly source: string;
}

/** Hourly series of the lake's weather, each hour from the best source that has it. */
export function weatherTable(view: RecordView, lake: LakeConfig): WeatherTable {
  const of = (variable: Parameters<typeof hourly>[1]): HourSeries => hourly(view, variable, lake.weather);
  const air = of('air_temp');
  let lastMs: number | null = null;
  let source = '';
  for (const value of air.values()) {
    const known = value.issuedMs ?? (value.kind === 'forecast' ? null : Math.min(value.atMs, view.asOfMs));
    if (known !== null && (lastMs === null || known >= lastMs)) {
      lastMs = known;
      source = value.source;
    }
  }
  return {
    air,
    humidity: of('humidity'),
    rain: of('rain'),
    wind: of('wind_speed'),
    gust: of('wind_gust'),
    windDir: of('wind_dir'),
    cloud: of('cloud'),
    shortwave: of('shortwave'),
    thunder: of('thunder'),
    lastMs,
    source,
  };
}

export interface LocalDay {
  readonly date: string;
  readonly airC: number | null;
  readonly airMinC: number | null;
  readonly airMaxC: number | null;
  readonly rainMm: number | null;
  readonly solarWm2: number | null;
  readonly dewPointC: number | null;
  readonly windMs: number | null;
  readonly cloudPct: number | null;
  /** Hours of the day that are forecast. */
  readonly forecastHours: number;
}

/** A day's mean is believed from five sixths of its hours on: a missing night would otherwise read as warming. */
const ENOUGH = 5 / 6;

/**
 * Daily values of the local dates from `firstDate` to `lastDate`, both included; null where too few hours are known.
 */
export function localDays(
  table: WeatherTable,
  zone: string,
  firstDate: string,
  lastDate: string,
): LocalDay[] {
  return datesBetween(firstDate, lastDate).map((date) => {
    const from = startOfDayMs(date, zone);
    const length = hoursOfDay(date, zone);
    const to = from + length * HOUR_MS;
    const within = (series: HourSeries): number[] => hoursWithin(series, from, to).map((hour) => hour.value);
    const whole = (values: number[]): number[] => (values.length >= length * ENOUGH ? values : []);
    const air = whole(within(table.air));
    const rain = whole(within(table.rain));
    const dew: number[] = [];
    for (let hour = Math.floor(from / HOUR_MS) * HOUR_MS + HOUR_MS; hour <= to; hour += HOUR_MS) {
      const airC = table.air.get(hour)?.value;
      const humidity = table.humidity.get(hour)?.value;
      if (airC !== undefined && humidity !== undefined)
        dew.push(dewPointC(airC, Math.min(100, Math.max(1, humidity))));
    }
    return {
      date,
      airC: mean(air),
      airMinC: air.length > 0 ? Math.min(...air) : null,
      airMaxC: air.length > 0 ? Math.max(...air) : null,
      rainMm: rain.length > 0 ? rain.reduce((a, b) => a + b, 0) : null,
      solarWm2: mean(whole(within(table.shortwave))),
      dewPointC: mean(whole(dew)),
      windMs: mean(whole(within(table.wind))),
      cloudPct: mean(whole(within(table.cloud))),
      forecastHours: hoursWithin(table.air, from, to).filter((hour) => hour.kind === 'forecast').length,
    };
  });
}

/** First and last local date that the hourly air temperature covers; null when there is none. */
export function coveredDates(table: WeatherTable, zone: string): { first: string; last: string } | null {
  const hours = [...table.air.keys()];
  const first = hours[0];
  const last = hours.at(-1);
  if (first === undefined || last === undefined) return null;
  return { first: localDateAt(first, zone), last: localDateAt(last - 1, zone) };
}
