/** The steps of the cards of one day: what an earlier card has told is named there by its number, whatever the lure. */
import type { Words } from '../words/index.ts';
import { sentencesOf } from './once.ts';

interface Told {
  /** From 0. */
  readonly card: number;
  /** As numbered on it, from 1. */
  readonly step: number;
}

/** Steps of a card as printed, and where each sentence of a day was told first. */
export class CardSteps {
  readonly #toldAt = new Map<string, Told>();
  #card = -1;

  /**
   * @param steps of the next card of the day, in order
   * @returns as many lines; one line alone where all of them stand on one earlier card under the same numbers
   */
  next(steps: readonly string[], { cast: m }: Words['page']): string[] {
    this.#card += 1;
    const lines = steps.map((text, i) => {
      const sentences = sentencesOf(text);
      const before = sentences.map((sentence) => this.#toldAt.get(sentence));
      const first = before.find((told) => told !== undefined);
      for (const sentence of sentences)
        if (!this.#toldAt.has(sentence)) this.#toldAt.set(sentence, { card: this.#card, step: i + 1 });
      if (first === undefined) return { line: text, whole: undefined };
      const fresh = sentences.filter((_, at) => before[at] === undefined).join(' ');
      return fresh === ''
        ? { line: m.stepAsOn(first.step, first.card), whole: first }
        : { line: m.restAsIn(fresh, first.step, first.card), whole: undefined };
    });
    const [card] = lines.map(({ whole }) => whole?.card);
    const same =
      card !== undefined && lines.every(({ whole }, i) => whole?.card === card && whole.step === i + 1);
    return same ? [m.allAsOn(card)] : lines.map(({ line }) => line);
  }
}
