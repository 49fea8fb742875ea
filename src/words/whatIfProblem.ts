/** What keeps a what-if from being answered, for who filled in a form. */
import type { FormFault } from '../advice/whatIf/index.ts';
import { say } from './catalogue.ts';
import type { FormRefusal } from './en/whatIf.ts';
import type { Words } from './languages.ts';

/** @param field what the field is called on the form */
export const saidProblem = (field: string, fault: FormFault | FormRefusal, words: Words): string =>
  words.whatIf.problem(field, say(words.whatIf.fault, fault));
