/** An advice in sentences, for answers to a what-if; what is archived keeps the facts. */
import {
  type Advice,
  type AirTurn,
  cardOf,
  type CastCard,
  type Hazard,
  type PositionAdvice,
  type SafetyAdvice,
  type Tendency,
  windOnPlace,
} from '../advice/index.ts';
import type { DayPlan } from '../advice/plan/index.ts';
import type { RuleText } from '../config/index.ts';
import type { CastStatement } from '../briefing/index.ts';
import { say } from './catalogue.ts';
import type {
  AdviceInWords,
  HazardInWords,
  PositionInWords,
  PresentationCard,
  SafetyInWords,
  TendencyInWords,
} from './inWords.ts';
import { placeName } from './en/advice.ts';
import { hazardHours, levelHours } from './page/closedHours.ts';
import { sentenceOf } from './page/sentence.ts';
import { ruleAgainst, ruleWords } from './ruleWords.ts';
import { wordsFor, type Words } from './languages.ts';

const REASONS = 2;

const castFact = (of: CastCard['told']): CastStatement => ({ code: 'cast', of });

/** How one class is worked at one place: its numbers and its sentences. */
export function sayCast(
  { told, ...numbers }: CastCard,
  text: RuleText,
  words: Words = wordsFor('en'),
): PresentationCard {
  return { ...numbers, ...words.cast(text, castFact(told)) };
}

function positionInWords(position: PositionAdvice, text: RuleText, words: Words): PositionInWords {
  const { because, limitedBy, periodBecause, evidence, place, ...rest } = position;
  const { advice } = words;
  const reasons = [...new Set(because.map((fact) => say(advice.reason(text), fact)))].slice(0, REASONS);
  return {
    place,
    name: placeName(text, place),
    ...rest,
    periodBecause: say(advice.period(text), periodBecause),
    because: reasons.length === 0 ? [advice.noReason] : reasons,
    limitedBy: say(advice.limit(text), limitedBy),
    evidence: evidence.map((entry) => ({
      ...entry,
      sentence: entry.contribution < 0 ? ruleAgainst(text, entry.rule) : ruleWords(text, entry.rule),
    })),
  };
}

function hazardInWords(
  hazard: Hazard,
  text: RuleText,
  words: Words,
  closed: DayPlan['closed'] = [],
): HazardInWords {
  const hours = hazardHours(closed, hazard, words);
  const { headline, what, where, when, doThis } = words.safety.told(text, hazard);
  return {
    id: hazard.id,
    level: hazard.level,
    headline,
    what,
    where,
    when: hours === '' || hazard.code === 'official' ? when : sentenceOf(hours),
    doThis,
    source: hazard.source,
    ...(hazard.code === 'official'
      ? {
          official: {
            issuer: hazard.source,
            text: hazard.text,
            endsMs: hazard.endsMs,
            ...(hazard.cut === undefined ? {} : { cut: hazard.cut }),
            ...(hazard.url === undefined ? {} : { url: hazard.url }),
          },
        }
      : {}),
  };
}

const isToldAsHazard = (gap: SafetyAdvice['notChecked'][number], hazards: readonly Hazard[]): boolean =>
  gap.code === 'hazard' && hazards.some((hazard) => hazard.code === 'unknown' && hazard.row === gap.row);

/**
 * The dangers in words, with their hours where a plan knows them.
 *
 * @param plan the day's; null where there is none
 */
export function saySafety(
  safety: SafetyAdvice,
  text: RuleText,
  words: Words = wordsFor('en'),
  plan: DayPlan | null = null,
): SafetyInWords {
  const closed = plan?.closed ?? [];
  const { level } = safety;
  return {
    level: safety.level,
    levelWords: levelHours(
      ruleWords(text, `safety.levels.${level}`),
      { level, blocks: plan?.blocks.length ?? 0, closed },
      words,
    ),
    hazards: safety.hazards.map((hazard) => hazardInWords(hazard, text, words, closed)),
    // What is a danger for not being known is told with the dangers.
    notChecked: safety.notChecked
      .filter((gap) => !isToldAsHazard(gap, safety.hazards))
      .map((fact) => say(words.safety.notChecked(text), fact)),
    deferTo: ruleWords(text, 'safety.deferTo'),
  };
}

/** Levels of danger from here are told of a day ahead. */
const TOLD_LEVEL = 3;

function tendencyInWords(tendency: Tendency, text: RuleText, words: Words): TendencyInWords {
  const because = words.tendency.because(text);
  const { bestDay } = tendency;
  const turned = (turns: readonly AirTurn[]): string[] => turns.map((turn) => say(words.tendency.turn, turn));
  return {
    word: tendency.word,
    because: words.tendency.day([say(because, tendency.because), ...turned(tendency.turnsToday)]),
    trigger: say(words.tendency.trigger, tendency.trigger),
    days: tendency.days.map(({ level, hazard, turns, ...day }) => ({
      ...day,
      because: words.tendency.day([
        say(because, day.because),
        ...turned(turns),
        ...(hazard === null || level < TOLD_LEVEL
          ? []
          : [words.tendency.danger(level, hazardInWords(hazard, text, words).headline)]),
      ]),
    })),
    ...(bestDay === undefined
      ? {}
      : { bestDay: { date: bestDay.date, because: say(because, bestDay.because) } }),
  };
}

/**
 * Says an advice.
 *
 * @param text the rules' own sentences (`RuleBook.text`)
 */
export function sayAdvice(advice: Advice, text: RuleText, words: Words = wordsFor('en')): AdviceInWords {
  const { phase, positions, lead, swap, searchPlan, safety, tendency, confidence, ...rest } = advice;
  return {
    ...rest,
    phase: { ...phase, because: say(words.advice.season(text), phase.because) },
    positions: positions.map((position) => positionInWords(position, text, words)),
    closeWords: lead === null ? '' : say(words.advice.lead(text), lead),
    swap:
      swap === null
        ? null
        : {
            signal: swap.signal,
            from: swap.from,
            to: swap.to,
            sentence: say(words.advice.swap(text), swap),
          },
    searchPlan: searchPlan.map(({ place, named, minutes }) => ({
      place,
      step: words.plan.searchStep(text, place, windOnPlace(advice, place), named),
      minutes,
      moveOn: ruleWords(text, `place.${place}.moveOn`),
    })),
    presentations: advice.casts.map((of) => sayCast(cardOf(of), text, words)),
    safety: saySafety(safety, text, words, rest.plan),
    tendency: tendency === null ? null : tendencyInWords(tendency, text, words),
    confidence: {
      word: confidence.word,
      because: words.advice.confidenceLine(
        confidence.because.map((fact) => say(words.advice.confidence(text), fact)),
      ),
    },
  };
}
