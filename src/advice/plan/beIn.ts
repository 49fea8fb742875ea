import type { RuleBook } from '../../config/index.ts';
import { isOfWind } from '../safety/windSide.ts';
import type { LocalClock } from './clock.ts';
import type { Closure } from './closures.ts';
import type { Fishing } from './inputs.ts';
import type { BeInBy, PlanBlock } from './types.ts';

/** How long before a hazard's hours one is in, ms. */
export type EarlyOf = (closure: Pick<Closure, 'hazard'>) => number;

/** Numbers of thunder; those of wind are known to the safety room. */
const THUNDER: ReadonlySet<string> = new Set(['thunderPct', 'stormSign']);

/** Whether a hazard is wind, waves or thunder. */
export const isWeather = (id: string, table: RuleBook['safety']): boolean =>
  isOfWind({ id }, table) || table.hazards.some((row) => row.id === id && THUNDER.has(row.quantity));

const MINUTE_MS = 60_000;

/** What comes up fast is given more time to be in before than what is known to the hour. */
export const earlyBy =
  ({ hours, safety }: Pick<RuleBook, 'hours' | 'safety'>): EarlyOf =>
  ({ hazard }) =>
    MINUTE_MS * (isWeather(hazard, safety) ? hours.settings.inBeforeWeatherMin : hours.settings.inBeforeMin);

/** When to be off the water: before the next hazard after the plan has begun, else by the end of the fishing hours. */
export function beInBy(
  blocks: readonly PlanBlock[],
  closed: readonly Closure[],
  { toMs, own, lightAllNight }: Fishing,
  clock: LocalClock,
  early: EarlyOf,
): BeInBy | null {
  const first = blocks[0]?.fromMs ?? 0;
  const [hazard] = closed
    .filter(({ fromMs }) => fromMs > first)
    .sort((a, b) => a.fromMs - early(a) - (b.fromMs - early(b)));
  if (hazard !== undefined) {
    const atMs = hazard.fromMs - early(hazard);
    return {
      atMs,
      at: clock.at(atMs),
      because: {
        code: 'hazard',
        hazard: hazard.hazard,
        startsMs: hazard.fromMs,
        starts: clock.at(hazard.fromMs),
      },
    };
  }
  if (lightAllNight === true) return null;
  return { atMs: toMs, at: clock.at(toMs), because: { code: own ? 'fishingHours' : 'dusk' } };
}
