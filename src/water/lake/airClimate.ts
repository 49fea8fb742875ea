import { at } from '../series.ts';
/** Mean and annual wave of the air temperature: air = meanC + cosC cos(w) + sinC sin(w). */
export interface AirWave {
  readonly meanC: number;
  readonly cosC: number;
  readonly sinC: number;
}

/** Weather noise about the annual wave, K2, times the days it takes to forget a day. */
const NOISE_VAR = 16 * 5;
const MEAN_VAR = 16;
const WAVE_VAR = 9;

/**
 * Learns the annual wave of air temperature day by day, starting from what the latitude alone suggests.
 * The start (16 degC at 35 degrees, 0.42 K colder per degree poleward, half-range 10 K, warmest about 20 July)
 * is a coarse zonal mean from memory; it only matters where a record starts or restarts.
 */
export class AirClimate {
  private readonly xx = new Float64Array(9);
  private readonly xy = new Float64Array(3);

  constructor(latDeg: number) {
    const south = latDeg < 0 ? -1 : 1;
    const peak = (2 * Math.PI * 201) / 365.25;
    const prior = Float64Array.of(
      16 - 0.42 * (Math.abs(latDeg) - 35),
      10 * south * Math.cos(peak),
      10 * south * Math.sin(peak),
    );
    [MEAN_VAR, WAVE_VAR, WAVE_VAR].forEach((variance, i) => {
      this.xx[i * 4] = NOISE_VAR / variance;
      this.xy[i] = (NOISE_VAR / variance) * at(prior, i);
    });
  }

  learn(cos: number, sin: number, airC: number): void {
    const h = Float64Array.of(1, cos, sin);
    for (let i = 0; i < 3; i++) {
      this.xy[i] = at(this.xy, i) + at(h, i) * airC;
      for (let j = 0; j < 3; j++) this.xx[i * 3 + j] = at(this.xx, i * 3 + j) + at(h, i) * at(h, j);
    }
  }

  wave(): AirWave {
    const [a, b, c] = [at(this.xx, 0), at(this.xx, 1), at(this.xx, 2)];
    const [e, f, i] = [at(this.xx, 4), at(this.xx, 5), at(this.xx, 8)];
    const [p, q, r] = [at(this.xy, 0), at(this.xy, 1), at(this.xy, 2)];
    const determinant = a * (e * i - f * f) - b * (b * i - f * c) + c * (b * f - e * c);
    const meanC = (p * (e * i - f * f) - b * (q * i - f * r) + c * (q * f - e * r)) / determinant;
    const cosC = (a * (q * i - f * r) - p * (b * i - f * c) + c * (b * r - q * c)) / determinant;
    const sinC = (a * (e * r - q * f) - b * (b * r - q * c) + p * (b * f - e * c)) / determinant;
    return { meanC, cosC, sinC };
  }
}
