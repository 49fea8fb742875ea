/** Light and wind of the fishing day: from civil dawn to civil dusk. */
import type { LakeConfig } from '../../config/index.ts';
import { addDays, dayNumber, dayOfYear, HOUR_MS, localDateAt } from '../../units/time/index.ts';
import { clearSkyWm2, dayLengthH, sunPosition } from '../../science/index.ts';
import { mean, signalsFrom, sum, type Provenance } from '../figure.ts';
import type { Signals } from '../types.ts';
import type { HourSeries, WeatherTable } from '../weather/index.ts';
import { fishingDay, hourEndsOf } from './sun.ts';

/**
 * Light, wind, cloud and thunder of the fishing day. A mean or a highest value needs five sixths of the day's hours.
 *
 * @param from how the weather is known
 */
export function skySignals(table: WeatherTable, lake: LakeConfig, nowMs: number, from: Provenance): Signals {
  const date = localDateAt(nowMs, lake.zone);
  const almanac = signalsFrom({
    kind: 'estimated',
    asOfMs: nowMs,
    freshness: 'fresh',
    source: { code: 'sunAndCalendar' },
  });
  const lengthOf = (day: string): number => dayLengthH(lake.latDeg, dayOfYear(dayNumber(day)));
  almanac.put('dayLengthH', lengthOf(date));
  almanac.put('dayLengthChangeHPerWeek', lengthOf(date) - lengthOf(addDays(date, -7)));
  const { signals, put } = signalsFrom({ ...from, kind: 'forecast' });

  const { dawnMs: dawn, duskMs: dusk } = fishingDay(lake, date);
  const needed = ((dusk - dawn) / HOUR_MS) * (5 / 6);
  const day = (series: HourSeries): number[] => {
    const values = series.within(dawn, dusk);
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

  const lit = hourEndsOf(date, lake.zone).filter((end) => end > dawn && end <= dusk + HOUR_MS);
  const clear = sum(
    lit.map((end) => clearSkyWm2(sunPosition(lake.latDeg, lake.lonDeg, end - HOUR_MS / 2).altitudeDeg)),
  );
  const shining = day(table.shortwave);
  if (shining.length > 0 && clear > 0) put('clearSkyShare', Math.min(1, sum(shining) / clear));
  if (cloud.length > 0) {
    const low = lit.filter((end) => {
      const altitude = sunPosition(lake.latDeg, lake.lonDeg, end - HOUR_MS / 2).altitudeDeg;
      // An hour whose cloud is not known counts as open: low light is claimed only where something says so.
      return altitude < 6 || (table.cloud.at(end) ?? 0) >= 85;
    });
    // A day without an hour of light has no share of it: not a number, and left out.
    put('lowLightShare', low.length / lit.length);
  }
  return { ...almanac.signals, ...signals };
}
