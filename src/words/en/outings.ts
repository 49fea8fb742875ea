/** What outings say. A rate is what was told, never what will be caught. */
const plural = (n: number, one: string, many: string): string => `${n} ${n === 1 ? one : many}`;

export const outings = {
  heading: 'What readers told',
  own: 'What you told',
  aspect: {
    agreement: 'With the plan',
    place: 'By kind of place',
    lure: 'By class of lure',
    window: 'By part of the day (middle of the outing)',
  },
  agreement: { followed: 'where the plan said', elsewhere: 'elsewhere' },
  window: {
    early: 'before 9:00',
    midday: '9:00 to 13:00',
    afternoon: '13:00 to 17:00',
    evening: 'after 17:00',
  },
  /** Figures arrive as text. */
  rate: (name: string, perHour: string, low: string, high: string, n: number, hours: string): string =>
    `${name}: ${perHour} fish an hour (8 in 10: ${low} to ${high}; ${plural(n, 'outing', 'outings')}, ${hours} h)`,
  tooFew: (name: string, n: number, least: number): string =>
    `${name}: too few to say (${plural(n, 'outing', 'outings')}; from ${least} on)`,
  all: 'All outings',
  count: (n: number, readers: number, blank: number): string =>
    `${plural(n, 'outing', 'outings')} of ${plural(readers, 'reader', 'readers')}, ${blank} of them without a fish`,
  tooFewShared: (n: number, readers: number, leastOutings: number, leastReaders: number): string =>
    `Too few to say: ${plural(n, 'shared outing', 'shared outings')} of ${plural(readers, 'reader', 'readers')}; something is said from ${leastOutings} outings of ${leastReaders} readers on.`,
  tooFewOwn: (n: number, least: number): string =>
    `Too few to say: ${plural(n, 'outing', 'outings')}; something is said from ${least} on.`,
  silent: (n: number): string =>
    `${plural(n, 'outing', 'outings')} named none or several and ${n === 1 ? 'is' : 'are'} left out here`,
  /** One line of a briefing. */
  told: (followed: string, elsewhere: string, n: number, readers: number): string =>
    `What ${readers} readers told of ${plural(n, 'outing', 'outings')}: ${followed}; ${elsewhere}.`,
  toldPart: (name: string, perHour: string, low: string, high: string, n: number): string =>
    `${name} ${perHour} fish an hour (8 in 10: ${low} to ${high}; ${n})`,
  caution:
    'Catches mislead: people fish where they expect fish, on days they like, and tell of good days more readily. These figures say what was told, not what will be caught.',
} as const;
