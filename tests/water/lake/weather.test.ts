/** What each kind of weather does to a lake that nobody reads: signs and limits any lake must keep. */
import { describe, expect, it } from 'vitest';
import { extraterrestrialWm2 } from '../../../src/science/index.ts';
import { dayNumber, dayOfYear } from '../../../src/units/time/calendar.ts';
import { nowcastLake, type LakeSite, type WeatherDay } from '../../../src/water/lake/index.ts';
import { dateAfter, inventedWeather } from './inventedWeather.ts';

const site = { latDeg: 36, meanDepthM: 8, areaKm2: 5 };
const START = '2020-01-01';
/** Ends in November, when water is warmer than the air. */
const DAYS = 680;
const SPELL = 15;
const doyOf = (date: string): number => dayOfYear(dayNumber(date));
const aboveWm2 = (date: string): number => extraterrestrialWm2(site.latDeg, doyOf(date));
const waterC = (weather: readonly WeatherDay[], lake: LakeSite = site): number =>
  nowcastLake(lake, weather, []).days.at(-1)!.waterC;

type Extra = Partial<WeatherDay>;
const invented = inventedWeather(START, DAYS);
/** The invented air with something of its own all along, and another in the last two weeks. */
const spell = (usual: (day: WeatherDay) => Extra, lately = usual): WeatherDay[] =>
  invented.map((day, i) => ({ ...day, ...(i < DAYS - SPELL ? usual : lately)(day) }));

describe('a spell of weather', () => {
  it('with more sun than the place is used to warms the water, with less cools it', () => {
    const under = (share: number): number =>
      waterC(
        spell(
          ({ date }) => ({ solarWm2: 0.45 * aboveWm2(date) }),
          ({ date }) => ({ solarWm2: share * aboveWm2(date) }),
        ),
      );
    expect(under(0.6)).toBeGreaterThan(under(0.45) + 0.2);
    expect(under(0.3)).toBeLessThan(under(0.45) - 0.2);
  });

  it('under the same sky as always leaves the water where it was, however clear that sky is', () => {
    const always = (share: number): number =>
      waterC(spell(({ date }) => ({ solarWm2: share * aboveWm2(date) })));
    // A twelfth of what was assumed of the sky at the start, 60 days' worth, is left after two years.
    expect(Math.abs(always(0.6) - always(0.3))).toBeLessThan(0.2);
    expect(Math.abs(always(0.6) - waterC(invented))).toBeLessThan(0.2);
  });

  it('with warm afternoons and cold nights is taken for a sunny one, and extremes the wrong way round for none', () => {
    const dewPointC = 3;
    const range = (kelvin: number, usual = 8): number =>
      waterC(
        spell(
          ({ airC }) => ({ dewPointC, airMinC: airC! - usual / 2, airMaxC: airC! + usual / 2 }),
          ({ airC }) => ({ dewPointC, airMinC: airC! - kelvin / 2, airMaxC: airC! + kelvin / 2 }),
        ),
      );
    expect(range(20)).toBeGreaterThan(range(8) + 0.2);
    expect(range(2)).toBeLessThan(range(8) - 0.2);
    expect(range(-20)).toBe(
      waterC(
        spell(
          ({ airC }) => ({ dewPointC, airMinC: airC! - 4, airMaxC: airC! + 4 }),
          () => ({ dewPointC }),
        ),
      ),
    );
  });

  it('of dry air cools the water, of moist air does not; where the dew point is missing the night’s lowest stands for it', () => {
    const dew = (belowAirC: number): number =>
      waterC(
        spell(
          ({ airC }) => ({ dewPointC: airC! - 4 }),
          ({ airC }) => ({ dewPointC: airC! - belowAirC }),
        ),
      );
    expect(dew(12)).toBeLessThan(dew(4) - 0.2);
    expect(dew(0)).toBeGreaterThan(dew(4) + 0.1);
    // Fog is as moist as air gets.
    expect(dew(-3)).toBe(dew(0));
    const night = (lowestBelowC: number): number =>
      waterC(
        spell(
          ({ date, airC }) => ({ solarWm2: 0.45 * aboveWm2(date), airMinC: airC! - 4, airMaxC: airC! + 4 }),
          ({ date, airC }) => ({
            solarWm2: 0.45 * aboveWm2(date),
            airMinC: airC! - lowestBelowC,
            airMaxC: airC! + 4,
          }),
        ),
      );
    expect(night(12)).toBeLessThan(night(4) - 0.2);
  });

  it('with more wind cools water that is warmer than the air, and a calm keeps it warm', () => {
    const wind = (windMs: number): number =>
      waterC(
        spell(
          () => ({ windMs: 4 }),
          () => ({ windMs }),
        ),
      );
    expect(wind(8)).toBeLessThan(wind(4) - 0.1);
    expect(wind(0)).toBeGreaterThan(wind(4) + 0.1);
    // A wind below nothing is a broken instrument: as if it had said nothing.
    expect(wind(-3)).toBe(
      waterC(
        spell(
          () => ({ windMs: 4 }),
          () => ({}),
        ),
      ),
    );
    expect(waterC(spell(() => ({ windMs: 4 })))).toBeCloseTo(waterC(spell(() => ({ windMs: 9 }))), 1);
  });

  it('of warm air moves a shallow lake more than a deep one before summer has layered it', () => {
    const rise = (meanDepthM: number, from: number): number => {
      const warm = inventedWeather(START, from + 6).map((day, i) =>
        i < from ? day : { ...day, airC: day.airC! + 6 },
      );
      const lake = { ...site, meanDepthM };
      return waterC(warm, lake) - waterC(inventedWeather(START, from + 6), lake);
    };
    const [march, july] = [440, 565];
    expect(rise(2, march)).toBeGreaterThan(1.5 * rise(8, march));
    expect(rise(8, march)).toBeGreaterThan(1.5 * rise(30, march));
    // In summer only the warm layer is moved, and that is thin over deep water too.
    expect(rise(30, july)).toBeGreaterThan(3 * rise(30, march));
    expect(rise(30, july)).toBeGreaterThan(0.6 * rise(8, july));
  });
});

describe('a climate', () => {
  const lasting = (belowAirC: number, areaKm2: number): number =>
    waterC(
      spell(({ airC }) => ({ dewPointC: airC! - belowAirC })),
      { ...site, areaKm2 },
    );

  it('of dry air keeps a lake colder by the year, however wide it is', () => {
    // 0.17 K a kelvin of dew-point depression (`freeRun.ts`); a dryness of 30 days is known after 2 years.
    for (const areaKm2 of [5, 50, 500, 5000])
      expect(lasting(4, areaKm2) - lasting(12, areaKm2)).toBeCloseTo(8 * 0.17, 1);
  });

  it('whose days differ much makes the days ahead less sure than a steady one', () => {
    const firstForecastDate = dateAfter(START, DAYS - 5);
    const half = (swing: number): number => {
      const weather = invented.map((day, i) => ({
        ...day,
        airC:
          15 + 10 * Math.cos((2 * Math.PI * (doyOf(day.date) - 201)) / 365.25) + swing * Math.sin(i / 2.3),
      }));
      const last = nowcastLake(site, weather, [], { firstForecastDate }).days.at(-1)!;
      const known = nowcastLake(site, weather, []).days.at(-1)!;
      return (last.highC - last.waterC) ** 2 - (known.highC - known.waterC) ** 2;
    };
    // The variance added goes with the square of the spread: three times the swing, nine times the variance.
    expect(half(6) / half(2)).toBeGreaterThan(6);
    expect(half(6) / half(2)).toBeLessThan(10);
  });
});

describe('the first day of a record', () => {
  /** The year that the latitude alone suggests: a zonal mean from memory, as stated in `airClimate.ts`. */
  const usualAirC = (latDeg: number, date: string): number =>
    16 -
    0.42 * (Math.abs(latDeg) - 35) +
    10 * Math.sign(latDeg) * Math.cos((2 * Math.PI * (doyOf(date) - 201)) / 365.25);
  const usual = (latDeg: number, from: string, days: number): WeatherDay[] =>
    Array.from({ length: days }, (_, i) => {
      const date = dateAfter(from, i);
      return { date, airC: usualAirC(latDeg, date) };
    });

  it.each([35, 50, -35])(
    'at %i degrees stands where years of the same usual weather would have brought the lake',
    (latDeg) => {
      const lake = { ...site, latDeg };
      const long = nowcastLake(lake, usual(latDeg, '2018-01-01', 1461), []).days;
      for (const month of ['01', '04', '07', '10']) {
        const date = `2021-${month}-15`;
        const first = nowcastLake(lake, usual(latDeg, date, 2), []).days[0]!;
        expect(Math.abs(first.waterC - long.find((day) => day.date === date)!.waterC)).toBeLessThan(0.3);
      }
    },
  );

  it('is none where nothing is known of the air, and a reading has nothing to be compared with', () => {
    const blind = Array.from({ length: 5 }, (_, i) => ({ date: dateAfter(START, i), airC: null }));
    const reading = { date: START, waterC: 9, depthM: 1, sdC: 0.1, source: 'gauge' as const };
    const { days, seen, refused } = nowcastLake(site, blind, [reading]);
    expect([days, seen]).toEqual([[], []]);
    expect(refused).toEqual([{ reading, reason: { code: 'noWeatherThatDay' } }]);
  });
});
