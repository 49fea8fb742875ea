/** Light and wind of the fishing day: from civil dawn to civil dusk. */
import type { LakeConfig } from '../config/types.ts';
import { clearSkyWm2, dayLengthH, sunPosition, sunTimes } from '../science/index.ts';
import { addDays, dayNumber, dayOfYear, HOUR_MS } from '../units/calendar.ts';
import { localDateAt, startOfDayMs } from '../units/localTime.ts';
import { figure, mean, sum, type Provenance } from './figure.ts';
import { hoursWithin } from './hourly.ts';
import type { Figure, HourPoint, SignalId, SignalReport } from './types.ts';
import type { WeatherTable } from './weather.ts';

/** Sun of a local date at the lake; null where it does not rise or set. */
export function sunOf(lake: LakeConfig, date: string): SignalReport['sun'] {
  const noon = startOfDayMs(date, lake.zone) + 12 * HOUR_MS;
  return sunTimes(lake.latDeg, lake.lonDeg, noon);
}

/**
 * The fishing day: civil dawn to civil dusk, or 6 to 18 h after midnight where the sun knows neither (common practice,
 * no source).
 */
export function fishingDay(lake: LakeConfig, date: string): { dawnMs: number; duskMs: number } {
  const { dawnMs, duskMs } = sunOf(lake, date);
  const midnight = startOfDayMs(date, lake.zone);
  return { dawnMs: dawnMs ?? midnight + 6 * HOUR_MS, duskMs: duskMs ?? midnight + 18 * HOUR_MS };
}

function hoursOf(table: WeatherTable, date: string, zone: string): number[] {
  const to = startOfDayMs(addDays(date, 1), zone);
  const ends: number[] = [];
  for (let end = startOfDayMs(date, zone) + HOUR_MS; end <= to; end += HOUR_MS) ends.push(end);
  return ends;
}

/** Today's local hours for the chart of the day. */
export function hourPoints(
  table: WeatherTable,
  lake: LakeConfig,
  date: string,
  pocketMinusMain: (atMs: number) => number | undefined,
): HourPoint[] {
  return hoursOf(table, date, lake.zone).map((atMs) => {
    const take = (series: WeatherTable['air']): number | undefined => series.get(atMs)?.value;
    const entries = {
      airC: take(table.air),
      humidityPct: take(table.humidity),
      windMs: take(table.wind),
      gustMs: take(table.gust),
      windDirDeg: take(table.windDir),
      cloudPct: take(table.cloud),
      rainMm: take(table.rain),
      shortwaveWm2: take(table.shortwave),
      pocketMinusMainC: pocketMinusMain(atMs),
    };
    return {
      atMs,
      sunAltitudeDeg: sunPosition(lake.latDeg, lake.lonDeg, atMs - HOUR_MS / 2).altitudeDeg,
      forecast: (table.air.get(atMs)?.kind ?? 'forecast') === 'forecast',
      ...Object.fromEntries(Object.entries(entries).filter(([, value]) => value !== undefined)),
    };
  });
}

/**
 * Light, wind, cloud and thunder of the fishing day. A mean or a highest value needs five sixths of the day's hours.
 *
 * @param from how the weather is known
 */
export function skySignals(
  table: WeatherTable,
  lake: LakeConfig,
  nowMs: number,
  from: Provenance,
): Partial<Record<SignalId, Figure>> {
  const date = localDateAt(nowMs, lake.zone);
  const signals: Partial<Record<SignalId, Figure>> = {};
  const put = (id: SignalId, value: number | null, kind: Provenance['kind'] = 'forecast'): void => {
    const made = figure(value, { ...from, kind });
    if (made) signals[id] = made;
  };
  const almanac: Provenance = {
    kind: 'estimated',
    asOfMs: nowMs,
    freshness: 'fresh',
    source: 'sun and calendar',
  };
  const length = dayLengthH(lake.latDeg, dayOfYear(dayNumber(date)));
  const lengthFigure = figure(length, almanac);
  if (lengthFigure) signals.dayLengthH = lengthFigure;
  const change = figure(length - dayLengthH(lake.latDeg, dayOfYear(dayNumber(addDays(date, -7)))), almanac);
  if (change) signals.dayLengthChangeHPerWeek = change;

  const { dawnMs: dawn, duskMs: dusk } = fishingDay(lake, date);
  const needed = ((dusk - dawn) / HOUR_MS) * (5 / 6);
  const day = (series: WeatherTable['air']): number[] => {
    const values = hoursWithin(series, dawn, dusk).map((hour) => hour.value);
    return values.length >= needed ? values : [];
  };
  const wind = day(table.wind);
  put('windMs', mean(wind));
  if (wind.length > 0) put('windMaxMs', Math.max(...wind));
  const gust = day(table.gust);
  if (gust.length > 0) put('gustMs', Math.max(...gust));
  const thunder = day(table.thunder);
  if (thunder.length > 0) put('thunderPct', Math.max(...thunder));
  const cloud = day(table.cloud);
  put('cloudPct', mean(cloud));

  const lit = hoursOf(table, date, lake.zone).filter((end) => end > dawn && end <= dusk + HOUR_MS);
  const clear = sum(
    lit.map((end) => clearSkyWm2(sunPosition(lake.latDeg, lake.lonDeg, end - HOUR_MS / 2).altitudeDeg)),
  );
  const shining = day(table.shortwave);
  if (shining.length > 0 && clear > 0) put('clearSkyShare', Math.min(1, sum(shining) / clear));
  if (cloud.length > 0) {
    const low = lit.filter((end) => {
      const altitude = sunPosition(lake.latDeg, lake.lonDeg, end - HOUR_MS / 2).altitudeDeg;
      return altitude < 6 || (table.cloud.get(end)?.value ?? 0) >= 85;
    });
    put('lowLightShare', lit.length === 0 ? null : low.length / lit.length);
  }
  return signals;
}
