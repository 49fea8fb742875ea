import type { WeatherDay, WaterReading } from '../../../src/water/lake/index.ts';

const MS_PER_DAY = 86_400_000;

export function dateAfter(start: string, days: number): string {
  return new Date(Date.parse(start) + days * MS_PER_DAY).toISOString().slice(0, 10);
}

/** Air temperature of an invented place: an annual wave with weekly weather, warmest in late July (January in the south). */
export function inventedWeather(start: string, days: number, latDeg = 36): WeatherDay[] {
  const south = latDeg < 0 ? 0.5 : 0;
  return Array.from({ length: days }, (_, i) => {
    const date = dateAfter(start, i);
    const year = Date.parse(`${date.slice(0, 4)}-01-01`);
    const share = (Date.parse(date) - year) / MS_PER_DAY / 365.25;
    const seasonal = 15 + 10 * Math.cos(2 * Math.PI * (share - 0.56 - south));
    return { date, airC: seasonal + 4 * Math.sin(i / 2.3) + 2 * Math.sin(i / 7.1) };
  });
}

export function gaugeReading(date: string, waterC: number, more: Partial<WaterReading> = {}): WaterReading {
  return { date, waterC, depthM: 1, sdC: 0.1, source: 'gauge', ...more };
}
