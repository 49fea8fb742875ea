/** The steps of the cards of one day: a card tells what differs, and names of what an earlier card has told the rest. */
import type { PageCast, Words } from '../words/index.ts';
import { sentencesOf } from './once.ts';

export type StepKind = NonNullable<PageCast['stepKinds']>[number];

export interface CardStep {
  /** What the step is about; left out of documents that did not keep it: such a step is told anew. */
  readonly kind?: StepKind | undefined;
  readonly text: string;
}

/** Steps of the cards as printed, and on which card each sentence of a day was told first. */
export class CardSteps {
  readonly #toldOn = new Map<string, number>();
  readonly #cards: string[] = [];

  /**
   * @param steps of the next card of the day, in order
   * @returns a line a step, what an earlier card told named by its kind in the last; one line where all of it was told
   */
  next(steps: readonly CardStep[], { cast: m }: Words['page']): string[] {
    const whole = steps.map(({ text }) => text).join('\n');
    const same = this.#cards.indexOf(whole);
    const card = this.#cards.push(whole) - 1;
    if (same >= 0) return [m.allAsOn(same)];
    const named = new Map<number, Set<StepKind>>();
    const lines = steps.flatMap(({ kind, text }) => {
      if (kind === undefined) return [text];
      const told = this.#told(sentencesOf(text), card);
      const [first] = told.before;
      if (first === undefined) return [text];
      if (told.fresh !== '') return [m.elseAsOn(told.fresh, first)];
      named.set(first, (named.get(first) ?? new Set()).add(kind));
      return [];
    });
    return [
      ...lines,
      ...[...named].map(([on, kinds]) =>
        m.asOn(
          [...kinds].map((kind) => m.stepNames[kind]),
          on,
        ),
      ),
    ];
  }

  /** Those sentences that no card before told, and the cards that told the others. */
  #told(sentences: readonly string[], card: number): { fresh: string; before: number[] } {
    const before = sentences.flatMap((sentence) => this.#toldOn.get(sentence) ?? []);
    const fresh = sentences.filter((sentence) => !this.#toldOn.has(sentence));
    for (const sentence of fresh) this.#toldOn.set(sentence, card);
    return { fresh: fresh.join(' '), before };
  }
}
