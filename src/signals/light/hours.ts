/** The hours of a day, for the chart and for what is planned by them. */
import type { LakeConfig } from '../../config/index.ts';
import { HOUR_MS } from '../../units/time/index.ts';
import { humidityPct, isFogCode, sunPosition } from '../../science/index.ts';
import type { HourPoint } from '../types.ts';
import { stormSign, type HourSeries, type WeatherTable } from '../weather/index.ts';
import { hourEndsOf } from './sun.ts';

/** What other parts know of an hour, by its start. */
export interface HourExtras extends Pick<HourPoint, 'generationOn' | 'generationBy' | 'releaseStart'> {
  readonly pocketMinusMainC?: number | undefined;
}

/** The local hours of a date, each by its start. */
export function hourPoints(
  table: WeatherTable,
  lake: LakeConfig,
  date: string,
  extras: (startMs: number) => HourExtras,
): HourPoint[] {
  return hourEndsOf(date, lake.zone).map((endMs) => {
    const startMs = endMs - HOUR_MS;
    const thunderPct = within(table.thunder, startMs);
    const code = table.weatherCode.at(startMs);
    const entries = {
      airC: table.air.at(startMs),
      humidityPct: table.humidity.at(startMs) ?? humidityOf(table, startMs),
      windMs: table.wind.at(startMs),
      gustMs: within(table.gust, startMs),
      windDirDeg: table.windDir.at(startMs),
      cloudPct: table.cloud.at(startMs),
      rainMm: table.rain.at(endMs),
      shortwaveWm2: table.shortwave.at(endMs),
      thunderPct,
      // A chance that a service gives says more than a sign.
      stormSign: thunderPct === undefined ? stormSign(table, startMs) : undefined,
      fogCode: code === undefined ? undefined : isFogCode(code) ? 1 : 0,
      ...extras(startMs),
    };
    return {
      atMs: startMs,
      sunAltitudeDeg: sunPosition(lake.latDeg, lake.lonDeg, startMs + HOUR_MS / 2).altitudeDeg,
      forecast:
        ((table.air.originAt(startMs) ?? table.wind.originAt(startMs))?.kind ?? 'forecast') === 'forecast',
      ...Object.fromEntries(Object.entries(entries).filter(([, value]) => value !== undefined)),
    };
  });
}

/** A stamp without a value has no period either. */
const isPeriod = (series: HourSeries, stampMs: number): boolean =>
  (series.originAt(stampMs)?.periodS ?? 0) > 0;

/**
 * Highest gust or chance within an hour: some services state it for the hour that ends at the stamp (a period), others
 * for the hour that begins there.
 */
function within(series: HourSeries, startMs: number): number | undefined {
  const endMs = startMs + HOUR_MS;
  if (isPeriod(series, endMs)) return series.at(endMs);
  return isPeriod(series, startMs) ? undefined : series.at(startMs);
}

/** Humidity by the dew point; undefined where that is not known either. */
function humidityOf({ air, dewPoint }: WeatherTable, startMs: number): number | undefined {
  const [airC, dewC] = [air.at(startMs), dewPoint.at(startMs)];
  return airC === undefined || dewC === undefined ? undefined : humidityPct(airC, dewC);
}
