import type { Advice, AirTurn, Hazard, PositionAdvice, SafetyAdvice, Tendency } from '../advice/types.ts';
import type {
  AdviceInWords,
  HazardInWords,
  HazardWords,
  PositionInWords,
  SafetyInWords,
  TendencyInWords,
} from '../advice/inWords.ts';
import type { RuleText } from '../config/ruleText.ts';
import { say } from './catalogue.ts';
import { placeName, ruleWords } from './en/advice.ts';
import { en } from './en/index.ts';

const REASONS = 2;

function positionInWords(position: PositionAdvice, text: RuleText): PositionInWords {
  const { because, limitedBy, periodBecause, evidence, place, ...rest } = position;
  const reasons = [...new Set(because.map((fact) => say(en.advice.reason(text), fact)))].slice(0, REASONS);
  return {
    place,
    name: placeName(text, place),
    ...rest,
    periodBecause: say(en.advice.period(text), periodBecause),
    because: reasons.length === 0 ? [en.advice.noReason] : reasons,
    limitedBy: say(en.advice.limit(text), limitedBy),
    evidence: evidence.map((entry) => ({ ...entry, sentence: ruleWords(text, entry.rule) })),
  };
}

function hazardInWords(hazard: Hazard, text: RuleText): HazardInWords {
  const catalogue = en.safety.hazard(text);
  // As in `say`: key and code are the same by construction.
  const speak = catalogue[hazard.code] as (fact: Hazard) => HazardWords;
  const { headline, what, where, when, doThis } = speak(hazard);
  const briefs = (hazard.also ?? []).flatMap((milder) => en.safety.briefly(milder, text) ?? []);
  return {
    id: hazard.id,
    level: hazard.level,
    headline,
    what: [what, ...briefs].join(' '),
    where,
    when,
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

/** The dangers in words. */
export function saySafety(safety: SafetyAdvice, text: RuleText): SafetyInWords {
  return {
    level: safety.level,
    levelWords: ruleWords(text, `safety.levels.${safety.level}`),
    hazards: safety.hazards.map((hazard) => hazardInWords(hazard, text)),
    notChecked: safety.notChecked.map((fact) => say(en.safety.notChecked(text), fact)),
    deferTo: ruleWords(text, 'safety.deferTo'),
  };
}

/** Levels of danger from here are told of a day ahead. */
const TOLD_LEVEL = 3;

function tendencyInWords(tendency: Tendency, text: RuleText): TendencyInWords {
  const because = en.tendency.because(text);
  const { bestDay } = tendency;
  const turned = (turns: readonly AirTurn[]): string[] => turns.map((turn) => say(en.tendency.turn, turn));
  return {
    word: tendency.word,
    because: en.tendency.day([say(because, tendency.because), ...turned(tendency.turnsToday)]),
    trigger: say(en.tendency.trigger, tendency.trigger),
    days: tendency.days.map(({ level, hazard, turns, ...day }) => ({
      ...day,
      because: en.tendency.day([
        say(because, day.because),
        ...turned(turns),
        ...(hazard === null || level < TOLD_LEVEL
          ? []
          : [en.tendency.danger(level, hazardInWords(hazard, text).headline)]),
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
export function sayAdvice(advice: Advice, text: RuleText): AdviceInWords {
  const { phase, positions, lead, swap, searchPlan, safety, tendency, confidence, ...rest } = advice;
  return {
    ...rest,
    phase: { ...phase, because: say(en.advice.season(text), phase.because) },
    positions: positions.map((position) => positionInWords(position, text)),
    closeWords: lead === null ? '' : say(en.advice.lead(text), lead),
    swap:
      swap === null
        ? null
        : {
            signal: swap.signal,
            from: swap.from,
            to: swap.to,
            sentence: say(en.advice.swap(text), swap),
          },
    searchPlan: searchPlan.map(({ place, minutes }) => ({
      place,
      step: ruleWords(text, `place.${place}.step`).replaceAll(
        '{windySide}',
        en.plan.windySide(windOn(advice, place)),
      ),
      minutes,
      moveOn: ruleWords(text, `place.${place}.moveOn`),
    })),
    safety: saySafety(safety, text),
    tendency: tendency === null ? null : tendencyInWords(tendency, text),
    confidence: {
      word: confidence.word,
      because: en.advice.confidenceLine(
        confidence.because.map((fact) => say(en.advice.confidence(text), fact)),
      ),
    },
  };
}

/** Where the wind of a place's own hours comes from, degrees; undefined where it is not in the plan or knows no wind. */
function windOn({ plan }: Advice, place: string): number | undefined {
  const reasons = plan?.blocks.flatMap((block) => (block.place === place ? block.because : [])) ?? [];
  return reasons.flatMap((reason) => (reason.code === 'windOnIt' ? (reason.fromDeg ?? []) : []))[0];
}
