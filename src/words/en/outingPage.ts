/** The page that asks how it was, and the reader's own outings. */
export const outingPage = {
  title: (lake: string): string => `How was it at ${lake}?`,
  form: {
    when: 'When',
    day: 'Day',
    from: 'From',
    until: 'Until',
    hours: 'Hours fished, if you do not know from when or took a break',
    landed: 'Bass landed',
    landedNote: 'None is an answer, and the one that teaches most.',
    none: 'none',
    orMore: 'or more',
    where: 'Where',
    whereNote:
      'Only the kind of place or the lake’s own name of it, nothing finer. One place tells more than three: tell each stretch of the day by itself if you like.',
    otherKinds: 'Other kinds of place',
    more: 'More, if you like: lures, water, biggest fish',
    lures: 'Lures',
    water: 'Water',
    waterNote: 'It goes into the lake’s estimate at once and may stand on its page, without your name.',
    temperature: (unit: string): string => `Temperature, ${unit}`,
    depth: (unit: string): string => `How deep the thermometer was, ${unit}`,
    clarity: (unit: string): string => `How deep you see a white disc or lure, ${unit}`,
    sure: 'I looked again: the water is right',
    fish: 'Fish',
    bites: 'Bites, the landed ones included',
    biggest: 'The biggest one',
    biggestIn: 'in',
    plan: 'The plan of the day',
    planOf: { '': 'did not look', followed: 'followed it', elsewhere: 'went elsewhere' },
    note: 'Note, for yourself alone',
    shared: (lake: string): string =>
      `Let it count in what all readers of ${lake} see (numbers only, from five readers and 30 outings on)`,
    send: 'Send',
  },
  isRight: 'Is this right?',
  notKept: 'Not kept yet.',
  refused: 'This could not be kept',
  /** @param settings the name of that page */
  private: (settings: string): string =>
    `The link in your mail tells outings in your name for whoever has it, and shows none of them. What you told can be seen, taken along and taken back by a link that ${settings} sends to your address alone, and goes when you erase your address. Tell it ashore, not while the boat is under way.`,
  kept: 'Kept, thank you',
  keptLine: (date: string, hours: string, fish: number, shared: boolean, water: boolean): string =>
    [
      `${date}: ${hours} hours, ${fish === 0 ? 'no fish' : `${fish} fish`}.`,
      shared ? 'It counts for all readers of the lake.' : 'It counts for you alone.',
      ...(water ? ['The water is in the lake’s estimate from now on.'] : []),
    ].join(' '),
  another: 'Tell another stretch or another day',
  /** What the page says while there is no signal. */
  script: {
    keptNow: 'No signal: kept on this telephone, and sent when there is one.',
    notKept: 'No signal, and this browser keeps nothing: send it again later.',
    /** The number of them stands in place of the mark. */
    waits: '# kept on this telephone, sent when there is a signal.',
    waitsLonger: '# kept on this telephone, sent later.',
    sent: 'What was kept on this telephone has been sent.',
  },
  own: {
    title: 'Your outings',
    none: 'You have told none yet.',
    /** @param csv a link, as is `json` */
    take: (csv: string, json: string, n: number): string =>
      `${n} told. Take them along as ${csv} or ${json}.`,
    oneByOne: 'One by one',
    noPlace: 'no place named',
    line: (date: string, hours: string, fish: number, where: string, shared: boolean): string =>
      `${date}: ${hours} h, ${fish} fish; ${where}${shared ? '; shared' : ''}`,
    back: 'Take it back',
    backOf: (date: string, where: string): string => `Take back the outing of ${date}, ${where}`,
  },
};
