/** What changed since the last issue: at most three lines, each with the advice it moved. */
import { expandQuantities, quantity } from '../units/placeholder.ts';
import { lowerFirst } from './headline.ts';
import type { Messages } from '../words/index.ts';
import type { BriefingChange, BriefingDocument, BriefingPosition, ConditionRow } from './schema.ts';
import { momentWords } from './when.ts';

/** What the comparison reads of the issue being written. */
export interface ChangeBasis {
  readonly level: number;
  /** Ids of the day's hazards, highest first. */
  readonly hazards: readonly string[];
  readonly conditions: readonly ConditionRow[];
  readonly positions: readonly BriefingPosition[];
}

/** Below this step a figure counts as unchanged, SI (common practice, no source). */
const STEP: Readonly<Record<string, number>> = {
  waterC: 0.6,
  pocketC: 1,
  pocketMinusMainC: 0.8,
  levelM: 0.1,
  level24hM: 0.1,
  dischargeM3s: 15,
  rain24Mm: 6,
  rain72Mm: 10,
  airMean3dC: 2,
  windMs: 3,
  cloudPct: 40,
  clarityM: 0.4,
};

/** Figures that tell one story: of each group only the strongest change is told. */
const STORY: Readonly<Record<string, string>> = {
  pocketC: 'pocket',
  pocketMinusMainC: 'pocket',
  levelM: 'level',
  level24hM: 'level',
  rain24Mm: 'rain',
  rain72Mm: 'rain',
};

/** The story a hazard tells of: what is dangerous is told before what only changed more. */
const STORY_OF_HAZARD: Readonly<Record<string, string>> = {
  flood: 'level',
  'rising-water': 'level',
  'rising-rate': 'level',
  'cold-water-rising': 'level',
  'falling-water': 'level',
  'falling-rate': 'level',
  'strong-flow': 'dischargeM3s',
  wind: 'windMs',
  waves: 'windMs',
  'cold-water-wind': 'windMs',
  'cold-water-waves': 'windMs',
};

/** A figure no rule reads moves places through one that the rules do read. */
const ACTS_THROUGH: Readonly<Record<string, string>> = { levelM: 'level24hM' };

export function whatChanged(
  now: ChangeBasis,
  previous: BriefingDocument | undefined,
  m: Messages,
): BriefingDocument['whatChanged'] {
  if (previous === undefined) return { lead: m.changed.first, items: [] };
  const since = momentWords(previous.issuedMs, previous.lake.zone, m);
  const items = [
    ...levelChange(now, previous, m),
    ...figureChanges(now, previous, m),
    ...orderChange(now, previous, m),
  ];
  const kept = items.slice(0, 3).map((item, i, all) => {
    const told = all.slice(0, i).some(({ moved }) => moved === item.moved && moved !== m.changed.noMove);
    return told ? { ...item, moved: m.changed.sameWay } : item;
  });
  return { lead: kept.length === 0 ? m.changed.nothing(since) : m.changed.since(since), items: kept };
}

function levelChange(now: ChangeBasis, previous: BriefingDocument, m: Messages): BriefingChange[] {
  const before = previous.safety.level;
  if (before === now.level) return [];
  const up = now.level > before;
  const sentence = up ? m.changed.hazardUp(before, now.level) : m.changed.hazardDown(before, now.level);
  return [{ about: 'safety', quantity: null, before, now: now.level, sentence, moved: m.changed.readHazard }];
}

function figureChanges(now: ChangeBasis, previous: BriefingDocument, m: Messages): BriefingChange[] {
  const ranked: { strength: number; story: string; change: BriefingChange }[] = [];
  for (const row of now.conditions) {
    const old = previous.conditions.find((candidate) => candidate.id === row.id);
    const step = STEP[row.id];
    if (old === undefined || step === undefined || (old.now === null && row.now === null)) continue;
    if (row.id === 'levelM' && otherGauge(row, old)) continue;
    const strength = strengthOf(row, old, step);
    if (strength < 1 || printsAlike(row, old)) continue;
    ranked.push({
      strength,
      story: STORY[row.id] ?? row.id,
      change: {
        about: row.id,
        quantity: row.now?.quantity ?? old.now?.quantity ?? null,
        before: old.now?.value ?? null,
        now: row.now?.value ?? null,
        sentence: figureSentence(row, old, m),
        moved: moved(ACTS_THROUGH[row.id] ?? row.id, now, previous, m),
      },
    });
  }
  const dangerous = new Set(now.hazards.flatMap((id) => STORY_OF_HAZARD[id] ?? []));
  const first = (entry: { readonly story: string }): number => (dangerous.has(entry.story) ? 1 : 0);
  ranked.sort((a, b) => first(b) - first(a) || b.strength - a.strength);
  const told = new Set<string>();
  return ranked.filter(({ story }) => !told.has(story) && told.add(story)).map(({ change }) => change);
}

/** Size of a change in steps. A class that has become another one, and a figure lost or found, count in any case. */
function strengthOf(row: ConditionRow, old: ConditionRow, step: number): number {
  if (old.now === null || row.now === null) return 1.5;
  const steps = Math.abs(row.now.value - old.now.value) / step;
  return row.words !== undefined && old.words !== undefined ? Math.max(1, steps) : steps;
}

/** The level of a fallback gauge, on its own zero, is no change of the lake. */
function otherGauge(row: ConditionRow, old: ConditionRow): boolean {
  return row.now !== null && old.now !== null && row.now.source !== old.now.source;
}

/** A change that rounds away in either unit system would print as "47 -> 47". */
function printsAlike(row: ConditionRow, old: ConditionRow): boolean {
  if (row.now === null || old.now === null) return false;
  const [a, b] = [printed(row), printed(old)];
  return (['us', 'metric'] as const).some(
    (units) => expandQuantities(a, units) === expandQuantities(b, units),
  );
}

/** The figure as its row prints it: words where nobody measured the number. */
const printed = ({ now, signed, words }: ConditionRow): string =>
  words ?? (now === null ? '' : quantity(now.quantity, now.value, signed));

function figureSentence(row: ConditionRow, old: ConditionRow, m: Messages): string {
  if (row.now === null) return m.changed.lost(row.label);
  if (old.now === null) return m.changed.back(row.label, printed(row));
  return m.changed.figure(row.label, printed(old), printed(row));
}

/** The place whose points this figure changed most, and where that put it. */
function moved(signal: string, now: ChangeBasis, previous: BriefingDocument, m: Messages): string {
  const shift = now.positions
    .map((position) => {
      const old = previous.positions.find(({ place }) => place === position.place);
      const before = old?.contributions[signal] ?? 0;
      return { position, old, points: (position.contributions[signal] ?? 0) - before };
    })
    .filter(({ points }) => Math.abs(points) > 1e-9)
    .sort((a, b) => Math.abs(b.points) - Math.abs(a.points))[0];
  if (shift === undefined) return m.changed.noMove;
  const { position, old, points } = shift;
  const name = lowerFirst(position.name);
  if (old === undefined) return points > 0 ? m.changed.entered(name, position.rank) : m.changed.noMove;
  if (position.rank < old.rank && points > 0) return m.changed.movedUp(name, old.rank, position.rank);
  if (position.rank > old.rank && points < 0) return m.changed.movedDown(name, old.rank, position.rank);
  return points > 0 ? m.changed.strengthened(name) : m.changed.weakened(name);
}

function orderChange(now: ChangeBasis, previous: BriefingDocument, m: Messages): BriefingChange[] {
  const first = now.positions[0];
  const old = previous.positions[0];
  if (first === undefined || old === undefined || first.place === old.place) return [];
  const sentence = m.changed.firstPlace(lowerFirst(old.name), lowerFirst(first.name));
  return [
    { about: 'order', quantity: null, before: null, now: null, sentence, moved: first.because[0] ?? '' },
  ];
}
