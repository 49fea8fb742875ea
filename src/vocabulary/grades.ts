/** How well a rule is founded. */
export const GRADES = ['published-direct', 'published-indirect', 'mixed', 'common-practice'] as const;
export type Grade = (typeof GRADES)[number];
