/** Black bass the advice tells apart; `mixed` where a lake holds several. */
export const SPECIES = ['largemouth', 'spotted', 'smallmouth', 'mixed'] as const;
export type Species = (typeof SPECIES)[number];
