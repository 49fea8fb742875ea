/** Daily values of the weather in local days. */
import { dewPointC } from '../../science/index.ts';
import { addDays, datesBetween, HOUR_MS, localDateAt, startOfDayMs } from '../../units/time/index.ts';
import type { HourSeries, HourSum } from './hourly.ts';
import type { WeatherTable } from './table.ts';

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
export const ENOUGH = 5 / 6;

/** The days of a table, each worked out once a morning however many ask for it. */
export class LocalDays {
  private readonly known = new Map<string, LocalDay>();
  /** First and last local date that the hourly air temperature covers; null when there is none. */
  readonly covered: { readonly first: string; readonly last: string } | null;

  constructor(
    private readonly table: WeatherTable,
    private readonly zone: string,
  ) {
    const { air } = table;
    this.covered = air.isEmpty
      ? null
      : { first: localDateAt(air.firstMs, zone), last: localDateAt(air.lastMs - 1, zone) };
  }

  /** Daily values of the local dates from `first` to `last`, both included; null where too few hours are known. */
  between(first: string, last: string): LocalDay[] {
    return datesBetween(first, last).map((date) => this.day(date));
  }

  private day(date: string): LocalDay {
    let day = this.known.get(date);
    if (day === undefined) this.known.set(date, (day = dayOf(this.table, this.zone, date)));
    return day;
  }
}

function dayOf(table: WeatherTable, zone: string, date: string): LocalDay {
  const from = startOfDayMs(date, zone);
  const to = startOfDayMs(addDays(date, 1), zone);
  const enough = ((to - from) / HOUR_MS) * ENOUGH;
  const whole = (hours: HourSum): HourSum | null => (hours.count > 0 && hours.count >= enough ? hours : null);
  const of = (series: HourSeries): HourSum | null => whole(series.sumWithin(from, to));
  const air = of(table.air);
  return {
    date,
    airC: meanOf(air),
    airMinC: air === null ? null : air.least,
    airMaxC: air === null ? null : air.most,
    rainMm: of(table.rain)?.sum ?? null,
    solarWm2: meanOf(of(table.shortwave)),
    dewPointC: meanOf(whole(dewPoints(table, from, to))),
    windMs: meanOf(of(table.wind)),
    cloudPct: meanOf(of(table.cloud)),
    forecastHours: forecastHours(table, from, to),
  };
}

const meanOf = (hours: HourSum | null): number | null => (hours === null ? null : hours.sum / hours.count);

function forecastHours({ air }: WeatherTable, fromMs: number, toMs: number): number {
  let hours = 0;
  air.eachWithin(fromMs, toMs, (_, endMs) => {
    if (air.originAt(endMs)?.kind === 'forecast') hours += 1;
  });
  return hours;
}

function dewPoints({ air, humidity, dewPoint }: WeatherTable, fromMs: number, toMs: number): HourSum {
  if (humidity.isEmpty) return dewPoint.sumWithin(fromMs, toMs);
  let [count, sum] = [0, 0];
  air.eachWithin(fromMs, toMs, (airC, endMs) => {
    const percent = humidity.at(endMs);
    if (percent === undefined) return;
    count += 1;
    sum += dewPointC(airC, Math.min(100, Math.max(1, percent)));
  });
  return { count, sum, least: NaN, most: NaN };
}
