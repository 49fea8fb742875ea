/** Hottest and coldest air ever likely at a latitude in a season. */

type Knot = readonly [latDeg: number, airC: number];

/**
 * By degrees from the equator. They hold, with a margin, what the World Weather and Climate Extremes Archive of the World
 * Meteorological Organization and national services list (`tests/science/air-range.published.test.ts`); their shape is
 * common practice, no source.
 */
const SUMMER_HIGH: readonly Knot[] = [
  [0, 58],
  [40, 58],
  [50, 53],
  [60, 46],
  [68, 41],
  [90, 25],
];
const WINTER_HIGH: readonly Knot[] = [
  [0, 52],
  [15, 50],
  [25, 45],
  [30, 42],
  [35, 39],
  [40, 34],
  [45, 30],
  [50, 26],
  [60, 23],
  [70, 18],
  [90, 10],
];
const SUMMER_LOW: readonly Knot[] = [
  [0, -30],
  [60, -30],
  [75, -60],
  [90, -70],
];
const WINTER_LOW: readonly Knot[] = [
  [0, -30],
  [20, -38],
  [30, -46],
  [40, -62],
  [50, -72],
  [72, -75],
  [80, -95],
  [90, -95],
];

function between(knots: readonly Knot[], latDeg: number): number {
  let [lowLat, lowC] = knots[0] ?? [0, 0];
  for (const [lat, airC] of knots) {
    if (lat >= latDeg)
      return lat === lowLat ? airC : lowC + ((airC - lowC) * (latDeg - lowLat)) / (lat - lowLat);
    [lowLat, lowC] = [lat, airC];
  }
  return lowC;
}

/** Day of the year about which the air is warmest in the north: 20 July. */
const WARMEST_DAY = 201;
const YEAR_DAYS = 365.25;

/** Lowest and highest of a day of the year, 1 to 366, degC. */
export type AirRange = (dayOfYear: number) => readonly [lowC: number, highC: number];

/**
 * Range of air temperature beyond which a value is another unit or another place, degC. Wide on purpose: a record that
 * falls must not be refused.
 *
 * @param latDeg latitude, degrees, -90 to 90
 * @returns the range by the day: a place's many hours share what hangs on its latitude
 * @throws RangeError for a latitude outside its range
 * @example airRangesC(36)(330) // [-53, 43]
 */
export function airRangesC(latDeg: number): AirRange {
  if (!(latDeg >= -90 && latDeg <= 90)) throw new RangeError(`latDeg must be -90 to 90, got ${latDeg}`);
  const away = Math.abs(latDeg);
  const turn = latDeg < 0 ? Math.PI : 0;
  const [winterLow = NaN, summerLow = NaN, winterHigh = NaN, summerHigh = NaN] = [
    WINTER_LOW,
    SUMMER_LOW,
    WINTER_HIGH,
    SUMMER_HIGH,
  ].map((knots) => between(knots, away));
  return (dayOfYear) => {
    const warmth = (1 + Math.cos((2 * Math.PI * (dayOfYear - WARMEST_DAY)) / YEAR_DAYS + turn)) / 2;
    const mixed = (winter: number, summer: number): number => (1 - warmth) * winter + warmth * summer;
    return [mixed(winterLow, summerLow), mixed(winterHigh, summerHigh)];
  };
}
