/** How a lake's briefing is read: the languages that have a folder of words, and the two clocks. */
export const LANGUAGES = ['en'] as const;
export type Language = (typeof LANGUAGES)[number];

export const CLOCKS = ['12h', '24h'] as const;
export type ClockStyle = (typeof CLOCKS)[number];
