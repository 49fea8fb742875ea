/** Daily values of the weather in local days. */
import { dewPointC } from '../../science/index.ts';
import { addDays, datesBetween, HOUR_MS } from '../../units/calendar.ts';
import { localDateAt, startOfDayMs } from '../../units/localTime.ts';
import { mean, sum } from '../figure.ts';
import type { HourSeries } from './hourly.ts';
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
const ENOUGH = 5 / 6;

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
  const whole = (values: number[]): number[] => (values.length >= enough ? values : []);
  const of = (series: HourSeries): number[] => whole(series.within(from, to));
  const air = of(table.air);
  const rain = of(table.rain);
  return {
    date,
    airC: mean(air),
    airMinC: air.length > 0 ? Math.min(...air) : null,
    airMaxC: air.length > 0 ? Math.max(...air) : null,
    rainMm: rain.length > 0 ? sum(rain) : null,
    solarWm2: mean(of(table.shortwave)),
    dewPointC: mean(whole(dewPointsC(table, from, to))),
    windMs: mean(of(table.wind)),
    cloudPct: mean(of(table.cloud)),
    forecastHours: table.air
      .endsWithin(from, to)
      .filter((end) => table.air.originAt(end)?.kind === 'forecast').length,
  };
}

function dewPointsC({ air, humidity }: WeatherTable, fromMs: number, toMs: number): number[] {
  return air.endsWithin(fromMs, toMs).flatMap((end) => {
    const [airC, percent] = [air.at(end), humidity.at(end)];
    return airC === undefined || percent === undefined
      ? []
      : [dewPointC(airC, Math.min(100, Math.max(1, percent)))];
  });
}
