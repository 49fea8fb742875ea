import { disagreements, type Claim } from '../gate/index.ts';
import { without } from './without.ts';
import type { Briefing } from './document/briefing.ts';
import type { Statement } from './document/fact.ts';
import type { PlanFacts } from './document/plan.ts';

/** The weightier stays: the row of the table, the hours of a pocket, the sentence about it, a block, the drawing. */
const WEIGHT = { row: 5, pocket: 4, story: 3, block: 2, map: 1 } as const;

const told = (statement: Statement): readonly Readonly<Record<string, unknown>>[] =>
  'told' in statement && Array.isArray(statement.told)
    ? (statement.told as readonly Readonly<Record<string, unknown>>[])
    : [];

/** The estimated depth of the layer that a statement tells, m. */
function layerOf(statement: Statement | undefined): number | undefined {
  const fact = statement !== undefined && 'told' in statement ? statement.told : undefined;
  return typeof fact === 'object' && fact !== null && 'depthM' in fact && typeof fact.depthM === 'number'
    ? fact.depthM
    : undefined;
}

const story = (pocket: number, at: number): string => `story:${pocket}:${at}`;
const drawn = (place: number): string => `map:${place}`;
const layered = (block: number): string => `layer:${block}`;

const planOf = (facts: Briefing): PlanFacts | null => (facts.status === 'nil' ? null : facts.plan);

/** Figures that more than one part of a page tells. */
function claimsOf(facts: Briefing): Claim[] {
  const claims: Claim[] = [];
  const differs = (of: string, atMs: number, value: number, statement: string, weight: number): void => {
    const kind = 'temperatureDifference';
    claims.push({ figure: 'warmestHour', of, fromMs: atMs, toMs: atMs, value, kind, statement, weight });
  };
  const warmestAt = new Map<string, number>();
  for (const [pocket, { name, warmest, sentence }] of facts.pockets.entries()) {
    if (warmest === undefined) continue;
    warmestAt.set(name, warmest.atMs);
    differs(name, warmest.atMs, warmest.minusMainC, `pocket:${pocket}`, WEIGHT.pocket);
    for (const [at, { code, differenceK }] of told(sentence).entries())
      if (code === 'differs' && typeof differenceK === 'number')
        differs(name, warmest.atMs, differenceK, story(pocket, at), WEIGHT.story);
  }
  for (const [place, { named, kind, minusMainC }] of (facts.map?.places ?? []).entries()) {
    const atMs = warmestAt.get(named);
    if (kind === 'pocket' && atMs !== undefined && minusMainC !== undefined)
      differs(named, atMs, minusMainC, drawn(place), WEIGHT.map);
  }
  const depth = (value: number | undefined, statement: string, weight: number): void => {
    if (value === undefined) return;
    const span = { fromMs: facts.issuedMs, toMs: facts.validUntilMs };
    claims.push({ figure: 'depth', of: 'layer', ...span, value, kind: 'depth', statement, weight });
  };
  for (const statement of facts.lakeToday ?? [])
    if ('told' in statement && (statement.told as Partial<Statement> | null)?.code === 'layerEstimate')
      depth(layerOf(statement), 'layer', WEIGHT.row);
  for (const [block, { layer }] of (planOf(facts)?.blocks ?? []).entries())
    depth(layerOf(layer), layered(block), WEIGHT.block);
  return claims;
}

/**
 * A document in which nothing is told by two figures: the weaker of two statements that read differently is left out.
 *
 * @returns what is left, and how many statements are not in it
 */
export function inOneFigure(facts: Briefing): { readonly facts: Briefing; readonly dropped: number } {
  const gone = new Set(disagreements(claimsOf(facts)).map(({ weaker }) => weaker.statement));
  if (gone.size === 0) return { facts, dropped: 0 };
  const pockets = facts.pockets.map((pocket, index) => {
    const kept = told(pocket.sentence).filter((_, at) => !gone.has(story(index, at)));
    return told(pocket.sentence).length === kept.length
      ? pocket
      : { ...pocket, sentence: { ...pocket.sentence, told: kept } };
  });
  const map = facts.map && {
    ...facts.map,
    places: facts.map.places.map((place, index) =>
      gone.has(drawn(index)) ? without(place, 'minusMainC') : place,
    ),
  };
  const base = { pockets, ...(map === undefined ? {} : { map }) };
  const plan = planOf(facts);
  return {
    dropped: gone.size,
    facts:
      facts.status === 'nil' || plan === null
        ? { ...facts, ...base }
        : {
            ...facts,
            ...base,
            plan: {
              ...plan,
              blocks: plan.blocks.map((block, index) =>
                gone.has(layered(index)) ? without(block, 'layer') : block,
              ),
            },
          },
  };
}
