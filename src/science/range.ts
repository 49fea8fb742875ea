/** Guard shared by the formulas of this room: a number outside its range is a caller's fault, never clipped in silence. */
export function requireRange(name: string, value: number, low: number, high: number): void {
  if (!(value >= low && value <= high)) {
    throw new RangeError(`${name} must be between ${low} and ${high}, got ${value}`);
  }
}
