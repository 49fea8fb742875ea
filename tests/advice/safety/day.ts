import { judgeSafety, type SafetyExtras } from '../../../src/advice/safety/index.ts';
import { loadRules } from '../../../src/config/rules.ts';
import type { SafetyTable } from '../../../src/config/rulesSafety.ts';

import type { Conditions, Figure, SignalId } from '../../../src/signals/types.ts';
import { saySafety, type SafetyInWords } from '../../../src/words/index.ts';

const book = loadRules();
export const table: SafetyTable = book.safety;

/** A day with nothing wrong: every number known and harmless. */
export const CALM: Partial<Record<SignalId, number>> = {
  waterC: 23,
  airNowC: 22,
  airMaxTodayC: 26,
  airMinTodayC: 18,
  windMs: 2,
  windMaxMs: 3,
  gustMs: 5,
  thunderPct: 0,
  level24hM: 0.02,
  levelRateMPerH: 0,
  levelVsNormalM: 0,
  dischargeRatio: 1,
  rain72Mm: 0,
  rainNext24Mm: 0,
};

export const CHECKED: SafetyExtras = {
  alerts: [],
  alertsChecked: true,
  floodCategory: 'none',
  belowDam: false,
  fetchM: 1500,
};

type Signals = Partial<Record<SignalId, number | Partial<Figure>>>;

export function conditions(signals: Signals): Conditions {
  const figures = Object.entries(signals).map(([id, given]): [string, Figure] => {
    const part = typeof given === 'number' ? { value: given } : given;
    return [
      id,
      {
        value: 0,
        kind: 'observed',
        asOfMs: 0,
        freshness: 'fresh',
        source: { code: 'configuration' },
        ...part,
      },
    ];
  });
  return {
    asOfMs: Date.UTC(2026, 2, 7, 11),
    date: '2026-03-07',
    zone: 'America/Chicago',
    species: 'mixed',
    waterBody: 'highland-reservoir',
    gaps: [],
    signals: Object.fromEntries(figures),
  };
}

/** Dangers of a day in the words that readers get. */
export const judgeInWords = (...given: Parameters<typeof judgeSafety>): SafetyInWords =>
  saySafety(judgeSafety(...given), book.text);

/** Dangers of the harmless day with some of it changed, in words. */
export function judge(signals: Signals, extras: Partial<SafetyExtras> = {}): SafetyInWords {
  return judgeInWords(conditions({ ...CALM, ...signals }), table, { ...CHECKED, ...extras });
}

export const ids = (advice: { readonly hazards: readonly { readonly id: string }[] }): string[] =>
  advice.hazards.map((hazard) => hazard.id);
