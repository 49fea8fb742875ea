import type { Refusal, WaterKind } from './refusal.ts';

/** A thermometer that repeats itself this often, over at least as many days ... */
const REPEATS = 5;
/** ... while the modelled water moved this far, is stuck; ice holds real water near 0 degC. */
const MODEL_MOVED_C = 2.5;
const ICE_C = 1.5;

/** Watches a series for a value that stays the same although the water moved. */
export class StuckWatch {
  private valueC = Number.NaN;
  private since = 0;
  private repeats = 0;
  private modelLowC = 0;
  private modelHighC = 0;

  constructor(private readonly water: WaterKind) {}

  /** @returns the reason to refuse the value, or undefined */
  judge(day: number, waterC: number, modelC: number): Refusal | undefined {
    if (waterC !== this.valueC) {
      this.valueC = waterC;
      this.since = day;
      this.repeats = 1;
      this.modelLowC = this.modelHighC = modelC;
      return undefined;
    }
    this.repeats++;
    this.modelLowC = Math.min(this.modelLowC, modelC);
    this.modelHighC = Math.max(this.modelHighC, modelC);
    if (this.repeats < REPEATS || waterC < ICE_C || this.modelHighC - this.modelLowC < MODEL_MOVED_C)
      return undefined;
    return {
      code: 'stuck',
      waterC,
      days: day - this.since,
      water: this.water,
      movedC: this.modelHighC - this.modelLowC,
    };
  }
}
