/** How much rain, how warm it fell, how long ago, what is to come, and whether a clear cold night has come since. */
import { wetBulbC } from '../../science/index.ts';
import { addDays, DAY_MS, HOUR_MS, localDateAt, startOfDayMs } from '../../units/time/index.ts';
import { figure, mean, ramp, signalsFrom, sum, type Provenance } from '../figure.ts';
import type { SignalId, Signals } from '../types.ts';
import type { WeatherTable } from './table.ts';

/** A fall is worth a clock from 2 mm on; drops within six hours belong to the same fall. */
const FALL_MM = 2;
const FALL_GAP_H = 6;

/** End of the last fall of 2 mm or more before `nowMs`; null when there was none in ten days. */
function lastFallEndMs(table: WeatherTable, nowMs: number): number | null {
  const hours: { end: number; mm: number }[] = [];
  for (let end = Math.floor(nowMs / HOUR_MS) * HOUR_MS; end > nowMs - 10 * DAY_MS; end -= HOUR_MS) {
    // An hour that is not known counts as dry: no fall is invented.
    const mm = table.rain.at(end) ?? 0;
    if (mm >= 0.1) hours.push({ end, mm });
  }
  let fallEnd: number | null = null;
  let total = 0;
  let previous: number | null = null;
  for (const { end, mm } of hours) {
    if (fallEnd === null || previous === null || previous - end > FALL_GAP_H * HOUR_MS) {
      fallEnd = end;
      total = 0;
    }
    total += mm;
    previous = end;
    if (total >= FALL_MM) return fallEnd;
  }
  return null;
}

/** 0 no, 1 yes: a clear night colder than the water has come since the rain, which cools a shallow pocket fastest. */
function clearColdNight(
  table: WeatherTable,
  zone: string,
  sinceMs: number,
  nowMs: number,
  waterC: number | null,
): number | null {
  if (waterC === null) return null;
  let strongest = 0;
  let seen = false;
  for (
    let date = localDateAt(sinceMs, zone);
    startOfDayMs(date, zone) - 4 * HOUR_MS < nowMs;
    date = addDays(date, 1)
  ) {
    const midnight = startOfDayMs(date, zone);
    const from = Math.max(sinceMs, midnight - 4 * HOUR_MS);
    const to = Math.min(nowMs, midnight + 6 * HOUR_MS);
    const air = table.air.within(from, to);
    const cloud = mean(table.cloud.within(from, to));
    if (air.length < 6 || cloud === null) continue;
    seen = true;
    strongest = Math.max(strongest, Math.min(ramp(cloud, 70, 30), ramp(waterC - Math.min(...air), 2, 8)));
  }
  return seen ? strongest : 0;
}

/**
 * Signals of the rain; a sum needs eleven twelfths of its hours.
 *
 * @param waterC water temperature that a night's cold is held against, degC; null where unknown
 */
export function rainSignals(
  table: WeatherTable,
  zone: string,
  nowMs: number,
  from: Provenance,
  waterC: number | null,
): Signals {
  const { signals, put } = signalsFrom(from);
  const putFrom = (id: SignalId, value: number, provenance: Partial<Provenance>): void => {
    const made = figure(value, { ...from, ...provenance });
    if (made) signals[id] = made;
  };
  for (const [id, hours] of [
    ['rain24Mm', 24],
    ['rain72Mm', 72],
    ['rain7dMm', 168],
  ] as const) {
    const ends = table.rain.endsWithin(nowMs - hours * HOUR_MS, nowMs);
    if (ends.length < hours * (11 / 12)) continue;
    // Model rain is never called observed: one hour of it makes the whole sum an estimate.
    const origins = ends.map((end) => table.rain.originAt(end));
    const isMeasured = origins.every((origin) => origin?.kind === 'observed' || origin?.kind === 'analysis');
    putFrom(id, sum(table.rain.within(nowMs - hours * HOUR_MS, nowMs)), {
      kind: isMeasured ? 'observed' : from.kind === 'forecast' ? 'forecast' : 'estimated',
      ...(isMeasured ? { source: { code: 'rainMeasured', service: origins[0]?.source ?? '' } } : {}),
    });
  }
  for (const [id, hours] of [
    ['rainNext24Mm', 24],
    ['rainNext72Mm', 72],
  ] as const) {
    const rain = table.rain.within(nowMs, nowMs + hours * HOUR_MS);
    if (rain.length >= hours * (11 / 12)) putFrom(id, sum(rain), { kind: 'forecast' });
  }
  let weight = 0;
  let air = 0;
  let wet = 0;
  for (let end = Math.floor(nowMs / HOUR_MS) * HOUR_MS; end > nowMs - 72 * HOUR_MS; end -= HOUR_MS) {
    // Not known is no rain to weigh.
    const mm = table.rain.at(end) ?? 0;
    const airC = table.air.at(end);
    const humidity = table.humidity.at(end);
    if (mm <= 0 || airC === undefined || humidity === undefined) continue;
    weight += mm;
    air += mm * airC;
    wet += mm * wetBulbC(Math.min(50, Math.max(-20, airC)), Math.min(99, Math.max(5, humidity)));
  }
  if (weight >= 1) {
    put('rainAirC', air / weight);
    put('rainWetBulbC', Math.min(air, wet) / weight);
  }
  const end = lastFallEndMs(table, nowMs);
  if (end !== null && signals.rain72Mm) {
    put('hoursSinceRain', (nowMs - end) / HOUR_MS);
    put('clearColdNightSinceRain', clearColdNight(table, zone, end, nowMs, waterC));
  }
  return signals;
}
