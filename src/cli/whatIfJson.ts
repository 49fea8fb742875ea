import { UNDATED } from '../advice/whatIf/index.ts';
import type { RuleText } from '../config/index.ts';
import type { WhatIfAnswer } from '../schedule/index.ts';
import { expandQuantities, type UnitSystem } from '../units/index.ts';
import { say, wordsFor } from '../words/index.ts';
import { planJson } from './whatIfPlan.ts';
import { saidGaps } from './whatIfText.ts';

/** The same data with the quantities in its sentences written; what holds none is given as it is. */
function expanded(value: unknown, units: UnitSystem): unknown {
  if (typeof value === 'string') return value.includes('{{') ? expandQuantities(value, units) : value;
  if (typeof value !== 'object' || value === null) return value;
  if (Array.isArray(value)) {
    const entries: readonly unknown[] = value;
    const written = entries.map((entry) => expanded(entry, units));
    return written.every((entry, i) => entry === entries[i]) ? value : written;
  }
  let written: Record<string, unknown> | undefined;
  for (const [key, entry] of Object.entries(value)) {
    const now = expanded(entry, units);
    if (now !== entry) (written ??= { ...value })[key] = now;
  }
  return written ?? value;
}

/**
 * An answer as data for programs: numbers SI, sentences in the units asked for.
 *
 * @param wind what the wind does on the sides that the form's places are open to; '' where nothing is said of it
 */
export function jsonOf(
  { advice, understood, dropped }: WhatIfAnswer,
  text: RuleText,
  units: UnitSystem,
  wind = '',
): unknown {
  const { plan, ...rest } = advice;
  const { whatIf } = wordsFor('en');
  const { conditions, layer, assumptions, understood: rows } = understood;
  const dated = conditions.date !== UNDATED;
  return expanded(
    {
      ...rest,
      gaps: saidGaps(advice),
      plan: plan === null ? null : { ...planJson(plan, text), ...(dated ? {} : { date: null }) },
      conditions: dated ? conditions : { ...conditions, date: null, asOfMs: null },
      ...(layer === undefined ? {} : { layer }),
      ...(wind === '' ? {} : { wind }),
      assumptions: assumptions.map((fact) => say(whatIf.assumed, fact)),
      understood: rows.map((row) => {
        const { field, text: said } = whatIf.figure(row);
        return { field, signal: row.signal, text: said };
      }),
      dropped,
    },
    units,
  );
}
