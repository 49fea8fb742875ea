/** The plan of a what-if in words, laid out by nobody yet; quantities stay placeholders. */
import type { DayPlan, OtherPattern } from '../advice/plan/index.ts';
import type { RuleText } from '../config/index.ts';
import { quantityRange } from '../units/index.ts';
import { sayCast } from './adviceInWords.ts';
import type { AdviceInWords, PresentationCard } from './inWords.ts';
import { wordsFor, type Words } from './languages.ts';
import { namesIn, stretchesOf } from './page/closedHours.ts';
import { lureWords } from './page/plan.ts';
import { lureNamed, placeNamed } from './named.ts';

/** One block with what stands below it, or one line of the whole day. */
export interface PlanPart {
  readonly head: string;
  readonly lines: readonly string[];
}

/**
 * @param text the rules' own words in the language
 * @returns empty where there is no plan to speak of
 */
export function whatIfPlan(plan: DayPlan | null, text: RuleText, words: Words = wordsFor('en')): PlanPart[] {
  if (plan === null) return [];
  const w = words.whatIf.plan;
  const nameOf = ({ place, named }: { readonly place: string; readonly named?: string }): string =>
    named ?? placeNamed(text, place);
  const alone = (head: string): PlanPart => ({ head, lines: [] });
  const lureOf = (lure: string): string => lureNamed(words, text, lure);
  const isPlanned = ({ place, lureClass }: OtherPattern): boolean =>
    plan.blocks.some((block) => block.place === place && block.lure.lureClass === lureClass);
  const isSecond = ({ place, lureClass }: OtherPattern): boolean =>
    !('none' in plan.second) && plan.second.place === place && plan.second.lureClass === lureClass;
  const other = (id: 'second' | 'bigFish' | 'manyFish'): PlanPart[] => {
    const pattern = plan[id];
    // What is planned is told of its block, and a pattern once.
    if ('none' in pattern || isPlanned(pattern) || (id !== 'second' && isSecond(pattern))) return [];
    const { lureClass, depthM } = pattern;
    const marks = (['bigFish', 'manyFish'] as const).filter((mark) => {
      const marked = plan[mark];
      return id === 'second' && !('none' in marked) && isSecond(marked);
    });
    const head = w[id](w.pattern(nameOf(pattern), quantityRange('depth', ...depthM), lureOf(lureClass)));
    return [{ head, lines: marks.map((mark) => words.front.here[mark]) }];
  };
  return [
    ...(plan.notPlanned === null ? [] : [alone(words.plan.notPlanned(text, plan.notPlanned))]),
    ...plan.blocks.map((block) => ({
      head: w.block(
        `${block.from}-${block.to}`,
        nameOf(block),
        quantityRange('depth', ...block.depthM),
        lureWords({ ...block.lure, weightG: null }, lureOf(block.lure.lureClass), words.front),
      ),
      lines: [
        ...(block.fogTo === undefined ? [] : [words.front.inFog(block.fogTo)]),
        ...(block.startAt === undefined ? [] : [words.front.startLate(block.startAt)]),
        ...whyLines(block, text, words),
        ...marksOf(plan, block, words),
        words.plan.giveUp(block.giveUp),
      ],
    })),
    ...stretchesOf(plan.closed).map(({ from, to, of }) =>
      alone(
        w.closed(
          `${from}-${to}`,
          namesIn(of, ({ hazard }) => (text[`safety.${hazard}.label`] ?? hazard).toLowerCase()),
        ),
      ),
    ),
    ...beInLines(plan, words).map(alone),
    ...(plan.leftOut === null ? [] : [alone(words.plan.leftOut(text, plan.leftOut))]),
    ...other('second'),
    ...other('bigFish'),
    ...other('manyFish'),
  ];
}

/** What is told of the block that larger or more fish tend to be at, on a day of several. */
function marksOf(plan: DayPlan, block: DayPlan['blocks'][number], { front }: Words): string[] {
  if (plan.blocks.length === 1) return [];
  return (['bigFish', 'manyFish'] as const).flatMap((id) => {
    const pattern = plan[id];
    if ('none' in pattern) return [];
    const { place, lureClass } = pattern;
    const first = plan.blocks.find((one) => one.place === place && one.lure.lureClass === lureClass);
    return first === block ? [front.here[id]] : [];
  });
}

/** When to be off the water: for good, or for a hazard that passes and again at the end of the plan. */
function beInLines({ beInBy, blocks, lightAllNight }: DayPlan, { front }: Words): string[] {
  if (beInBy === null) return lightAllNight === true ? [front.lightAllNight] : [];
  const again = blocks.find(({ from }) => from >= beInBy.at);
  return [
    again === undefined
      ? front.beIn(beInBy.at)
      : front.offThenIn(beInBy.at, again.from, blocks.at(-1)?.to ?? again.to),
  ];
}

/** Why the place changes, then why this one; what the first says the second does not say again. */
function whyLines(
  { whyChange, because }: DayPlan['blocks'][number],
  text: RuleText,
  { plan, whatIf }: Words,
): string[] {
  const change = whyChange === null ? '' : plan.change(text, whyChange);
  const fresh = because
    .map((reason) => plan.reason(text, reason))
    .filter((reason) => !change.toLowerCase().includes(reason.toLowerCase().replace(/\.$/, '')));
  return [change, fresh.length === 0 ? '' : whatIf.plan.because(fresh.join(' '))].filter(Boolean);
}

/** Whether hazards leave no hours to fish: then no place and no lure is told as if to go. */
export const isKeptInBy = ({ plan }: Pick<AdviceInWords, 'plan'>): boolean =>
  plan !== null &&
  plan.blocks.length === 0 &&
  (plan.notPlanned?.code === 'ashore' ||
    plan.notPlanned?.code === 'closed' ||
    plan.notPlanned?.code === 'frozen');

/** How to work it: the cards of the plan's blocks with their hours, else of the first places. */
export function whatIfCards(
  { plan, presentations }: Pick<AdviceInWords, 'plan' | 'presentations'>,
  text: RuleText,
  words: Words = wordsFor('en'),
): {
  readonly when: string;
  readonly card: PresentationCard;
}[] {
  if (isKeptInBy({ plan })) return [];
  return plan === null || plan.blocks.length === 0
    ? presentations.map((card) => ({ when: '', card }))
    : plan.blocks.map(({ from, to, cast }) => ({
        when: `${from}-${to} `,
        card: sayCast(cast, text, words),
      }));
}
