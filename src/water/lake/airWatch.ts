/** Readings that are looked at together, within at most this many days. */
const READINGS = 7;
const WITHIN_DAYS = 14;
/** Air that varied less than this cannot tell, K; share of its variance that a reading beside it may keep. */
const AIR_SD_C = 1.5;
const LIKE_AIR = 0.1;
/** Mean difference to the air beyond which a thermometer hangs somewhere else, K. */
const FROM_AIR_C = 4;

interface Pair {
  readonly day: number;
  readonly aboveAirC: number;
  readonly airC: number;
}

/**
 * Watches daily readings for a thermometer that has come out of the water: it then goes up and down with the mean air
 * of each day, which water never does by itself.
 */
export class AirWatch {
  private pairs: Pair[] = [];

  /** @returns the day from which the readings follow the air, or undefined */
  judge(day: number, waterC: number, airC: number): number | undefined {
    this.pairs = [...this.pairs.slice(1 - READINGS), { day, aboveAirC: waterC - airC, airC }];
    const first = this.pairs[0];
    if (first === undefined || this.pairs.length < READINGS || day - first.day > WITHIN_DAYS)
      return undefined;
    const airVar = variance(this.pairs.map((pair) => pair.airC));
    const above = this.pairs.map(({ aboveAirC }) => aboveAirC);
    const follows =
      airVar > AIR_SD_C ** 2 &&
      variance(above) < LIKE_AIR * airVar &&
      Math.abs(above.reduce((sum, value) => sum + value, 0) / READINGS) < FROM_AIR_C;
    return follows ? first.day : undefined;
  }
}

function variance(values: readonly number[]): number {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  return values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / values.length;
}
