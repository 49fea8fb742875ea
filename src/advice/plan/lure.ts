import { hourFigure } from '../hourFigure.ts';
import type { RuleBook, TackleConfig } from '../../config/index.ts';
import type { Conditions, Figure, SignalId } from '../../signals/index.ts';
import { cardOf } from '../cards.ts';
import { presentAt, type Season } from '../presentation/index.ts';
import type { CastCard, PhaseAdvice, PositionAdvice } from '../types.ts';
import { lightOf, type Light } from './light.ts';
import type { BlockHour, Stretch } from './reasons.ts';
import type { BlockLure, BlockPace } from './types.ts';

/** Numbers of a block that choose a lure and its pace, in place of the day's own. */
const OF_THE_BLOCK: readonly SignalId[] = [
  'windMs',
  'cloudPct',
  'lowLightShare',
  'airNowC',
  'pocketC',
  'pocketMinusMainC',
  'generationOn',
  'currentMs',
  'airDrop24hC',
  'runoffC',
  'pocketRenewedShare',
  'rain72Mm',
];

/**
 * The day's conditions as they are in a block.
 *
 * @param light the part of it that its light is told of
 */
export function blockConditions(day: Conditions, stretch: Stretch, light: Stretch): Conditions {
  const signals: Partial<Record<SignalId, Figure>> = { ...day.signals };
  for (const id of OF_THE_BLOCK) {
    const value = (id === 'lowLightShare' ? light : stretch).meanOf(id);
    if (value === undefined || value === day.signals[id]?.value) continue;
    signals[id] = hourFigure(value, day.asOfMs);
    if (id === 'cloudPct') delete signals.clearSkyShare;
  }
  return { ...day, signals };
}

export interface BlockCast {
  readonly lure: BlockLure;
  readonly pace: BlockPace;
  readonly cast: CastCard;
}

/** How to fish a place in a block; null where no class of lure can be worked there. */
export function castOf(
  conditions: Conditions,
  position: PositionAdvice,
  rules: RuleBook,
  tackle: TackleConfig,
  season: Season,
): BlockCast | null {
  const found = presentAt(conditions, position, rules.lures, tackle, season, 1)[0];
  if (found === undefined) return null;
  const card = cardOf(found);
  const { weightG, baitM, hook, colour, line } = found.tied;
  return {
    lure: {
      lureClass: found.lureClass,
      family: found.family,
      weightG: weightG ?? null,
      ...(baitM === undefined ? {} : { baitM }),
      hook: hook ?? null,
      line: {
        material: line.material,
        kg: line.kg,
        ...(line.leaderKg === undefined ? {} : { leaderKg: line.leaderKg }),
      },
      colours: colour === undefined ? [] : [colour],
      fallMs: card.fallMs ?? null,
    },
    pace: {
      retrieveMs: found.pace.speedMs,
      lowMs: found.pace.lowMs,
      highMs: found.pace.highMs,
      pauseS: found.pauseS,
      waterC: found.water.basis === 'known' ? found.water.waterC : null,
    },
    cast: card,
  };
}

/**
 * The hours of a block in the light that most of it has: a lure is chosen for the larger part, not for a mean of dusk
 * and dark that no hour has.
 */
export function lightPart(hours: readonly BlockHour[]): readonly BlockHour[] {
  const spent = new Map<Light, number>();
  for (const { score, weightH } of hours) {
    const { sunAltitudeDeg: sun } = score.hour.signals;
    if (sun === undefined) return hours;
    spent.set(lightOf(sun), (spent.get(lightOf(sun)) ?? 0) + weightH);
  }
  const [most] = [...spent].sort((a, b) => b[1] - a[1])[0] ?? [];
  return hours.filter(({ score }) => lightOf(score.hour.signals.sunAltitudeDeg ?? 0) === most);
}

/** Season and darkness of a block, as the choice of a lure sees them. */
export function seasonOf(phase: PhaseAdvice, light: Stretch): Season {
  const night = light.highestSunDeg !== undefined && lightOf(light.highestSunDeg) === 'night';
  return { membership: phase.membership, night };
}
