import type { DayPlan, NotOffered, OtherPattern } from '../advice/plan/types.ts';
import type { RuleText } from '../config/ruleText.ts';
import { quantityRange } from '../units/index.ts';
import { wordsFor } from '../words/index.ts';

const { plan: words } = wordsFor('en');

/** The plan for a terminal, quantities still as placeholders; empty where there is none to speak of. */
export function planLines(plan: DayPlan | null, text: RuleText): string[] {
  if (plan === null) return [];
  const nameOf = ({ place, named }: { readonly place: string; readonly named?: string }): string =>
    named ?? text[`place.${place}.name`] ?? place;
  const other = (what: string, pattern: OtherPattern | NotOffered): string[] =>
    'none' in pattern
      ? []
      : [`${what}: ${nameOf(pattern)}, ${quantityRange('depth', ...pattern.depthM)}, ${pattern.lureClass}`];
  return [
    ...(plan.notPlanned === null ? [] : [words.notPlanned(text, plan.notPlanned)]),
    ...plan.blocks.flatMap((block) => [
      `${block.from}-${block.to} ${nameOf(block)}, ${quantityRange('depth', ...block.depthM)}, ${block.lure.lureClass}`,
      ...(block.whyChange === null ? [] : [`  ${words.change(text, block.whyChange)}`]),
      `  because ${block.because.map((reason) => words.reason(text, reason)).join(' ')}`,
      `  ${words.giveUp(block.giveUp)}`,
    ]),
    ...plan.closed.map(
      ({ from, to, hazard }) =>
        `${from}-${to} closed: ${(text[`safety.${hazard}.label`] ?? hazard).toLowerCase()}`,
    ),
    ...(plan.beInBy === null ? [] : [`Be in by ${plan.beInBy.at}.`]),
    ...other('At the same time', plan.second),
    ...other('Larger fish tend to be at', plan.bigFish),
    ...other('More fish tend to be at', plan.manyFish),
  ];
}
