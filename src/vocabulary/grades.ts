/** How well a rule is founded, the best first. */
export const GRADES = [
  'measured',
  'published-direct',
  'published-indirect',
  'mixed',
  'common-practice',
] as const;
export type Grade = (typeof GRADES)[number];
