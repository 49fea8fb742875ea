/** What an advice says, among the facts of all rooms; the rules' own words come with the document. */
import type { AdviceStatement, CastStatement, ToldHazard } from '../../briefing/index.ts';
import type { RuleText } from '../../config/index.ts';
import { say, type Catalogue, type Fact } from '../catalogue.ts';
import type { HazardWords, PresentationWords, StepsByKind } from '../inWords.ts';
import { advice } from './advice.ts';
import { ruleWords } from '../ruleWords.ts';
import { planWords } from './plan.ts';
import { lureName, presentationWords, stepsByKind } from './presentation.ts';
import { safety } from './safety.ts';
import { tendency } from './tendency.ts';

/** A hazard as a document kept it: of what is read back only the code is known. */
export const toldHazard = (text: RuleText, told: Fact): HazardWords => safety.told(text, told as ToldHazard);

/** How a class is worked, as a document kept it. */
export function toldCast(
  text: RuleText,
  told: Fact,
): PresentationWords & { readonly lureClass: string; readonly byKind: StepsByKind } {
  const { of } = told as CastStatement;
  return { lureClass: lureName(text, of.lureClass), ...presentationWords(text, of), byKind: stepsByKind(of) };
}

/** What a hazard is called; of an official one, what it is. */
function hazardName(text: RuleText, hazard: ToldHazard): string {
  const { label, headline } = safety.told(text, hazard);
  return hazard.code === 'official' ? headline.replace(/[.]$/, '') : label;
}

export const adviceStatements = (text: RuleText): Catalogue<AdviceStatement> => ({
  // A document of before the sides of the wind kept a step by its key alone.
  'rules.words': ({ key }) => planWords.sided(ruleWords(text, key), undefined),
  'advice.searchStep': ({ place, named, windFromDeg }) =>
    planWords.searchStep(text, place, windFromDeg, named),
  'advice.lure': ({ lure }) => lureName(text, lure),
  'advice.season': ({ of }) => say(advice.season(text), of),
  'advice.reason': ({ of }) => say(advice.reason(text), of),
  'advice.noReason': () => advice.noReason,
  'advice.limit': ({ of }) => say(advice.limit(text), of),
  'advice.lead': ({ of }) => say(advice.lead(text), of),
  'advice.swap': ({ of }) => say(advice.swap(text), of),
  'advice.confidence': ({ of }) =>
    advice.confidenceLine(of.map((fact) => say(advice.confidence(text), fact))),
  'advice.notChecked': ({ of }) => say(safety.notChecked(text), of),
  'advice.day': ({ because, turns, danger }) =>
    tendency.day([
      // Beside a turn of the air or a danger nothing is called unchanged.
      ...(because.code === 'noChange' && (turns.length > 0 || danger !== undefined)
        ? []
        : [say(tendency.because(text), because)]),
      ...turns.map((turn) => say(tendency.turn, turn)),
      ...(danger === undefined ? [] : [tendency.danger(danger.level, hazardName(text, danger.hazard))]),
    ]),
  'advice.trigger': ({ of }) => say(tendency.trigger, of),
  'plan.reason': ({ of }) => planWords.reason(text, of),
  'plan.change': ({ of }) => planWords.change(text, of),
  'plan.giveUp': ({ of }) => planWords.giveUp(of),
  'plan.noPattern': ({ of }) => planWords.noPattern(of),
  'plan.leftOut': ({ of }) => planWords.leftOut(text, of),
  'plan.notPlanned': ({ of }) => planWords.notPlanned(text, of),
});
