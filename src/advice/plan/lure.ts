import type { RuleBook } from '../../config/rules.ts';
import type { TackleConfig } from '../../config/types.ts';
import type { Conditions, Figure, SignalId } from '../../signals/types.ts';
import { presentCast } from '../presentation/index.ts';
import type { PositionAdvice, PresentationCard } from '../types.ts';
import type { Stretch } from './reasons.ts';
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

/** The day's conditions as they are in a block. */
export function blockConditions(day: Conditions, stretch: Stretch): Conditions {
  const signals: Partial<Record<SignalId, Figure>> = { ...day.signals };
  for (const id of OF_THE_BLOCK) {
    const value = stretch.meanOf(id);
    if (value === undefined || value === day.signals[id]?.value) continue;
    signals[id] = { value, kind: 'forecast', asOfMs: day.asOfMs, freshness: 'fresh', source: 'hour' };
    if (id === 'cloudPct') delete signals.clearSkyShare;
  }
  return { ...day, signals };
}

export interface BlockCast {
  readonly lure: BlockLure;
  readonly pace: BlockPace;
  readonly cast: PresentationCard;
}

/** How to fish a place in a block; null where no class of lure can be worked there. */
export function castOf(
  conditions: Conditions,
  position: PositionAdvice,
  rules: RuleBook,
  tackle: TackleConfig,
): BlockCast | null {
  const card = presentCast(conditions, [position], rules.lures, tackle)[0];
  if (card === undefined) return null;
  const water = conditions.signals.waterC;
  return {
    lure: {
      lureClass: card.lureClass,
      family: card.family ?? null,
      weightG: null,
      hook: null,
      line: { material: 'fluorocarbon', kg: card.lineKg },
      colours: [],
      fallMs: card.fallMs ?? null,
    },
    pace: {
      retrieveMs: card.retrieveMs,
      lowMs: card.retrieveLowMs,
      highMs: card.retrieveHighMs,
      pauseS: card.pauseS,
      waterC: water?.value ?? null,
    },
    cast: card,
  };
}
