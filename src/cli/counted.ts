/** A number with its noun. */

/** @param many where it is not the word with an s */
export const counted = (n: number, one: string, many = `${one}s`): string => `${n} ${n === 1 ? one : many}`;
