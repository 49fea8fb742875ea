/** A temperature below zero is no option: its sign is written as the minus that no option begins with. */
export const operand = (word: string): string =>
  /^-\d+(?:\.\d+)?\s*°?[CF]$/i.test(word) ? `\u2212${word.slice(1)}` : word;
