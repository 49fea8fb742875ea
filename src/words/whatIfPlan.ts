/** The plan of a what-if in words, laid out by nobody yet; quantities stay placeholders. */
import type { DayPlan, NotOffered, OtherPattern } from '../advice/plan/types.ts';
import type { RuleText } from '../config/ruleText.ts';
import { quantityRange } from '../units/index.ts';
import { sayCast } from './adviceInWords.ts';
import type { AdviceInWords, PresentationCard } from './inWords.ts';
import { wordsFor } from './languages.ts';

/** One block with what stands below it, or one line of the whole day. */
export interface PlanPart {
  readonly head: string;
  readonly lines: readonly string[];
}

const { plan: words, front } = wordsFor('en');

/** @returns empty where there is no plan to speak of */
export function whatIfPlan(plan: DayPlan | null, text: RuleText): PlanPart[] {
  if (plan === null) return [];
  const nameOf = ({ place, named }: { readonly place: string; readonly named?: string }): string =>
    named ?? text[`place.${place}.name`] ?? place;
  const alone = (head: string): PlanPart => ({ head, lines: [] });
  const other = (what: string, pattern: OtherPattern | NotOffered): PlanPart[] =>
    'none' in pattern
      ? []
      : [
          alone(
            `${what}: ${nameOf(pattern)}, ${quantityRange('depth', ...pattern.depthM)}, ${pattern.lureClass}`,
          ),
        ];
  return [
    ...(plan.notPlanned === null ? [] : [alone(words.notPlanned(text, plan.notPlanned))]),
    ...plan.blocks.map((block) => ({
      head: `${block.from}-${block.to} ${nameOf(block)}, ${quantityRange('depth', ...block.depthM)}, ${block.lure.lureClass}`,
      lines: [...whyLines(block, text), words.giveUp(block.giveUp)],
    })),
    ...plan.closed.map(({ from, to, hazard }) =>
      alone(`${from}-${to} closed: ${(text[`safety.${hazard}.label`] ?? hazard).toLowerCase()}`),
    ),
    ...beInLines(plan).map(alone),
    ...other('At the same time', plan.second),
    ...other('Larger fish tend to be at', plan.bigFish),
    ...other('More fish tend to be at', plan.manyFish),
  ];
}

/** When to be off the water: for good, or for a hazard that passes and again at the end of the plan. */
function beInLines({ beInBy, blocks }: DayPlan): string[] {
  if (beInBy === null) return [];
  const again = blocks.find(({ from }) => from >= beInBy.at);
  return [
    again === undefined
      ? front.beIn(beInBy.at)
      : front.offThenIn(beInBy.at, again.from, blocks.at(-1)?.to ?? again.to),
  ];
}

/** Why the place changes, then why this one; what the first says the second does not say again. */
function whyLines({ whyChange, because }: DayPlan['blocks'][number], text: RuleText): string[] {
  const change = whyChange === null ? '' : words.change(text, whyChange);
  const fresh = because
    .map((reason) => words.reason(text, reason))
    .filter((reason) => !change.toLowerCase().includes(reason.toLowerCase().replace(/\.$/, '')));
  return [change, fresh.length === 0 ? '' : `because ${fresh.join(' ')}`].filter(Boolean);
}

/** How to work it: the cards of the plan's blocks with their hours, else of the first places. */
export function whatIfCards(
  { plan, presentations }: Pick<AdviceInWords, 'plan' | 'presentations'>,
  text: RuleText,
): {
  readonly when: string;
  readonly card: PresentationCard;
}[] {
  return plan === null || plan.blocks.length === 0
    ? presentations.map((card) => ({ when: '', card }))
    : plan.blocks.map(({ from, to, cast }) => ({ when: `${from}-${to} `, card: sayCast(cast.told, text) }));
}
