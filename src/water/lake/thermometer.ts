export interface ThermometerValue {
  readonly atMs: number;
  readonly waterC: number;
  readonly airC?: number;
}

export type ThermometerVerdict = { readonly ok: true } | { readonly ok: false; readonly reason: string };

const HOUR_MS = 3_600_000;
/** Sensors left dry by a falling lake showed daily ranges of 11 to 17 K, sensors in water 0.4 to 3. */
const DRY_RANGE_C = 7;
const STUCK_HOURS = 72;
const STUCK_AIR_RANGE_C = 8;

/**
 * Judges the last days of a sub-daily series: in the water, alive, of water's size.
 *
 * @param values in any order, degC; a day with fewer than 4 values is not judged for its range
 */
export function judgeThermometer(values: readonly ThermometerValue[]): ThermometerVerdict {
  const sorted = values.filter((v) => Number.isFinite(v.waterC)).sort((a, b) => a.atMs - b.atMs);
  const bad = (reason: string): ThermometerVerdict => ({ ok: false, reason });
  const last = sorted.at(-1);
  if (last === undefined) return bad('The thermometer has sent no values.');
  const absurd = sorted.find((v) => v.waterC < -0.5 || v.waterC > 40);
  if (absurd !== undefined)
    return bad(`${absurd.waterC.toFixed(1)} °C cannot be lake water; check the unit.`);
  const day = sorted.filter((v) => v.atMs > last.atMs - 24 * HOUR_MS);
  const range = spread(day.map((v) => v.waterC));
  if (day.length >= 4 && range > DRY_RANGE_C)
    return bad(
      `It moved by ${range.toFixed(1)} K within a day, as air does and lake water does not; it may lie out of the water.`,
    );
  const airGap = day.flatMap((v) => (v.airC === undefined ? [] : [Math.abs(v.waterC - v.airC)]));
  if (airGap.length >= 8 && range > 4 && Math.max(...airGap) < 1.5)
    return bad('It follows the air temperature hour by hour; it may lie out of the water.');
  const run = sorted.filter((v) => v.atMs > last.atMs - STUCK_HOURS * HOUR_MS);
  const spanned = last.atMs - (run[0]?.atMs ?? last.atMs) >= (STUCK_HOURS - 6) * HOUR_MS;
  const air = run.flatMap((v) => (v.airC === undefined ? [] : [v.airC]));
  if (
    spanned &&
    run.length >= 12 &&
    last.waterC > 1.5 &&
    spread(run.map((v) => v.waterC)) === 0 &&
    (air.length < 12 || spread(air) > STUCK_AIR_RANGE_C)
  )
    return bad(`It has shown exactly ${last.waterC.toFixed(1)} °C for three days; it looks stuck.`);
  return { ok: true };
}

function spread(values: readonly number[]): number {
  return values.length === 0 ? 0 : Math.max(...values) - Math.min(...values);
}
