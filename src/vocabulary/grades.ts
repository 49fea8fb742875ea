/** How well a rule is founded. */
export const GRADES = [
  'measured',
  'published-direct',
  'published-indirect',
  'mixed',
  'common-practice',
] as const;
export type Grade = (typeof GRADES)[number];
