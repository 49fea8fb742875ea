/** Says a fact of any room in one language. */
import type { CastFacts, HazardFacts } from '../../briefing/index.ts';
import type { RuleText } from '../../config/index.ts';
import type { Fact } from '../catalogue.ts';
import type { HazardWords, PresentationWords, StepsByKind } from '../inWords.ts';
import type { Words } from '../languages.ts';

export type CastWords = PresentationWords & {
  readonly lureClass: string;
  /** Left out of documents that kept their steps as sentences. */
  readonly byKind?: StepsByKind;
};

export interface Teller {
  /** The sentence of a fact; '' for a code that this version has no sentence for, as an older document may hold. */
  (fact: Fact): string;
  readonly hazard: (hazard: HazardFacts) => HazardWords;
  readonly cast: (cast: CastFacts) => CastWords;
  /** What a hazard is called, by its row; '' where the rules' words do not say. */
  readonly hazardLabel: (id: string) => string;
}

/** @param text the rules' own words that go with the facts */
export function tellerOf(words: Words, text: RuleText): Teller {
  // Every room's catalogue is exhaustive over its own facts by type; of a document read back only the code is known.
  const all = words.facts(text) as unknown as Readonly<
    Record<string, ((fact: Fact, inner: (fact: Fact) => string) => string) | undefined>
  >;
  const tell = (fact: Fact): string =>
    Object.hasOwn(all, fact.code) ? (all[fact.code]?.(fact, tell) ?? '') : '';
  return Object.assign(tell, {
    hazard: (hazard: HazardFacts): HazardWords => {
      if ('told' in hazard) return words.safety.told(text, hazard.told);
      const { headline, what, where, when, doThis } = hazard;
      return {
        label: '',
        headline: tell(headline),
        what: tell(what),
        where: tell(where),
        when: tell(when),
        doThis: tell(doThis),
      };
    },
    cast: (cast: CastFacts): CastWords => {
      if ('told' in cast) return words.cast(text, cast.told);
      const { lureClass, because, reel, pauseWords, lineWords, steps, misfit } = cast;
      return {
        lureClass: tell(lureClass),
        because: tell(because),
        reel: tell(reel),
        pauseWords: tell(pauseWords),
        lineWords: tell(lineWords),
        steps: steps.map(tell),
        ...(misfit === undefined ? {} : { misfit: tell(misfit) }),
      };
    },
    hazardLabel: (id: string): string => text[`safety.${id}.label`] ?? '',
  });
}
