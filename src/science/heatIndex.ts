/**
 * Highest heat index that the regression was fitted to, degF: the hottest entry of the weather service's chart, which
 * ends at 110 degF of air and about 137 degF of index. Beyond it the polynomial runs away.
 */
const HIGHEST_F = 137;

/**
 * Heat index: how warm humid air feels to an adult at rest in the shade with a light wind. Full sun adds up to
 * about 8 K, which this number does not hold.
 *
 * @param airC  air temperature, degC
 * @param rhPct relative humidity, percent, 0 to 100
 * @returns heat index, degC; below about 26 degC it stays near the air temperature; never above 58.3 degC (137 degF),
 *   where the chart ends: it may be hotter than that, and is deadly there already
 * @throws RangeError outside 0 to 100 percent or for a temperature that is not finite
 * @see Rothfusz (1990), NWS Technical Attachment SR 90-23, with the adjustments of the Weather Prediction Center
 * @example heatIndexC(35, 70) // 50.3
 */
export function heatIndexC(airC: number, rhPct: number): number {
  if (!Number.isFinite(airC) || !(rhPct >= 0 && rhPct <= 100)) {
    throw new RangeError(
      'heat index needs a finite air temperature and a humidity between 0 and 100 percent',
    );
  }
  const airF = airC * 1.8 + 32;
  return (heatIndexF(airF, rhPct) - 32) / 1.8;
}

function heatIndexF(t: number, r: number): number {
  const simple = 0.5 * (t + 61 + (t - 68) * 1.2 + r * 0.094);
  const mean = (simple + t) / 2;
  if (mean < 80) return mean;
  const regression =
    -42.379 +
    2.04901523 * t +
    10.14333127 * r -
    0.22475541 * t * r -
    0.00683783 * t * t -
    0.05481717 * r * r +
    0.00122874 * t * t * r +
    0.00085282 * t * r * r -
    0.00000199 * t * t * r * r;
  return Math.min(HIGHEST_F, regression + adjustmentF(t, r));
}

/** The regression is too warm in very dry air and too cool in very moist air. */
function adjustmentF(t: number, r: number): number {
  if (r < 13 && t >= 80 && t <= 112) return -((13 - r) / 4) * Math.sqrt((17 - Math.abs(t - 95)) / 17);
  if (r > 85 && t >= 80 && t <= 87) return ((r - 85) / 10) * ((87 - t) / 5);
  return 0;
}
