/** From a lake's outings to proposals: what the shipped rules said of each place on its morning, and a patch to paste. */
import { advise, type PositionAdvice } from '../../advice/index.ts';
import type { LakeConfig, PositionRules, RuleBook } from '../../config/index.ts';
import { instantOf } from '../../units/time/index.ts';
import { learnFrom, type Learnt, type LearnRow, type RuleProposal } from '../../outings/index.ts';
import { outingsOf, type Outing } from '../../record/index.ts';
import { ATTRIBUTIONS } from '../../services/index.ts';
import { readSignals } from '../../signals/index.ts';
import type { PipelineContext } from '../context.ts';
import { briefingView } from '../makeBriefing.ts';

/** Rules that were fitted to fish counted by surveys are held this much more tightly: outings must outweigh them. */
const HELD_BY_SURVEYS = 2;

export interface LearntOfLake extends Learnt {
  /** Outings left out: at no or several kinds of place, or of a morning of which the record knows nothing. */
  readonly severalPlaces: number;
  readonly noMorning: number;
  /** From the first to the last outing that counted; null without any. */
  readonly span: { readonly from: string; readonly to: string } | null;
}

/** All kinds of place under the given rules as the briefing of that morning would have had them; null where nothing was known. */
async function morningOf(
  ctx: PipelineContext,
  lake: LakeConfig,
  date: string,
  rules: RuleBook,
): Promise<readonly PositionAdvice[] | null> {
  const view = await briefingView(ctx.record, lake, instantOf(date, lake.issueAt, lake.zone), {
    archive: true,
  });
  const { conditions, hours } = readSignals(view, lake, ATTRIBUTIONS);
  // Without the water there is no season, and most rules are silent: such a morning says nothing of their weights.
  const { waterC } = conditions.signals;
  if (waterC === undefined || waterC.freshness === 'stale') return null;
  return advise(conditions, rules, {
    tackle: ctx.config.tackle,
    hours,
    points: lake.points,
    ...(lake.places === undefined ? {} : { places: lake.places }),
  }).positions;
}

/** A rule's weight of the largest size, which its share is measured by. */
function strongestOf(rules: PositionRules): ReadonlyMap<string, number> {
  return new Map(
    rules.modifiers.map(({ id, points }) => [
      id,
      Object.values(points).reduce((most, one) => (Math.abs(one) > Math.abs(most) ? one : most), 0),
    ]),
  );
}

function rowOf(outing: Outing, position: PositionAdvice, strongest: ReadonlyMap<string, number>): LearnRow {
  const parts = position.evidence.flatMap(({ rule, curve, contribution }) => {
    const most = strongest.get(rule);
    // A base counts by how much of its season the day is; what it is worth may be zero.
    const share = most === undefined ? curve : most === 0 ? 0 : contribution / most;
    return share === 0 ? [] : [{ rule, share }];
  });
  const { fish, hours, readerId: reader } = outing;
  return { fish, hours, reader, points: position.total, parts };
}

/**
 * What a lake's outings say of the shipped rules' weights.
 *
 * @param shipped the rules as shipped: what is already tuned is not learnt twice
 * @param readerId one reader's own outings; left out, those that readers share
 */
export async function learnOfLake(
  ctx: PipelineContext,
  lake: LakeConfig,
  shipped: RuleBook,
  readerId?: string,
): Promise<LearntOfLake> {
  const filter = readerId === undefined ? { sharedOnly: true } : { readerId };
  const outings = await outingsOf(ctx.record, { lake: lake.id, ...filter });
  const strongest = strongestOf(shipped.positions);
  const mornings = new Map<string, readonly PositionAdvice[] | null>();
  const rows: LearnRow[] = [];
  const dates: string[] = [];
  let [severalPlaces, noMorning] = [0, 0];
  for (const outing of outings) {
    const [kind, ...more] = new Set(outing.places.map((place) => place.kind));
    if (kind === undefined || more.length > 0) {
      severalPlaces += 1;
      continue;
    }
    const { date } = outing;
    const positions = mornings.get(date) ?? (await morningOf(ctx, lake, date, shipped));
    mornings.set(date, positions);
    const position = positions?.find(({ place }) => place === kind);
    if (position === undefined) {
      noMorning += 1;
      continue;
    }
    rows.push(rowOf(outing, position, strongest));
    dates.push(date);
    ctx.onProgress?.(`${date}: ${rows.length} outings beside their mornings`);
  }
  const measured = new Set(
    shipped.positions.modifiers.filter(({ grade }) => grade === 'measured').map(({ id }) => id),
  );
  const learnt = learnFrom(rows, readerId === undefined ? 'shared' : 'own', (rule) =>
    measured.has(rule) ? HELD_BY_SURVEYS : 1,
  );
  const [from, to] = [dates[0], dates.at(-1)];
  const span = from === undefined || to === undefined ? null : { from, to };
  return { ...learnt, severalPlaces, noMorning, span };
}

/** A number of the rules with its key as `thresholds` takes it, as shipped and as proposed. */
export interface ProposedNumber {
  readonly key: string;
  readonly was: number;
  readonly value: number;
}

const hundredth = (points: number): number => Math.round(points * 100) / 100;

/** The numbers that a proposal changes: a base, or all weights of a rule in proportion. */
export function numbersOf({ rule, change }: RuleProposal, rules: PositionRules): ProposedNumber[] {
  const [, kind, phase] = /^base\.([^.]+)\.([^.]+)$/.exec(rule) ?? [];
  const place = rules.places.find(({ id }) => id === kind);
  if (place !== undefined && phase !== undefined) {
    const base: Readonly<Record<string, { readonly points: number }>> = place.base;
    const was = base[phase]?.points;
    if (was === undefined) return [];
    return [
      { key: `positions.places.${place.id}.base.${phase}.points`, was, value: hundredth(was + change) },
    ];
  }
  const modifier = rules.modifiers.find(({ id }) => id === rule);
  const most = strongestOf(rules).get(rule) ?? 0;
  if (modifier === undefined || most === 0) return [];
  return Object.entries(modifier.points).map(([id, was]) => ({
    key: `positions.modifiers.${rule}.points.${id}`,
    was,
    value: hundredth(was * (1 + change / most)),
  }));
}
