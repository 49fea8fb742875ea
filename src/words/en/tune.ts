/** The operator's page that tries a threshold on past mornings. */
export const tune = {
  title: 'Try a threshold',
  note: 'This page is for the operator. It makes past mornings from the record twice, with the rules as they are and with one number changed, and shows the days on which they differ.',
  lake: 'Lake',
  number: 'Number of the rules',
  value: (now: string | null): string => (now === null ? 'New value' : `New value, now ${now}`),
  spring: 'The last spring too (half a minute)',
  tryIt: 'Try it',
  noLake: 'There is no such lake.',
  noNumber: (id: string): string => `"${id}" leads to no number in the rules; take one from the list.`,
  notNumber: (written: string): string =>
    `"${written}" is no number. Give it in SI units with a decimal point, as in the rules: °C, m, m/s, mm.`,
  busy: 'Another trial is under way. Ask again in a moment.',
  lastDays: 'The last 30 days',
  lastSpring: 'The last spring',
  keepTitle: 'To keep it',
  /** @param command as typed */
  keep: (command: string): string =>
    `Put this into the configuration, then ${command}. Nothing was changed here.`,
  was: (value: string): string => `was ${value}`,
  span: (from: string, to: string): string => `${from} to ${to}`,
  none: (span: string, command: string): string =>
    `The record knows no morning of ${span}. ${command} fetches the past once.`,
  differ: (differing: number, mornings: number, span: string, counts: string): string =>
    `${differing} of ${mornings} mornings from ${span} differ: ${counts}.`,
  count: (what: string, n: number): string => `${what} ${n}`,
  what: { danger: 'danger', 'first place': 'first place', lure: 'lure', hours: 'hours' },
  columns: { day: 'Day', what: 'What', before: 'Before', after: 'After', movedBy: 'Moved by' },
  first: (days: number, command: string): string =>
    `The first ${days} days are shown; ${command} writes all.`,
};
