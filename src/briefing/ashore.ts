interface Day {
  readonly safety: { readonly level: number };
  readonly plan?: { readonly blocks: readonly unknown[] } | null | undefined;
}

/**
 * Whether nobody goes out at all: the highest level of danger, and no hours outside the hazard's own. Thunder from two
 * to six leaves the morning.
 */
export const ashoreAllDay = ({ safety, plan }: Day): boolean =>
  safety.level === 4 && (plan?.blocks.length ?? 0) === 0;
