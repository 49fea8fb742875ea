import type { Understood } from '../advice/whatIf/index.ts';
import type { RuleText } from '../config/index.ts';
import { quantityRange } from '../units/index.ts';
import {
  type AdviceInWords as Advice,
  isKeptInBy,
  say,
  whatIfCards,
  whatIfPlan,
  wordsFor,
} from '../words/index.ts';

/** From this share of the season on some nests are guarded: the share from which a second season is named. */
const NESTS_FROM = 0.25;
/** Of a place whose hours hazards close. */
const CLOSED = 'its hours are closed today';
const PERIOD = { earlier: 'earlier in the day', later: 'later in the day', all_day: 'all day' } as const;

/** Advice for a terminal: plain lines in the order of the briefing, quantities still as placeholders. */
export function whatIfText(advice: Advice, understood: Understood, text: RuleText, wind = ''): string {
  const { safety } = advice;
  const keptIn = isKeptInBy(advice);
  const { whatIf, page: w } = wordsFor('en');
  const block = (title: string, lines: readonly string[]): string =>
    lines.length === 0 ? '' : `${title}\n${lines.map((line) => `  ${line}`).join('\n')}\n\n`;
  return [
    block(
      'UNDERSTOOD',
      understood.understood.map((row) => {
        const { field, text: said } = whatIf.figure(row);
        return `${field}: ${said}`;
      }),
    ),
    block(
      'ASSUMED',
      understood.assumptions.map((fact) => say(whatIf.assumed, fact)),
    ),
    block(`SAFETY level ${safety.level}: ${safety.levelWords}`, [
      ...safety.hazards.flatMap((hazard) => [
        hazard.headline,
        `  ${hazard.what}`,
        `  ${w.hazard.when}: ${hazard.when}`,
        `  ${w.hazard.doThis}: ${hazard.doThis}`,
      ]),
      ...safety.notChecked.map((gap) => `Not checked: ${gap}`),
      safety.deferTo,
    ]),
    block('WIND', wind === '' ? [] : [wind]),
    block(
      'PLAN',
      whatIfPlan(advice.plan, text).flatMap(({ head, lines }) => [head, ...lines.map((line) => `  ${line}`)]),
    ),
    block('SEASON', [
      advice.phase.because,
      ...(advice.phase.membership.spawn >= NESTS_FROM && !keptIn ? [wordsFor('en').page.nestCaution] : []),
    ]),
    block('WHERE', whereLines(advice, text)),
    block(
      'SEARCH',
      keptIn
        ? []
        : advice.searchPlan.map(
            (step, index) => `${index + 1}. ${step.step} About ${step.minutes} minutes. ${step.moveOn}`,
          ),
    ),
    block(
      'HOW',
      whatIfCards(advice, text).flatMap(({ when, card }) => [
        `${when}${card.lureClass} at ${card.place.replaceAll('_', ' ')}: ${card.because}`,
        ...card.steps.map((step) => `- ${step}`),
        ...(card.misfit === undefined ? [] : [card.misfit]),
      ]),
    ),
    block(`CONFIDENCE ${advice.confidence.word}`, [advice.confidence.because]),
    block('NOT KNOWN', gapLines(advice)),
  ].join('');
}

/** Places that are open, by their points, and those that a hazard closes; none as if to go where it closes the day. */
function whereLines(advice: Advice, text: RuleText): string[] {
  const { positions } = advice;
  if (isKeptInBy(advice)) return [wordsFor('en').whatIf.leftOutToday];
  const open = positions.filter(({ closedBy }) => closedBy === undefined);
  const names = (some: typeof positions): string => some.map(({ name }) => name).join(', ');
  const closed = positions.flatMap(({ name, closedBy }) =>
    closedBy === undefined ? [] : [`${name} (${hazardName(text, closedBy)})`],
  );
  return [
    ...open
      .slice(0, 5)
      .flatMap((position, index) => [
        `${index + 1}. ${position.name}, ${quantityRange('depth', position.depthM[0], position.depthM[1])}, ${position.bound === 'closed' ? CLOSED : PERIOD[position.period]} (${position.total.toFixed(1)} points)`,
        `   because ${position.because.join(' ')}`,
        `   limited by: ${position.limitedBy}`,
      ]),
    ...(open.length > 5 ? [`Then: ${names(open.slice(5))}.`] : []),
    ...(closed.length > 0 ? [`Closed: ${closed.join(', ')}.`] : []),
    advice.closeWords,
    ...(advice.swap ? [advice.swap.sentence] : []),
  ];
}

/** What a hazard is called, in the middle of a sentence. */
const hazardName = (text: RuleText, id: string): string => (text[`safety.${id}.label`] ?? id).toLowerCase();

/** What is not known: the fields of the form that were left out in one line, all else each in its own. */
function gapLines(advice: Advice): string[] {
  const missing = advice.gaps.flatMap(({ fact }) => (fact.code === 'notGiven' ? [fact] : []));
  const others = saidGaps(advice).flatMap(({ fact, sentence }) =>
    fact.code === 'notGiven' ? [] : [sentence],
  );
  return [...(missing.length === 0 ? [] : [wordsFor('en').signals.notGiven(missing)]), ...others];
}

/** What is not known, each with its sentence. */
export function saidGaps({ gaps }: Advice): (Advice['gaps'][number] & { readonly sentence: string })[] {
  const { gap } = wordsFor('en').signals;
  return gaps.map((one) => ({ ...one, sentence: say(gap, one.fact) }));
}
