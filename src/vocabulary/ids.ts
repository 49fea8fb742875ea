/** The ids of a table in the order written: what unions, `z.enum` and lists are made from. */
export function idsOf<T extends object>(table: T): readonly [keyof T & string, ...(keyof T & string)[]] {
  // A table of the vocabulary is never empty, and its keys are the ids by construction.
  return Object.keys(table) as unknown as readonly [keyof T & string, ...(keyof T & string)[]];
}

/** Whether a text is one of the ids of a table. */
export function isIdOf<T extends object>(table: T, text: string): text is keyof T & string {
  return Object.hasOwn(table, text);
}
