import { hourFigure } from '../hourFigure.ts';
import type { SafetyQuantity, SafetyTable } from '../../config/index.ts';
import type { Conditions, Figure, SignalId } from '../../signals/index.ts';
import { safetyQuantities } from '../safety/quantities.ts';
import { rowOf } from '../safety/closedPlaces.ts';
import { standingOf } from '../safety/rows.ts';
import type { SafetyExtras } from '../safety/types.ts';
import type { HazardLevel, SafetyAdvice } from '../types.ts';
import type { LocalClock } from './clock.ts';
import type { PlanHour } from './hours.ts';

/** A stretch that a hazard takes out of the day. */
export interface Closure {
  readonly fromMs: number;
  readonly toMs: number;
  readonly hazard: string;
  readonly level: HazardLevel;
}

const MINUTE_MS = 60_000;

/** Numbers that change by the hour: a hazard of one of them has hours. */
const HOURLY: ReadonlySet<SafetyQuantity> = new Set([
  'windMs',
  'gustMs',
  'waveM',
  'airMaxC',
  'heatIndexC',
  'airUnjudgedC',
  'thunderPct',
  'stormSign',
]);

export interface ClosureInputs {
  readonly conditions: Conditions;
  readonly hours: readonly PlanHour[];
  readonly safety: SafetyAdvice;
  readonly table: SafetyTable;
  readonly extras: SafetyExtras;
  readonly closesFromLevel: number;
  readonly clock: LocalClock;
  /** The fishing day: what stands all day closes all of it. */
  readonly day: { readonly fromMs: number; readonly toMs: number };
}

/** The day's conditions with the numbers of one hour that can hurt. */
function conditionsOf(day: Conditions, hour: PlanHour): Conditions {
  const signals: Partial<Record<SignalId, Figure>> = { ...day.signals };
  const put = (value: number | undefined, ...ids: SignalId[]): void => {
    if (value === undefined) return;
    for (const id of ids) {
      signals[id] = hourFigure(value, day.asOfMs);
    }
  };
  put(hour.windMs, 'windMs', 'windMaxMs');
  put(hour.gustMs, 'gustMs');
  put(hour.airC, 'airMaxTodayC', 'airMinTodayC', 'airNowC');
  put(hour.thunderPct, 'thunderPct');
  return { ...day, signals };
}

/** Rows whose number changes by the hour, and that close from the level on; what is together is judged by its parts. */
function closingRows({ table, conditions, extras, closesFromLevel }: ClosureInputs): SafetyTable['hazards'] {
  const day = safetyQuantities(conditions, extras, table.assumed);
  return table.hazards.filter(
    (row) =>
      HOURLY.has(row.quantity) &&
      // The day's own number is the worst of its hours: where that closes nothing, no hour does.
      (day[row.quantity] === undefined || standingOf(row, day).level >= closesFromLevel),
  );
}

const within = ([from, to]: readonly [number, number], hour: number): boolean => hour >= from && hour < to;

function hourlyClosures(inputs: ClosureInputs): Closure[] {
  const { hours, table, extras, conditions, closesFromLevel, clock } = inputs;
  const rows = closingRows(inputs);
  if (rows.length === 0) return [];
  const found: Closure[] = [];
  for (const hour of hours) {
    const quantities = safetyQuantities(
      conditionsOf(conditions, hour),
      { ...extras, hours: [hour] },
      table.assumed,
    );
    for (const row of rows) {
      const { level, known } = standingOf(row, quantities);
      if (!known || level === 0) continue;
      const avoided = row.avoidHours !== undefined && within(row.avoidHours, clock.hour(hour.fromMs));
      // On a day that closes, heat wears on the hours around its worst one too: one step less closes them.
      if (level < closesFromLevel - (avoided ? 1 : 0)) continue;
      // Air that is only known as the day's highest stands in the hours that the row names, not at dawn.
      if (row.avoidHours !== undefined && !avoided && hour.airC === undefined) continue;
      const toMs = hour.toMs + (row.clearMin ?? 0) * MINUTE_MS;
      found.push({ fromMs: hour.fromMs, toMs, hazard: row.id, level });
    }
  }
  return found;
}

/** Hours of one hazard that touch become one stretch at the highest of their levels. */
function merged(closures: readonly Closure[]): Closure[] {
  const found: Closure[] = [];
  for (const closure of [...closures].sort((a, b) => a.fromMs - b.fromMs)) {
    const index = found.findIndex(({ hazard, toMs }) => hazard === closure.hazard && toMs >= closure.fromMs);
    const open = found[index];
    if (open === undefined) found.push(closure);
    else {
      found[index] = {
        ...open,
        toMs: Math.max(open.toMs, closure.toMs),
        level: closure.level > open.level ? closure.level : open.level,
      };
    }
  }
  return found.sort((a, b) => a.fromMs - b.fromMs || a.hazard.localeCompare(b.hazard));
}

/** What the hazards of the day leave of it. */
export interface Closures {
  readonly closed: readonly Closure[];
  /** A hazard of level 4 that has no hours: nobody goes out at all. */
  readonly ashore: string | null;
}

/** Hours that hazards close, and whether one closes the whole day. Cold water and ice close none: winter keeps its plan. */
export function closuresOf(inputs: ClosureInputs): Closures {
  const { safety, table, closesFromLevel, hours } = inputs;
  const own: Closure[] = [];
  let ashore: string | null = null;
  // A milder one of a group, which stands in a severer one's block, closes hours that the severer one leaves open.
  for (const hazard of safety.hazards.flatMap((one) => [one, ...(one.also ?? [])])) {
    if (hazard.level < closesFromLevel) continue;
    // A hazard that comes and goes closes its own hours and leaves the rest of the day.
    if (hazard.hours !== undefined) {
      if (hazard.closes === true) {
        own.push(...hazard.hours.map((span) => ({ ...span, hazard: hazard.id, level: hazard.level })));
      }
      continue;
    }
    const row = table.hazards.find(({ id }) => id === hazard.id);
    if (row !== undefined && HOURLY.has(row.quantity) && hours.length > 0) continue;
    if (hazard.level === 4) ashore ??= hazard.id;
    // One that stands all day, or of whose hours nothing is known, closes the places it names, else the whole day.
    else if (hazard.closes === true && rowOf(hazard, table)?.closesPlaces === undefined)
      own.push({ ...inputs.day, hazard: hazard.id, level: hazard.level });
  }
  return { closed: merged([...own, ...hourlyClosures(inputs)]), ashore };
}
