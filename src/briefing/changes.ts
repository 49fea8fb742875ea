/** What changed since the last issue: at most three changes, each with the advice it moved. */
import { classOf, type ClarityClass } from '../science/index.ts';
import { formatQuantity } from '../units/index.ts';
import type { Briefing } from './document/briefing.ts';
import type { ChangeFact, MovedFact } from './document/change.ts';
import type { ComparableIssue } from './document/comparable.ts';
import type { ConditionFacts, Statement } from './document/fact.ts';
import type { PositionFacts } from './document/place.ts';

type OldRow = ComparableIssue['conditions'][number];
type Row = Pick<ConditionFacts, 'id' | 'signed' | 'now' | 'guess'>;

/** What the comparison reads of the issue being written. */
export interface ChangeBasis {
  readonly level: 1 | 2 | 3 | 4;
  /** Ids of the day's hazards, highest first. */
  readonly hazards: readonly string[];
  readonly conditions: readonly ConditionFacts[];
  readonly positions: readonly PositionFacts[];
  /** Mean air of each day, oldest first, degC. */
  readonly airDays: readonly { readonly date: string; readonly airMeanC?: number | undefined }[];
  readonly date: string;
  /** What a kind of place is called. */
  readonly nameOf: (place: string) => Statement;
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
  previous: ComparableIssue | undefined,
): Briefing['whatChanged'] {
  if (previous === undefined) return { since: null, items: [] };
  const items = [
    ...levelChange(now, previous),
    ...airFall(now, previous),
    ...figureChanges(now, previous),
    ...orderChange(now, previous),
  ];
  return { since: { atMs: previous.issuedMs, zone: previous.lake.zone }, items: items.slice(0, 3) };
}

function levelChange(now: ChangeBasis, previous: ComparableIssue): ChangeFact[] {
  const before = previous.safety.level;
  if (before === now.level) return [];
  return [{ code: 'level', before, now: now.level, moved: { code: 'readHazard' } }];
}

/** From here a fall of the day's mean air is a front and news of its own, K (9 °F; common practice, no source). */
const FRONT_FALL_K = 5;

/** Weather that turns overnight moves fish before any figure of the water has followed. */
function airFall(now: ChangeBasis, previous: ComparableIssue): ChangeFact[] {
  const today = now.airDays.findIndex(({ date }) => date === now.date);
  const [before, after] = [now.airDays[today - 1]?.airMeanC, now.airDays[today]?.airMeanC];
  if (before === undefined || after === undefined || before - after < FRONT_FALL_K) return [];
  return [{ code: 'airFall', fallK: before - after, moved: moved('airDrop24hC', now, previous) }];
}

function figureChanges(now: ChangeBasis, previous: ComparableIssue): ChangeFact[] {
  const ranked: { strength: number; story: string; change: ChangeFact }[] = [];
  for (const row of now.conditions) {
    const old = previous.conditions.find((candidate) => candidate.id === row.id);
    const step = STEP[row.id];
    if (old === undefined || step === undefined || (old.now === null && row.now === null)) continue;
    if (row.id === 'levelM' && otherGauge(row, old)) continue;
    const guessBefore = guessOf(old);
    const strength = strengthOf(row, old, step);
    if (strength < 1 || printsAlike(row, { ...old, guess: guessBefore })) continue;
    ranked.push({
      strength,
      story: STORY[row.id] ?? row.id,
      change: {
        code: 'figure',
        signal: row.id,
        quantity: row.now?.quantity ?? old.now?.quantity ?? null,
        signed: row.signed,
        before: old.now?.value ?? null,
        now: row.now?.value ?? null,
        ...(guessBefore === undefined ? {} : { guessBefore }),
        ...(row.guess === undefined ? {} : { guess: row.guess }),
        moved: moved(ACTS_THROUGH[row.id] ?? row.id, now, previous),
      },
    });
  }
  const dangerous = new Set(now.hazards.flatMap((id) => STORY_OF_HAZARD[id] ?? []));
  const first = (entry: { readonly story: string }): number => (dangerous.has(entry.story) ? 1 : 0);
  ranked.sort((a, b) => first(b) - first(a) || b.strength - a.strength);
  const told = new Set<string>();
  return ranked.filter(({ story }) => !told.has(story) && told.add(story)).map(({ change }) => change);
}

/** The class of a clarity that was a guess; documents of the first version kept only its middle. */
function guessOf({ guess, words, now }: OldRow): ClarityClass | undefined {
  if (guess !== undefined || words === undefined || now === null) return guess;
  return classOf(now.value);
}

/** Size of a change in steps. A class that has become another one, and a figure lost or found, count in any case. */
function strengthOf(row: Row, old: OldRow, step: number): number {
  if (old.now === null || row.now === null) return 1.5;
  const steps = Math.abs(row.now.value - old.now.value) / step;
  return row.guess !== undefined && guessOf(old) !== undefined ? Math.max(1, steps) : steps;
}

/** The level of a fallback gauge, on its own zero, is no change of the lake. */
function otherGauge(row: Row, old: OldRow): boolean {
  const [now, before] = [row.now?.source, old.now?.source];
  // Documents of the first version name their gauge in words, which tell no program which one it was.
  if (typeof now !== 'object' || typeof before !== 'object') return false;
  return JSON.stringify(now) !== JSON.stringify(before);
}

/** A change that rounds away in either unit system would print as "47 -> 47". */
function printsAlike(row: Row, old: Row): boolean {
  if (row.now === null || old.now === null) return false;
  if (row.guess !== undefined || old.guess !== undefined) return row.guess === old.guess;
  const [a, b] = [row.now, old.now];
  return (['us', 'metric'] as const).some(
    (units) =>
      formatQuantity(a.value, a.quantity, units, row.signed) ===
      formatQuantity(b.value, b.quantity, units, old.signed),
  );
}

/** The place whose points this figure changed most, and where that put it. */
function moved(signal: string, now: ChangeBasis, previous: ComparableIssue): MovedFact {
  const shift = now.positions
    .map((position) => {
      const old = previous.positions?.find(({ place }) => place === position.place);
      const before = old?.contributions[signal] ?? 0;
      return { position, old, points: (position.contributions[signal] ?? 0) - before };
    })
    .filter(({ points }) => Math.abs(points) > 1e-9)
    .sort((a, b) => Math.abs(b.points) - Math.abs(a.points))[0];
  if (shift === undefined) return { code: 'noMove' };
  const { position, old, points } = shift;
  const { rank } = position;
  const place = { id: position.place, name: position.name };
  if (old === undefined) return points > 0 ? { code: 'entered', place, now: rank } : { code: 'noMove' };
  if (rank < old.rank && points > 0) return { code: 'movedUp', place, before: old.rank, now: rank };
  if (rank > old.rank && points < 0) return { code: 'movedDown', place, before: old.rank, now: rank };
  return points > 0 ? { code: 'strengthened', place } : { code: 'weakened', place };
}

function orderChange(now: ChangeBasis, previous: ComparableIssue): ChangeFact[] {
  const first = now.positions[0];
  const old = previous.positions?.[0];
  if (first === undefined || old === undefined || first.place === old.place) return [];
  const reason = first.because[0];
  return [
    {
      code: 'order',
      before: { id: old.place, name: now.nameOf(old.place) },
      now: { id: first.place, name: first.name },
      moved: reason === undefined ? { code: 'noMove' } : { code: 'because', reason },
    },
  ];
}
