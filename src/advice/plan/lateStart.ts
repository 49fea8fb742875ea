import { HOUR_MS } from '../../units/time/index.ts';
import type { SafetyTable } from '../../config/index.ts';
import type { LocalClock } from './clock.ts';
import type { Closure } from './closures.ts';
import type { PlanHour } from './hours.ts';
import type { PlanInputs } from './inputs.ts';
import type { NotPlanned } from './types.ts';

/** Water as cold as this has its bite about midday, degC (46 F: midday in winter, the sun side from 11 on; common practice, no source). */
const COLD_WATER_C = 8;
/** Nothing is lost by starting then, local h. */
const LATE_H = 10;
/** A block that ends sooner is no day of fishing to put off, local h. */
const GOES_ON_TO_H = 12;
const EARLY_BY_H = 1;
/** The day warms by this from its start to noon, K; where only the night is known, it was this cold, degC. */
const WARMS_K = 2;
const COLD_NIGHT_C = 2;

interface Stretch {
  readonly fromMs: number;
  readonly toMs: number;
}

/**
 * When a day in cold water may as well begin: its first hours give least, and its ramps and decks are worst then.
 *
 * @param first the day's first block
 * @returns local clock; undefined where the day begins late enough, or ends early, or does not warm
 */
export function lateStart(
  first: Stretch,
  { conditions, hours }: PlanInputs,
  closed: readonly Closure[],
  clock: LocalClock,
): string | undefined {
  const { waterC, airMinLastNightC } = conditions.signals;
  const startH = clock.hour(first.fromMs);
  const atLateMs = first.fromMs + (LATE_H - startH) * HOUR_MS;
  if (waterC === undefined || waterC.value > COLD_WATER_C) return undefined;
  if (startH > LATE_H - EARLY_BY_H || first.toMs < atLateMs + (GOES_ON_TO_H - LATE_H) * HOUR_MS)
    return undefined;
  if (closed.some(({ fromMs }) => fromMs > first.fromMs)) return undefined;
  const airAt = (atMs: number): number | undefined =>
    hours.find(({ fromMs, toMs }: PlanHour) => fromMs <= atMs && toMs > atMs)?.airC;
  const [early, noon] = [airAt(first.fromMs), airAt(atLateMs + (GOES_ON_TO_H - LATE_H) * HOUR_MS)];
  const warms =
    early !== undefined && noon !== undefined && noon !== early
      ? noon - early >= WARMS_K
      : airMinLastNightC !== undefined && airMinLastNightC.value <= COLD_NIGHT_C;
  return warms ? clock.at(atLateMs) : undefined;
}

/** Which of an hour's numbers tells of a hazard's hours. */
const HOUR_FIELD: Readonly<Partial<Record<string, keyof PlanHour>>> = {
  windMs: 'windMs',
  waveM: 'windMs',
  gustMs: 'gustMs',
  thunderPct: 'thunderPct',
  stormSign: 'stormSign',
};

/** Whether what closes a day comes and goes, and nobody told in which hours. */
export function hoursUnknown(
  { hazards }: Extract<NotPlanned, { code: 'closed' }>,
  hours: readonly PlanHour[],
  { hazards: rows, combinations }: SafetyTable,
): boolean {
  const quantityOf = (id: string): string[] => rows.flatMap((row) => (row.id === id ? [row.quantity] : []));
  const fields = hazards
    .flatMap((id) => [
      ...quantityOf(id),
      ...combinations
        .filter((row) => row.id === id)
        .flatMap(({ all }) =>
          all.flatMap((part) => ('hazard' in part ? quantityOf(part.hazard) : [part.quantity])),
        ),
    ])
    .flatMap((quantity) => HOUR_FIELD[quantity] ?? []);
  return fields.length > 0 && fields.every((field) => hours.every((hour) => hour[field] === undefined));
}
