import type { ReadingQuestion } from '../record/index.ts';
import { expandQuantities, type UnitSystem } from '../units/index.ts';
import { say } from './catalogue.ts';
import { wordsFor, type Words } from './languages.ts';

/** What speaks against a reading, as a sentence in the units of whoever gave it. */
export const saidQuestion = (
  question: ReadingQuestion,
  units: UnitSystem,
  words: Words = wordsFor('en'),
): string => expandQuantities(say(words.readingPage.question, question), units, words.page.joint);
