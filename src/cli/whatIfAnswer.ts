import { advise, type AdviceOptions } from '../advice/index.ts';
import type { AdviceInWords } from '../words/index.ts';
import { understand, type Understood, type WhatIfForm } from '../advice/whatIf/index.ts';
import type { RuleBook } from '../config/rules.ts';
import type { RuleText } from '../config/ruleText.ts';
import { gatePlan, worldOf, type Fault } from '../gate/index.ts';
import { expandQuantities, type UnitSystem } from '../units/index.ts';
import { sayAdvice } from '../words/index.ts';
import { planJson } from './whatIfPlan.ts';
import { saidGaps } from './whatIfText.ts';

export interface Answer {
  readonly advice: AdviceInWords;
  readonly understood: Understood;
  /** Statements that the gate did not let through. */
  readonly dropped: readonly Fault[];
}

/**
 * Advice for a checked form.
 *
 * @param planned whether the day is planned by the hour as well
 */
export function answer(
  form: WhatIfForm,
  rules: RuleBook,
  tackle: AdviceOptions['tackle'],
  planned = true,
): Answer {
  const understood = understand(form);
  const { fetchM } = understood.conditions.signals;
  const advice = advise(understood.conditions, rules, {
    tackle,
    ...(planned ? { day: understood.day } : {}),
    ...(form.places === undefined ? {} : { places: form.places }),
    safety: {
      alerts: [],
      alertsChecked: false,
      belowDam: understood.conditions.waterBody === 'tailwater',
      ...(fetchM === undefined ? {} : { fetchM: fetchM.value }),
    },
  });
  if (advice.plan === null) return { advice: sayAdvice(advice, rules.text), understood, dropped: [] };
  const world = worldOf(understood.conditions, advice.phase, rules, understood.day, {
    places: form.places,
    limitM: understood.day.limitM,
  });
  const { plan, faults } = gatePlan(advice.plan, world);
  return { advice: sayAdvice({ ...advice, plan }, rules.text), understood, dropped: faults };
}

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
export function jsonOf({ advice, understood, dropped }: Answer, text: RuleText, units: UnitSystem): unknown {
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
