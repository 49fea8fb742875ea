/** Farthest back that a day is looked at again, days. */
const FARTHEST_DAYS = 60;

/** Which past days keep a place in a filter, to be corrected by what is read after them. */
export interface HindsightWindow {
  /** Places a filter needs; 0 when nobody asks. */
  readonly places: number;
  /** Place of a day by its index, or null outside the window. */
  readonly placeOf: (j: number) => number | null;
}

/**
 * @param hindsightDays days before the newest with known weather, 0 to 60; 0 or absent: none
 * @param newestKnown   index of that newest day
 */
export function hindsightWindow(hindsightDays: number | undefined, newestKnown: number): HindsightWindow {
  const days = Math.min(FARTHEST_DAYS, Math.max(0, Math.round(hindsightDays ?? 0)));
  const places = days === 0 ? 0 : days + 1;
  return {
    places,
    placeOf: (j) => (j <= newestKnown && newestKnown - j < places ? newestKnown - j : null),
  };
}
