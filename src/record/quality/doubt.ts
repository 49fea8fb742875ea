/** Why a value is not believed: a code with the numbers that its sentence needs, SI. */
export type Doubt =
  /** The service itself marked the value, in its own words. */
  | { readonly code: 'doubt.stated'; readonly text: string }
  /** Outside what any instrument in working order gives, in the variable's own unit. */
  | { readonly code: 'doubt.impossible'; readonly low: number; readonly high: number }
  | { readonly code: 'doubt.twoDepths' }
  | { readonly code: 'doubt.spike' }
  /** A newest value that jumped: the only doubt that the next value can lift. */
  | { readonly code: 'doubt.unconfirmed' }
  | { readonly code: 'doubt.stuck'; readonly hours: number }
  | { readonly code: 'doubt.duplicateDay' }
  | { readonly code: 'doubt.dryRange'; readonly rangeK: number }
  | { readonly code: 'doubt.tracksAir' }
  /** The zero of the gauge was moved afterwards; the step is null for a day's mean. */
  | { readonly code: 'doubt.datumJump'; readonly stepM: number | null };

/** Doubts that are the same finding, whatever number each value has in it. */
export function sameDoubt(a: Doubt | undefined, b: Doubt | undefined): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}
