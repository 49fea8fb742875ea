/** What is not known of the weather: how old it is, where its hours end, which are missing. */
import { HOUR_MS, localHourAt } from '../../units/time/index.ts';
import type { GapFact, WeatherPartName } from '../facts.ts';
import type { Freshness, Gap } from '../types.ts';
import { ENOUGH } from './days.ts';
import type { HourSeries } from './hourly.ts';
import type { WeatherTable } from './table.ts';

/** Hours ahead in which a part of the weather must be known somewhere. */
const AHEAD_H = 18;
/** Hours ahead that a forecast must reach to be one of the day. */
const THROUGH_H = 12;
/** Hours ahead in which a forecast goes on behind a hole. */
const BEYOND_H = 48;
/** Hours behind of which daily figures are made. */
const BEHIND_H = 72;

/** What a page tells of the weather in any case. */
const TOLD = ['air', 'wind', 'rain', 'cloud'] as const;

const asGap = (fact: GapFact): Gap => ({ id: 'weather', fact });

/** Each reason once, whatever rests on it. */
export function weatherGaps(
  asOfMs: number,
  zone: string,
  { table, freshness }: { readonly table: WeatherTable; readonly freshness: Freshness },
): Gap[] {
  if (table.lastMs === null) return [asGap({ code: 'noWeather' })];
  const age = ageGap(asOfMs, table.lastMs, freshness);
  if (freshness === 'stale') return age;
  const lacking = TOLD.filter((part) => endOf(table[part], asOfMs, AHEAD_H) === undefined);
  return [
    ...age,
    ...(lacking.length > 0 ? [asGap({ code: 'weatherLacks', parts: lacking })] : []),
    ...ending(table, asOfMs, zone),
    ...holes(table, asOfMs),
    ...rainGaugeHole(table, asOfMs),
  ];
}

function ageGap(asOfMs: number, lastMs: number, freshness: Freshness): Gap[] {
  if (freshness === 'fresh') return [];
  const code = freshness === 'stale' ? 'weatherTooOld' : 'weatherAgeing';
  return [asGap({ code, ageMs: asOfMs - lastMs })];
}

/** End of the last hour that is known from now on, of so many; undefined where none is. */
const endOf = (series: HourSeries, asOfMs: number, hours: number): number | undefined =>
  series.endsWithin(asOfMs - HOUR_MS, asOfMs + hours * HOUR_MS).at(-1);

/** Parts that are known now and not through the day; the first end stands for all of them. */
function ending(table: WeatherTable, asOfMs: number, zone: string): Gap[] {
  const signs = [table.thunder, table.weatherCode, table.cape].flatMap(
    (series) => endOf(series, asOfMs, BEYOND_H) ?? [],
  );
  const ends = [
    ...TOLD.map((part) => ({ part, endMs: endOf(table[part], asOfMs, BEYOND_H) })),
    { part: 'thunder' as const, endMs: signs.length === 0 ? undefined : Math.max(...signs) },
  ].flatMap(({ part, endMs }): { part: WeatherPartName; endMs: number }[] =>
    endMs === undefined || endMs >= asOfMs + THROUGH_H * HOUR_MS ? [] : [{ part, endMs }],
  );
  if (ends.length === 0) return [];
  const endMs = Math.min(...ends.map((end) => end.endMs));
  return [
    asGap({
      code: 'weatherEnds',
      parts: ends.map(({ part }) => part),
      hour: localHourAt(endMs, zone),
      reachesAhead: endMs > asOfMs,
    }),
  ];
}

/** Parts of whose hours behind too many are missing for figures of days. */
function holes(table: WeatherTable, asOfMs: number): Gap[] {
  const missing = TOLD.flatMap((part) => {
    const known = table[part].endsWithin(asOfMs - BEHIND_H * HOUR_MS, asOfMs).length;
    return known === 0 || known >= ENOUGH * BEHIND_H ? [] : [{ part, hours: BEHIND_H - known }];
  });
  if (missing.length === 0) return [];
  const hours = Math.round((24 * Math.max(...missing.map((one) => one.hours))) / BEHIND_H);
  return [asGap({ code: 'weatherHoles', parts: missing.map(({ part }) => part), hours })];
}

/** A gauge that was silent between two of its own hours: the model fills the sum, and may not have seen the storm. */
function rainGaugeHole({ rain }: WeatherTable, asOfMs: number): Gap[] {
  const ends = rain.endsWithin(asOfMs - BEHIND_H * HOUR_MS, asOfMs);
  const isOwn = (endMs: number): boolean => rain.originAt(endMs)?.kind === 'observed';
  const own = ends.filter(isOwn);
  const [first, last] = [own[0], own.at(-1)];
  if (first === undefined || last === undefined) return [];
  const filled = ends.filter((endMs) => endMs > first && endMs < last && !isOwn(endMs));
  if (filled.length === 0) return [];
  const modelMm = filled.reduce((sum, endMs) => sum + (rain.at(endMs) ?? 0), 0);
  return [asGap({ code: 'rainGaugeHole', hours: filled.length, modelMm })];
}
