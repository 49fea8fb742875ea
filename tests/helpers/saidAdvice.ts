/** Sentences as a document may hold them, for tests about what is done with sentences and not about which ones. */
import type { AdviceFacts, SaidFact } from '../../src/briefing/index.ts';
import { without } from '../../src/briefing/without.ts';
import type { AdviceInWords, PresentationCard } from '../../src/words/index.ts';

export const said = (text: string): SaidFact => ({ code: 'said', text });

function saidCast(card: PresentationCard): AdviceFacts['casts'][number] {
  const { misfit } = card;
  return {
    ...without(
      card,
      ...(['contactApplies', 'ratedDepthM', 'fallMs', 'countS', 'score', 'temperatureWords'] as const),
    ),
    path: [...card.path],
    lureClass: said(card.lureClass),
    because: said(card.because),
    reel: said(card.reel),
    pauseWords: said(card.pauseWords),
    lineWords: said(card.lineWords),
    steps: card.steps.map(said),
    misfit: misfit === undefined ? undefined : said(misfit),
  };
}

/** An advice whose every sentence is passed on as written, as issues of before had them. */
export function saidAdvice(advice: AdviceInWords): AdviceFacts {
  const { phase, positions, close, closeWords, swap, searchPlan, presentations, safety, tendency } = advice;
  return {
    phase: { leading: phase.leading, because: said(phase.because) },
    positions: positions.map(({ periodBecause: _, ...place }) => ({
      ...place,
      name: said(place.name),
      because: place.because.map(said),
      limitedBy: place.limitedBy === '' ? null : said(place.limitedBy),
      evidence: place.evidence.map((one) => ({ ...one, sentence: said(one.sentence) })),
    })),
    close: close ? said(closeWords) : null,
    swap: swap === null ? null : said(swap.sentence),
    searchPlan: searchPlan.map(({ step, moveOn, ...rest }) => ({
      ...rest,
      step: said(step),
      moveOn: said(moveOn),
    })),
    casts: presentations.map(saidCast),
    safety: {
      level: safety.level,
      hazards: safety.hazards.map(({ headline, what, where, when, doThis, ...hazard }) => ({
        ...hazard,
        headline: said(headline),
        what: said(what),
        where: said(where),
        when: said(when),
        doThis: said(doThis),
      })),
      notChecked: safety.notChecked.map(said),
      ...(safety.deferTo === '' ? {} : { deferTo: said(safety.deferTo) }),
    },
    tendency:
      tendency === null
        ? null
        : {
            word: tendency.word,
            because: said(tendency.because),
            trigger: said(tendency.trigger),
            days: tendency.days.map((day) => ({
              ...day,
              name: said(positions.find(({ place }) => place === day.firstPlace)?.name ?? day.firstPlace),
              because: said(day.because),
            })),
            ...(tendency.bestDay === undefined
              ? {}
              : { bestDay: { date: tendency.bestDay.date, because: said(tendency.bestDay.because) } }),
          },
    confidence: { word: advice.confidence.word, because: said(advice.confidence.because) },
    gaps: advice.gaps,
  };
}
