/** Squared standardised difference beyond which a reading is doubted and counts for less: five standard errors. */
export const DOUBTED_Z2 = 25;
/** The same beyond which it is left out until another one agrees: eight, for habits of the water reach further than noise. */
export const LEFT_OUT_Z2 = 64;
/** A second reading this close to a doubted one, this soon after it, is believed. */
const AGREEING_C = 1.5;
const AGREEING_DAYS = 10;

/** Remembers the last doubted reading, so that a second one like it is believed: two rarely err alike. */
export class LastDoubt {
  private day = -Infinity;
  private differenceC = 0;

  /**
   * @param day         when it was read, days, ascending from call to call
   * @param differenceC doubted reading minus expectation, K
   * @returns whether the doubted reading before it says the same
   */
  agrees(day: number, differenceC: number): boolean {
    const same = Math.abs(differenceC - this.differenceC) < AGREEING_C && day - this.day <= AGREEING_DAYS;
    this.day = day;
    this.differenceC = differenceC;
    return same;
  }
}
