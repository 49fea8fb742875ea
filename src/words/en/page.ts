/**
 * Every word of the briefing that does not come from the advice or from a service. A second language is a second
 * file of this shape. Quantities arrive as placeholders, so language and units stay apart.
 */
import type { SignalId } from '../../signals/index.ts';

const plural = (n: number, one: string, many: string): string => `${n} ${n === 1 ? one : many}`;

/** Of the cards of a day, of which there are four at most. */
const ORDINALS = ['first', 'second', 'third', 'fourth'];

export const en = {
  language: 'en',
  weekdays: ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'],
  weekdaysLong: ['Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday', 'Sunday'],
  months: ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'],
  dayShort: (weekday: string, day: number, month: string): string => `${weekday} ${day} ${month}`,
  age: (minutes: number): string =>
    minutes < 1
      ? 'just now'
      : minutes < 90
        ? `${minutes} min old`
        : minutes < 48 * 60
          ? `${Math.round(minutes / 60)} h old`
          : `${plural(Math.round(minutes / 1440), 'day', 'days')} old`,
  lastAt: (value: string, when: string): string => `not known (last ${value}, ${when})`,
  unknown: 'not known',
  none: '–',

  marks: {
    demo: 'Demonstration of an invented lake: do not act on it.',
    preview: 'Preview: not an issued briefing.',
    demoShort: 'DEMO',
    previewShort: 'PREVIEW',
  },
  /** What an issue besides the first of its day was made for; '' for the usual one. */
  status: {
    scheduled: '',
    amended: 'Issued again today because the danger or the first place changed.',
    evening: 'The evening’s look at the coming day; the morning’s issue knows more.',
    corrected: 'Issued again today to mend what the first issue had wrong.',
    nil: 'Nothing fresh is known this morning.',
  },
  masthead: {
    issued: 'Issued',
    validTo: 'Valid to',
    nextIssue: 'Next issue',
  },
  headings: {
    safety: 'Safety',
    changed: 'What changed',
    conditions: 'Conditions',
    positions: 'Why these places',
    /** Beside a plan: places that have no hours in it. */
    others: 'Also ranked today',
    cast: 'How to work it',
    tendency: 'Days ahead',
    confidence: 'How sure we are',
    verification: 'How we have done',
    sources: 'Sources',
    limits: 'Limits and cautions',
  },
  notice: {
    heading: 'Notice',
    line: (text: string, from: string, until: string | null): string =>
      `${text} (${from}${until === null ? '' : `, until ${until}`})`,
    ofYear: (date: string, year: string): string => `${date} ${year}`,
  },
  mainLake: 'main lake',
  readingThanks: (where: string, when: string, before: string, after: string): string =>
    `Your reading (${where}, ${when}) moved the estimate from ${before} to ${after}. Thank you.`,
  readingThanksSmall: (where: string, when: string, now: string): string =>
    `Your reading (${where}, ${when}) leaves the estimate at ${now}. Thank you.`,
  pocketThanks: (when: string, before: string, after: string): string =>
    `Your reading of ${when} moved its warmest hour from ${before} to ${after}. Thank you.`,
  pocketThanksSmall: (when: string, now: string): string =>
    `Your reading of ${when} agrees: ${now} at its warmest hour. Thank you.`,
  levelWords: { 1: 'usual care', 2: 'extra care', 3: 'serious', 4: 'stay ashore' },
  levelLine: (level: number, words: string): string => `Level ${level} of 4: ${words}`,
  levelShape: { 1: '○', 2: '◐', 3: '■', 4: '■■' },
  hazard: {
    what: 'What',
    where: 'Where',
    when: 'When',
    doThis: 'Do',
    official: (issuer: string): string => `Official statement of ${issuer}, word for word`,
    ends: (when: string): string => `Ends ${when}.`,
    noEnd: 'The statement gives no end.',
    cut: (url: string | undefined): string =>
      url === undefined ? 'The statement is longer: read all of it at its issuer.' : `Full text at ${url}`,
    none: 'No hazard above usual care was found in what was checked.',
    notChecked: 'Not checked',
    besides: (headlines: readonly string[]): string => `Also: ${headlines.join('; ')}.`,
  },

  subject: {
    withPlace: (lake: string, date: string, level: string, water: string, place: string): string =>
      `${lake} ${date} - ${level}:${water} start at ${place}`,
    noHours: (lake: string, date: string, level: string, water: string): string =>
      `${lake} ${date} - ${level}:${water} no hours left`,
    hazard: (lake: string, date: string, level: string, headline: string): string =>
      `${lake} ${date} - ${level}: ${headline}`,
    nil: (lake: string, date: string): string => `${lake} ${date} - no fresh figures this morning`,
    level: (level: number, words: string): string => `level ${level} ${words}`,
    water: (value: string): string => ` water ${value},`,
  },
  bottomLineOf: {
    start: (place: string, when: string): string => `Start: ${place}${when}`,
    startNamed: (name: string, place: string, when: string): string => `Start at ${name} (${place})${when}`,
    between: (from: string, to: string): string => ` ${from} to ${to}`,
    dark: ' (no daylight left today)',
    /** @param reason a whole sentence */
    reason: (start: string, reason: string): string => `${start}. ${reason}`,
    because: (reason: string): string => `, because ${reason}`,
    coldWater: (value: string): string => `Water ${value}: wear the life jacket.`,
    stayAshore: 'Stay ashore today',
    serious: 'Think twice before launching',
    nil: 'No fresh figures this morning. Judge the water yourself before you go.',
    noHours: 'No hours are left to fish today.',
    noPlace: 'No ranking today: too little is known. Judge the water yourself.',
  },
  /** The reason in half a line; the full one stands with the position. */
  reason: {
    pocketMinusMainC: (v: string, positive: boolean): string =>
      positive ? `pockets should get ${v} warmer than the lake` : `pockets stay ${v} colder than the lake`,
    waterC: (v: string): string => `the lake is at ${v}`,
    waterChange3dC: (v: string, positive: boolean): string =>
      positive ? `the lake gained ${v} in three days` : `the lake lost ${v} in three days`,
    waterChange7dC: (v: string, positive: boolean): string =>
      positive ? `the lake gained ${v} in a week` : `the lake lost ${v} in a week`,
    airDrop24hC: (v: string): string => `the air fell ${v} in a day`,
    rain24Mm: (v: string): string => `${v} of rain fell in 24 h`,
    rain72Mm: (v: string): string => `${v} of rain fell in three days`,
    level24hM: (v: string, positive: boolean): string =>
      positive ? `the lake rose ${v} in a day` : `the lake fell ${v} in a day`,
    level72hM: (v: string, positive: boolean): string =>
      positive ? `the lake rose ${v} in three days` : `the lake fell ${v} in three days`,
    windMs: (v: string): string => `wind of ${v} works the banks`,
    clarityM: (v: string): string => `you can see ${v} down`,
  },
  /** The same where nobody measured the clarity. */
  clarityReason: {
    clear: 'the water is likely clear',
    stained: 'the water is likely stained',
    muddy: 'the water is likely muddy',
    'very-muddy': 'the water is likely very muddy',
  },

  changed: {
    first: 'First issue for this lake: nothing to compare with.',
    nothing: (since: string): string => `No significant change since ${since}.`,
    since: (since: string): string => `Since ${since}:`,
    figure: (label: string, before: string, now: string): string => `${label} ${before} → ${now}.`,
    airFall: (v: string): string => `The day’s mean air is ${v} below yesterday’s.`,
    /** What a change without a row of its own is of. */
    of: { airFall: 'Air' },
    /** @param what the danger that stands now; '' where none is named */
    hazardUp: (before: number, now: number, what: string): string =>
      `Danger level ${before} → ${now}, worse${what === '' ? '' : `: ${what}`}.`,
    hazardDown: (before: number, now: number): string => `Danger level ${before} → ${now}, better.`,
    lost: (label: string): string => `${label} is no longer known.`,
    back: (label: string, now: string): string => `${label} is known again: ${now}.`,
    firstPlace: (before: string, now: string): string =>
      `Over the whole day ${now} leads now, ${before} before.`,
    movedUp: (place: string, before: number, now: number): string =>
      `It moved ${place} up from ${before} to ${now} over the whole day.`,
    movedDown: (place: string, before: number, now: number): string =>
      `It moved ${place} down from ${before} to ${now} over the whole day.`,
    entered: (place: string, now: number): string => `It brought ${place} in at ${now}.`,
    strengthened: (place: string): string => `It speaks more for ${place}; the order stays.`,
    weakened: (place: string): string => `It speaks less for ${place}; the order stays.`,
  },

  rows: {
    waterC: 'Water, main lake',
    pocketC: 'Pocket at its warmest',
    pocketMinusMainC: 'Pocket minus main lake',
    levelM: 'Lake level',
    level24hM: 'Level change, 24 h',
    dischargeM3s: 'Inflow',
    rain24Mm: 'Rain, 24 h',
    rain72Mm: 'Rain, 3 days',
    airMean3dC: 'Air, mean of 3 days',
    airMean7dC: 'Air, mean of 7 days',
    windMs: 'Wind, fishing hours',
    cloudPct: 'Cloud, daylight hours',
    clarityM: 'Clarity (sight depth)',
  },
  /** What passes a place on running water. */
  riverFlow: 'Flow',
  /** Labels of rows that hold more than one figure. */
  merged: {
    pocketC: 'Pocket',
    pocketMinusMainC: 'Pocket',
    levelM: 'Level',
    level24hM: 'Level',
    rain24Mm: 'Rain',
    rain72Mm: 'Rain',
    airMean3dC: 'Air',
    airMean7dC: 'Air',
    windMs: 'Wind',
    cloudPct: 'Cloud',
    clarityM: 'Clarity',
    waterC: 'Lake',
  } as Readonly<Partial<Record<SignalId, string>>>,
  mergedFigure: {
    pocketC: (v) => `${v} at its warmest`,
    pocketMinusMainC: (v) => `${v} against the lake then`,
    level24hM: (v) => `${v} in 24 h`,
    rain24Mm: (v) => `${v} over 24 h`,
    rain72Mm: (v) => `${v} over 3 days`,
    airMean3dC: (v) => `mean of 3 days ${v}`,
    airMean7dC: (v) => `of 7 days ${v}`,
  } as Readonly<Partial<Record<SignalId, (value: string) => string>>>,
  /** Rain of three days, where there was none. */
  dry: 'none in 3 days',
  today: (v: string): string => `today ${v}`,
  windFrom: (point: string): string => `from ${point}`,
  clarity: {
    class: { clear: 'clear', stained: 'stained', muddy: 'muddy', 'very-muddy': 'very muddy' },
    /** In place of a number. */
    guess: (words: string): string => `${words} (a guess)`,
  },
  kind: { observed: 'observed', forecast: 'forecast', estimated: 'estimated' },
  ageing: 'some hours old',
  /** Between the ends of a range whose unit is written once. */
  joint: 'to',
  /** Halves of the day on the clock of 12 hours. */
  halves: ['am', 'pm'] as readonly [string, string],
  range: (low: string, high: string): string => (low === high ? low : `${low} to ${high}`),
  row: {
    change: (v: string): string => `${v} in 24 h`,
    trend: (v: string): string => `trend ${v}`,
    tenDays: (v: string): string => `ten days ${v}`,
    next: (v: string, hours: number): string => `next ${hours} h ${v}`,
    interval: (v: string): string => `likely ${v}`,
    nextLikely: (v: string, likely: string): string => `${v} (${likely} likely)`,
  },

  positions: {
    place: 'Place',
    depth: 'Depth',
    when: 'When',
    because: 'Because',
    limitedBy: 'Limited by',
    choice: ['first choice', 'second choice', 'third choice'],
    period: { earlier: 'early', later: 'later in the day', all_day: 'all day' },
    hours: (words: string, from: string, to: string): string => `${words}, ${from} to ${to}`,
    bound: {
      rest: 'rest of the day',
      cool: (words: string): string => `${words}, outside the heat`,
      dark: 'no daylight left today',
      hot: 'only dangerous heat left today',
      open: (words: string): string => `${words}, in the open hours`,
      closed: 'its hours are closed today',
    },
    notToday: 'not today',
    closedDay: 'For another day: no hours are left to fish today.',
    ashore: 'For another day: at level 4 the advice is to stay ashore.',
    rankNote: 'The order is a judgement by rule, not a chance of fish.',
    none: 'No ranking: too little is known this morning.',
    plan: 'If nothing happens',
    planStep: (step: string, time: string, moveOn: string): string => `${step} (${time}) ${moveOn}`,
    minutes: (n: number): string => `${n} min`,
    phase: (name: string): string => `Season of the fish: ${name}.`,
    pocket: (name: string, sentence: string): string =>
      `${name}: ${sentence.charAt(0).toLowerCase()}${sentence.slice(1)}`,
  },
  phases: {
    winter: 'winter',
    early_prespawn: 'early pre-spawn, on the way to the spawning banks',
    prespawn: 'pre-spawn, staging near the spawning banks',
    spawn: 'spawn, on the beds',
    postspawn: 'post-spawn, leaving the beds',
    summer: 'summer',
    early_fall: 'early fall',
    fall: 'fall',
    late_fall: 'late fall',
  },
  cast: {
    heading: (choice: string, lure: string): string => `${choice}: ${lure}`,
    runningDepth: 'Run it at',
    retrieve: 'Retrieve',
    pauses: 'Pause',
    line: 'Line',
    boat: 'Boat over',
    castTo: 'Cast to',
    angle: 'Cast angle to the bank',
    length: 'Cast length',
    contact: 'On bottom',
    contactShare: (share: string, range: string): string => `${share} of the way, ${range} after landing`,
    noContact: 'never, it runs clear of the bottom',
    turns: (speed: string, turns: string, reel: string): string => `${speed}, about ${turns} (${reel})`,
    /** What an earlier card of the day has told: steps whole, the rest of one, or all of them. */
    asOn: (steps: readonly string[], card: number): string =>
      `As on the ${ORDINALS[card] ?? ''} card: ${steps.join(', ')}.`,
    elseAsOn: (text: string, card: number): string =>
      `${text.replace(/\.$/, '')}; else as on the ${ORDINALS[card] ?? ''} card.`,
    allAsOn: (card: number): string => `All as on the ${ORDINALS[card] ?? ''} card.`,
    /** What a step is about, where it is named and not told. */
    stepNames: {
      boat: 'boat and cast',
      tie: 'line and lure',
      sink: 'the fall',
      work: 'the retrieve',
      contact: 'touching bottom',
      cover: 'the cover',
      layer: 'the layer',
    },
    /** Of a card whose place had one before. */
    from: (place: string, from: string): string => `${place} from ${from}`,
    omittedClosed: 'Left out today: no hours are left to fish.',
    omitted: 'Left out today: at level 4 the advice is to stay ashore.',
    choices: ['First', 'Second'],
  },
  tendency: {
    improving: 'easier fishing',
    steady: 'fishing about as today',
    declining: 'harder fishing',
    day: (date: string, word: string, place: string): string => `${date}: ${word}, ${place} first.`,
    onceSafe: (date: string, place: string): string => `${date}: ${place} first, once it is safe.`,
    span: (from: string, to: string): string => `${from} to ${to}`,
    best: (date: string): string => `Best day in sight: ${date}.`,
    changesIt: 'What would change it',
    none: 'No outlook: there is no forecast to build on.',
  },
  confidence: { high: 'High', medium: 'Fairly', low: 'Not very' },
  confidenceLine: (word: string): string => `${word}.`,
  gaps: {
    heading: 'Missing or stale',
    none: 'No source failed, and no figure is too old to use.',
    notRead: (source: string, when: string, problem: string): string =>
      `${source} could not be read at ${when}. ${problem}`,
    readInPart: (source: string, when: string, problem: string): string =>
      `${source} was read at ${when}, but not all of it was used. ${problem}`,
    nil: 'No source gave a fresh figure, so there is no ranking. Silence would not mean that all is well.',
  },
  verification: {
    line: (item: string, counted: string, off: string, verdict: string): string =>
      `${item}: ${counted}. ${off}. ${verdict}.`,
    item: {
      water: 'Water',
      waterAhead: 'Water three days ahead',
      level: 'Level over 24 h',
      air: 'Air, fishing hours',
      wind: 'Wind, fishing hours',
    },
    inside: (hits: number, of: number): string =>
      `${hits} of the last ${plural(of, 'day', 'days')} compared within the stated range (8 in 10 intended)`,
    direction: (hits: number, of: number, held: number): string =>
      held > hits
        ? `direction right only ${hits} of the last ${plural(of, 'time', 'times')}; "no change" would have been right ${held} times`
        : `direction right ${hits} of the last ${plural(of, 'time', 'times')}; "no change" would have been right ${held} times`,
    days: (n: number): string => `${plural(n, 'day', 'days')} compared with a weather station`,
    off: (size: string, side: string): string => `Average error ${size}${side}`,
    side: {
      water: (high: boolean): string => `, mostly too ${high ? 'warm' : 'cold'}`,
      waterAhead: (high: boolean): string => `, mostly too ${high ? 'warm' : 'cold'}`,
      level: (high: boolean): string => `, mostly too ${high ? 'high' : 'low'}`,
      air: (high: boolean): string => `, mostly too ${high ? 'warm' : 'cold'}`,
      wind: (high: boolean): string => `, mostly too ${high ? 'strong' : 'weak'}`,
    },
    against: (size: string, held: string): string => `${held}: ${size}`,
    alike: (size: string, held: string): string => `${held} would have done as well: ${size}`,
    worse: (size: string, held: string): string => `${held} would have been better: ${size}`,
    held: {
      water: 'Repeating the last reading',
      waterAhead: 'Repeating the last reading',
      level: 'Saying "no change"',
      air: 'Repeating the day before',
      wind: 'Repeating the day before',
    },
    outlook: {
      general: (issues: number, needed: number): string =>
        `Water in the days ahead: range as measured on other lakes. ${issues} of the ${needed} past briefings that it takes to learn this lake’s own error are compared.`,
      own: (issues: number, parts: readonly string[]): string =>
        `Water in the days ahead: corrected by what ${plural(issues, 'past briefing', 'past briefings')} of this lake missed. ${parts.join('. ')}.`,
      part: (from: number, to: number, shift: string, width: string): string =>
        `${from} to ${to} days ahead ${shift}, ${width}`,
      kept: 'left as it was',
      lowered: (size: string): string => `lowered by ${size}`,
      raised: (size: string): string => `raised by ${size}`,
      sameRange: 'range as on other lakes',
      wider: (percent: number): string => `range ${percent} % wider`,
      narrower: (percent: number): string => `range ${percent} % narrower`,
    },
  },
  deferToShort: 'Local rules, closed seasons, official warnings and what you see on the water come first.',
  deferTo:
    'Local rules, closed seasons, ramp and dam notices and the advice of licensed guides and officers come first.',
  limitsShort:
    'The plan comes from rules and models, not from fish seen today. Tell somebody where you go and when you are back.',
  limits: [
    'The ranking comes from rules and models, not from fish seen today. It is a basis for your own judgement.',
    'Water temperatures marked estimated come from a model; your own thermometer is better. Send a reading.',
  ],
  cautions: ['Wear a life jacket. Tell somebody where you go and when you will be back.'],
  nestCaution:
    'Males guard nests now, and eggs go when one is kept away: land it quickly and let it go on the spot. Some waters close nests to fishing: ask before you go.',
  coldCaution: 'Cold water can kill in minutes even on a warm day.',
  source: {
    line: (name: string, attribution: string, licence: string): string =>
      `${name}: ${attribution} Licence: ${licence}.`,
    /** Credit and licence alone; the rest stands on the web page that the line leads to. */
    brief: (attribution: string, licence: string): string =>
      licence === '' ? attribution : `${attribution} ${licence}.`,
    /** A source's name with the moment of its newest figure. */
    last: (name: string, when: string): string => `${name} (last data ${when})`,
  },
  short: {
    line: (lake: string, date: string, level: string, bottom: string): string =>
      `${lake} ${date}. ${level}. ${bottom}`,
    valid: (when: string): string => `Valid to ${when}.`,
  },
  pictures: {
    tenDays: 'Ten days and the days ahead',
    tenDaysAlt: (parts: string): string => `Four small charts on one time axis. ${parts}`,
    airAlt: (low: string, high: string, last: string): string =>
      `Daily mean air ranged from ${low} to ${high} and is ${last} today.`,
    waterAlt: (first: string, last: string): string => `Lake temperature went from ${first} to ${last}.`,
    rainAlt: (total: string, worst: string, date: string): string =>
      `Rain came to ${total}, most of it, ${worst}, on ${date}.`,
    noRainAlt: 'No rain fell.',
    levelAlt: (change: string): string => `Lake level changed by ${change}.`,
    aheadAlt: 'The forecast days are drawn lighter and dashed.',
    air: 'Air, daily mean',
    water: 'Lake',
    rain: 'Rain a day',
    level: 'Level',
    reading: (v: string): string => `reading ${v}`,
    gusts: (v: string): string => `gusts ${v}`,
    cast: 'The cast from the side, to scale',
    castAlt: (
      boat: string,
      length: string,
      depth: string,
      run: string,
      angle: string,
      contact: string,
    ): string =>
      [
        `Side view to scale: the boat floats over ${boat} and casts ${length} to water ${depth} deep.`,
        run === '' ? `The bottom slopes at ${angle}.` : `The lure ${run}; the bottom slopes at ${angle}.`,
        ...(contact === '' ? [] : [contact]),
      ].join(' '),
    contactAlt: (range: string): string => `It touches bottom ${range} after landing.`,
    noContactAlt: 'It does not touch bottom.',
    boat: (depth: string): string => `boat over ${depth}`,
    lands: (depth: string): string => `lands in ${depth}`,
    runs: (depth: string): string => `runs at ${depth}`,
    atMost: (depth: string): string => `goes ${depth} deep at most`,
    lies: (depths: string): string => `lies in ${depths} of water`,
    onTop: 'stays on the surface',
    touches: (range: string): string => `on bottom ${range} from landing`,
    bank: (angle: string): string => `bank slopes ${angle}`,
    castLength: (length: string, angle: string): string => `cast ${length}, ${angle} to the bank`,
    hours: 'The day by hours',
    hoursAlt: (parts: string): string => `Small charts of the day by local hours. ${parts}`,
    lightAlt: (rise: string, set: string): string => `The sun rises at ${rise} and sets at ${set}.`,
    windAlt: (low: string, high: string, when: string): string =>
      `Wind runs from ${low} to ${high}, strongest at ${when}.`,
    airHoursAlt: (low: string, high: string): string => `Air runs from ${low} to ${high}.`,
    pocketAlt: (value: string, when: string): string =>
      `Pocket minus main lake is greatest, ${value}, at ${when}.`,
    light: 'Light',
    wind: 'Wind',
    airHours: 'Air',
    pocket: 'Pocket minus lake',
  },
};

export type Messages = typeof en;
