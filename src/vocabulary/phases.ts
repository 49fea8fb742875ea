/** Seasons of the fish, in the order of the year. */
export const PHASES = [
  'winter',
  'early_prespawn',
  'prespawn',
  'spawn',
  'postspawn',
  'summer',
  'early_fall',
  'fall',
  'late_fall',
] as const;
export type PhaseId = (typeof PHASES)[number];
