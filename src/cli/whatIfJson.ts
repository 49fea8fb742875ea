import type { RuleText } from '../config/ruleText.ts';
import type { WhatIfAnswer } from '../schedule/whatIfAnswer.ts';
import { expandQuantities, type UnitSystem } from '../units/index.ts';
import { planJson } from './whatIfPlan.ts';
import { saidGaps } from './whatIfText.ts';

function expanded<T>(value: T, units: UnitSystem): T {
  if (typeof value === 'string') return (value.includes('{{') ? expandQuantities(value, units) : value) as T;
  if (Array.isArray(value)) return value.map((entry: unknown) => expanded(entry, units)) as T;
  if (typeof value === 'object' && value !== null) {
    return Object.fromEntries(
      Object.entries(value).map(([key, entry]) => [key, expanded(entry, units)]),
    ) as T;
  }
  return value;
}

/** An answer as data for programs: numbers SI, sentences in the units asked for. */
export function jsonOf(
  { advice, understood, dropped }: WhatIfAnswer,
  text: RuleText,
  units: UnitSystem,
): unknown {
  const { plan, ...rest } = advice;
  const { conditions, assumptions, understood: rows } = understood;
  return expanded(
    {
      ...rest,
      gaps: saidGaps(advice),
      plan: plan === null ? null : planJson(plan, text),
      conditions,
      assumptions,
      understood: rows,
      dropped,
    },
    units,
  );
}
