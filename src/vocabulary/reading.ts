/** How a lake's briefing is read: the languages that have a folder of words, and the two clocks. */
export const LANGUAGES = ['en'] as const;
export type Language = (typeof LANGUAGES)[number];

export const CLOCKS = ['12h', '24h'] as const;
export type ClockStyle = (typeof CLOCKS)[number];

/** Where a reading is kept to have been taken when nobody named a place; `words` says it in the reader's language. */
export const MAIN_LAKE = 'main lake';
