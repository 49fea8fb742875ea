/** Means over a month; the cold season is when that of the air is below this, melt when it is above the other. */
const MONTH_DAYS = 30;
const COLD_C = 5;
const WARM_C = 8;
/** Cold days needed before the winter flow is known, and how many it remembers. */
const COLD_DAYS_NEEDED = 30;
const COLD_DAYS_KEPT = 730;
/** Melt water has warmed by a third of the way from 0 degC to what a lowland river has (assumption, no source). */
const COOLING = 2 / 3;

/**
 * Share of the flow that snow and ice, or storage filled by them, add in the warm season: what the month's flow has
 * above that of the cold season. Causal; 0 until a cold season has been seen and where there is none.
 */
export class MeltShare {
  private monthFlow = Number.NaN;
  private monthAirC = Number.NaN;
  private winterFlow = Number.NaN;
  private coldDays = 0;

  /** @param flow discharge in any unit, or NaN when missing */
  next(airC: number, flow: number): number {
    const follow = (mean: number, value: number): number =>
      Number.isNaN(mean) ? value : mean + (value - mean) / MONTH_DAYS;
    this.monthAirC = follow(this.monthAirC, airC);
    if (!Number.isNaN(flow)) this.monthFlow = follow(this.monthFlow, flow);
    if (Number.isNaN(this.monthFlow)) return 0;
    if (this.monthAirC < COLD_C && !Number.isNaN(flow)) {
      this.coldDays = Math.min(COLD_DAYS_KEPT, this.coldDays + 1);
      this.winterFlow = Number.isNaN(this.winterFlow)
        ? this.monthFlow
        : this.winterFlow + (this.monthFlow - this.winterFlow) / this.coldDays;
    }
    if (this.monthAirC <= WARM_C || this.coldDays < COLD_DAYS_NEEDED || this.monthFlow <= 0) return 0;
    return Math.max(0, 1 - this.winterFlow / this.monthFlow);
  }
}

/** Temperature of a lowland river once a share of its flow is melt water, degC. */
export function dilutedC(lowlandC: number, meltShare: number): number {
  return lowlandC * (1 - COOLING * meltShare);
}
