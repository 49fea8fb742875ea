import { wordsFor, type Words } from './languages.ts';

export { sayAdvice, sayCast, saySafety } from './adviceInWords.ts';
export type { AdviceInWords, PresentationCard, SafetyInWords } from './inWords.ts';
export { say, type Catalogue, type Fact, type Inner } from './catalogue.ts';
export { wordsFor, type Words } from './languages.ts';
export { PSEUDO } from './pseudo.ts';
export { BOTTOM_LINE_MAX, COLD_WATER_C } from './page/headline.ts';
export { FRONT_WORDS, frontText } from './page/frontOf.ts';
export { outingParts, type OutingPart } from './page/outings.ts';
export { pageOf, withRulesWords } from './page/pageOf.ts';
export {
  isFacts,
  languageOf,
  readArchived,
  toPage,
  twinJson,
  twinSchema,
  type KeptDocument,
} from './page/read.ts';
export {
  type BriefingPage,
  type Front,
  type PageBlock,
  type PagePlan,
  type PageCast,
  type PageChange,
  type PageFigure,
  type PageHazard,
  type PageMap,
  type PagePosition,
  type PageRow,
} from './page/schema.ts';
export { stretchesOf } from './page/closedHours.ts';
export { scoreWords } from './page/scores.ts';
export { lureNamed, placeNamed } from './named.ts';
export { saidQuestion } from './readingQuestion.ts';
export { refusalWords, type LakeRefusal, type WishRefusal } from './refusal.ts';
export type { FormRefusal } from './en/whatIf.ts';
export { saidProblem } from './whatIfProblem.ts';
export { isKeptInBy, whatIfCards, whatIfPlan, type PlanPart } from './whatIfPlan.ts';
export { capital } from './letters.ts';
export { lowerFirst } from './page/sentence.ts';
export { clock, dateWords, dateWordsAt, momentWords, zoneWords } from './page/when.ts';

export type Messages = Words['page'];

export function messagesFor(language: string): Messages {
  return wordsFor(language).page;
}
