import type { DateTime } from 'luxon';
import { describe, expect, it } from 'vitest';
import type { PocketConfig } from '../../src/config/types.ts';
import { readSignals, type PocketReport } from '../../src/signals/index.ts';
import { localHourAt } from '../../src/units/time/localTime.ts';
import { expandQuantities } from '../../src/units/placeholder.ts';
import { say, wordsFor } from '../../src/words/index.ts';
import { gauge, recordView, testLake, type HourWeather } from '../helpers/weatherRecord.ts';

const [north] = testLake.pockets;
const draw: PocketConfig = { ...north!, curveNumber: 88 };
const cove: PocketConfig = { ...north!, id: 'cove', name: 'South Cove', watershedKm2: 0.3 };
const shapeless: PocketConfig = { id: 'shapeless', name: 'West Slough', landCover: 'mixed' };
const lake = { ...testLake, pockets: [draw, cove, shapeless] };

interface Spell {
  /** The morning, 05:15 at the lake. */
  readonly asOf: string;
  readonly lakeC: number;
  readonly weather: (local: DateTime) => Partial<HourWeather>;
}
/** By local days before the morning: mm of rain between two hours. */
const rainOf = (local: DateTime, date: string, fromHour: number, toHour: number, mm: number): number =>
  local.toISODate() === date && local.hour >= fromHour && local.hour < toHour ? mm / (toHour - fromHour) : 0;
const light = (local: DateTime): number => Math.max(0, Math.sin(((local.hour - 6) / 12) * Math.PI));

function told({ asOf, lakeC, weather }: Spell): Record<'draw' | 'cove' | 'shapeless', PocketReport> {
  const extra = gauge('water_temp', Date.parse(asOf), 30, () => lakeC);
  const { pockets } = readSignals(recordView({ asOf, pastDays: 45, weather, extra }), lake);
  const of = (id: string): PocketReport => pockets.find((pocket) => pocket.id === id)!;
  return { draw: of('draw'), cove: of('cove'), shapeless: of('shapeless') };
}
const words = ({ story }: PocketReport): string =>
  expandQuantities(story.map((fact) => say(wordsFor('en').pockets.fact, fact)).join(' '), 'metric');

/** 60 mm of rain at 12 degC before noon and after it on a lake of 24, on ground that an earlier rain wetted. */
const coldSummerRain = () =>
  told({
    asOf: '2026-07-06T10:15:00Z',
    lakeC: 24,
    weather: (local) => {
      const rain = rainOf(local, '2026-07-05', 2, 24, 60) + rainOf(local, '2026-07-02', 0, 10, 40);
      return rain > 0
        ? { air: 12, humidity: 98, cloud: 100, rain, sun: 30 }
        : { air: 16 + 3 * light(local), humidity: 80, cloud: 80, rain, sun: 300 * light(local) };
    },
  });

/** 60 mm of warm rain in March, then how the days and nights after it are. */
const springRain = (date: string, after: Partial<Record<'nightC' | 'sun' | 'cloud' | 'wind', number>>) =>
  told({
    asOf: '2026-03-06T11:15:00Z',
    lakeC: 8,
    weather: (local) => {
      const rain = rainOf(local, date, 8, 20, 60) + rainOf(local, '2026-03-01', 0, 10, 40);
      const { nightC = 9, sun = 100, cloud = 90, wind = 3 } = after;
      return rain > 0
        ? { air: 15, humidity: 98, cloud: 100, rain, sun: 30 }
        : { air: nightC + 6 * light(local), humidity: 60, cloud, wind, rain, sun: sun * light(local) };
    },
  });
const warmRain = () => springRain('2026-03-05', {});
const clearNights = () => springRain('2026-03-04', { nightC: 0, sun: 750, cloud: 0, wind: 5 });
const dryLand = () =>
  told({
    asOf: '2026-03-06T11:15:00Z',
    lakeC: 8,
    weather: (local) => ({
      air: 9 + 4 * light(local),
      sun: 400 * light(local),
      rain: rainOf(local, '2026-03-05', 8, 12, 6.35),
    }),
  });
/** Clear frost on a lake that is still mild. */
const frost = () =>
  told({
    asOf: '2026-02-12T11:15:00Z',
    lakeC: 9,
    weather: (local) => ({
      air: -8 + 9 * light(local),
      humidity: 40,
      sun: 750 * light(local),
      cloud: 0,
      wind: 2,
    }),
  });

describe('cold rain on a warm lake', () => {
  it('that ran in and sank is told although the surface is like the lake, and as gone where its effect is', () => {
    const { draw, cove } = coldSummerRain();
    expect(Math.abs(draw.minusMainC.value)).toBeLessThan(0.4);
    expect(draw).toMatchObject({ buoyant: false, renewedShare: 1 });
    expect(words(draw)).toMatch(
      /^At the surface about the temperature of the main lake: colder runoff renewed all of its water and sank below\. Half of the runoff’s effect should be gone in about \d+ hours\.$/,
    );
    expect(words(cove)).toMatch(
      /^About the temperature of the main lake: colder runoff renewed about 35.?% of its water and sank, but its effect is gone\.$/,
    );
  });
});

describe('the cause of a warm pocket', () => {
  it('is the runoff where the storm makes at least half of the difference; then no hour is told as colder', () => {
    const { draw } = warmRain();
    expect(words(draw)).toMatch(
      /warmer than the main lake at its warmest hour: warmer runoff renewed all of its water and stayed on top\. Half of the runoff’s effect should be gone in about \d+ hours\.$/,
    );
    expect(draw.coldest?.minusMainC).toBeGreaterThan(0);
    expect(words(draw)).not.toMatch(/Near|colder/);
  });

  it('is not the runoff after clear nights that ended its effect, however much ran in', () => {
    const { cove } = clearNights();
    expect(cove.renewedShare).toBeGreaterThan(0.9);
    expect(cove.minusMainC.value).toBeGreaterThan(0.5);
    expect(words(cove)).toMatch(
      /at its warmest hour: sun and air warm shallow water faster\. Warmer runoff renewed all of its water, but its effect is gone\.$/,
    );
  });

  it('is not the runoff of a quarter inch that nothing ran off, of which nobody knows where the shape is not configured', () => {
    const { draw, shapeless } = dryLand();
    expect(words(draw)).toMatch(
      /: sun and air warm shallow water faster\. The 6 mm of rain renewed hardly any of its water\.$/,
    );
    expect(words(shapeless)).toMatch(
      /How much of the 6 mm of rain ran into it is not known\. Coarse class: its watershed or depth is not configured\.$/,
    );
  });
});

it('the coldest hour is told with its clock time and cause where it is a kelvin and more below the lake', () => {
  const { cove } = frost();
  const { coldest } = cove;
  expect(coldest?.minusMainC).toBeLessThan(-1);
  const hour = String(Math.floor(localHourAt(coldest?.atMs ?? NaN, lake.zone))).padStart(2, '0');
  expect(words(cove)).toMatch(
    new RegExp(
      `Near ${hour}:00 it should be ${Math.abs(coldest?.minusMainC ?? NaN).toFixed(1)} °C colder than the lake: shallow water cools at night\\.$`,
    ),
  );
});

describe.each([
  ['cold rain in summer', coldSummerRain],
  ['warm rain in spring', warmRain],
  ['clear nights after it', clearNights],
  ['a dry land', dryLand],
  ['frost', frost],
])('the words of %s', (_, spell) => {
  it('make sentences below 26 words with the name of the pocket, and no claim for one of unknown shape', () => {
    const pockets = spell();
    for (const pocket of Object.values(pockets))
      for (const sentence of `${pocket.name}: ${words(pocket)}`.split(/(?<=\.)\s/))
        expect(sentence.split(/\s+/).length, sentence).toBeLessThan(26);
    expect(words(pockets.shapeless)).not.toMatch(/hardly any/);
  });
});
