/** Small repairs of sentences that are put together from parts. */

export const lowerFirst = (text: string): string =>
  /^[A-Z][a-z]/.test(text) ? text.charAt(0).toLowerCase() + text.slice(1) : text;
export { inert } from '../../units/index.ts';
export const ended = (text: string): string => (/[.!?]$/.test(text) ? text : `${text}.`);
export const unended = (text: string): string => text.replace(/\.$/, '');
/** A clause made a sentence: capital first, full stop last. */
export const sentenceOf = (text: string): string =>
  text === '' ? '' : ended(/^[a-z]/.test(text) ? text.charAt(0).toUpperCase() + text.slice(1) : text);
