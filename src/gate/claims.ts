import { formatNumber, type QuantityKind } from '../units/index.ts';

/**
 * A figure that a statement tells: which one, of what, in which hours. Two of one thing in the same hours must read
 * alike, or one of the two is wrong.
 */
export interface Claim {
  /** Which figure: `wind`, `top of the depth`. */
  readonly figure: string;
  /** A place by its id, a hazard, or `water`, `air`, `pocket`. */
  readonly of: string;
  readonly fromMs: number;
  readonly toMs: number;
  /** SI, printed as its kind is; or a word or time that is printed as it stands. */
  readonly value: number | string;
  readonly kind: QuantityKind | null;
  /** The statement it stands in. */
  readonly statement: string;
  /** The statement that is dropped is the one with the lower number. */
  readonly weight: number;
}

/** A statement whose figure another, weightier one tells otherwise. */
export interface Disagreement {
  readonly weaker: Claim;
  readonly stronger: Claim;
}

/** What stands on a page of either unit system. */
const printed = ({ value, kind }: Claim): string =>
  typeof value === 'string' || kind === null
    ? String(value)
    : `${formatNumber(value, kind, 'us')} ${formatNumber(value, kind, 'metric')}`;

/**
 * Statements that tell another figure of one thing and hour than a weightier one does, each once.
 *
 * @param claims in the order of the page: of two that weigh the same the earlier stays
 */
export function disagreements(claims: readonly Claim[]): Disagreement[] {
  const standing = new Map<string, Claim>();
  const found = new Map<string, Disagreement>();
  for (const claim of [...claims].sort((a, b) => b.weight - a.weight)) {
    const key = JSON.stringify([claim.figure, claim.of, claim.fromMs, claim.toMs]);
    const first = standing.get(key);
    if (first === undefined) {
      // What is dropped holds nothing against others.
      if (!found.has(claim.statement)) standing.set(key, claim);
    } else if (printed(first) !== printed(claim) && !found.has(claim.statement)) {
      found.set(claim.statement, { weaker: claim, stronger: first });
    }
  }
  return [...found.values()];
}
