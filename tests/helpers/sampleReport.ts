/**
 * An invented lake on an invented morning: early March, a warm rain two days ago, pockets ahead of the main lake.
 * The numbers hang together (rain before the rise, pockets warmest in the afternoon) but belong to no real water.
 */
import type {
  AdviceInWords as Advice,
  EvidenceInWords as Evidence,
  PositionInWords as PositionAdvice,
  PresentationCard,
} from '../../src/words/inWords.ts';
import type { LakeConfig } from '../../src/config/types.ts';
import type {
  Conditions,
  DayPoint,
  Figure,
  HourPoint,
  SignalId,
  SignalReport,
} from '../../src/signals/types.ts';
import { addDays } from '../../src/units/time/calendar.ts';

export const SAMPLE_ISSUED_MS = Date.UTC(2026, 2, 6, 11, 15); // Fri 6 Mar 2026, 05:15 CST
const HOUR = 3_600_000;

export function sampleLake(overrides: Partial<LakeConfig> = {}): LakeConfig {
  return {
    id: 'quarry-bend',
    name: 'Quarry Bend Lake',
    arm: 'upper arm',
    latDeg: 36.6,
    lonDeg: -92.4,
    zone: 'America/Chicago',
    waterBody: 'highland-reservoir',
    meanDepthM: 14,
    areaKm2: 42,
    bankDeg: 18,
    belowDam: false,
    species: 'largemouth',
    weather: ['open-meteo'],
    alerts: 'nws',
    gauges: [],
    pockets: [],
    points: [],
    issueAt: '05:15',
    graceMinutes: 120,
    eveningOutlook: false,
    demo: true,
    ...overrides,
  };
}

export function figure(value: number, overrides: Partial<Figure> = {}): Figure {
  return {
    value,
    kind: 'observed',
    asOfMs: SAMPLE_ISSUED_MS - HOUR,
    freshness: 'fresh',
    source: { code: 'gauge', service: 'usgs', station: '1', where: 'invented', fallback: false },
    ...overrides,
  };
}

const estimated = (value: number, half: number): Figure =>
  figure(value, {
    kind: 'estimated',
    low: value - half,
    high: value + half,
    source: { code: 'waterModel', readingAgeDays: 2 },
  });
const forecast = (value: number): Figure =>
  figure(value, { kind: 'forecast', source: { code: 'weather', service: 'invented' } });

export const SAMPLE_SIGNALS: Readonly<Partial<Record<SignalId, Figure>>> = {
  waterC: estimated(8.3, 1.1),
  waterChange1dC: estimated(0.6, 0.3),
  waterChange3dC: estimated(1.7, 0.5),
  waterChange7dC: estimated(2.4, 0.8),
  waterForecast3dC: estimated(1.1, 0.7),
  airMean24hC: figure(12.4),
  airMean3dC: figure(11.8),
  airMean7dC: figure(8.1),
  airTrend3dCPerDay: figure(1.4),
  airTrend7dCPerDay: figure(0.9),
  rain24Mm: figure(4.1),
  rain72Mm: figure(23.6),
  rain7dMm: figure(25),
  rainAirC: figure(13.2),
  runoffC: estimated(11.6, 1.5),
  pocketC: estimated(11.2, 1.4),
  pocketMinusMainC: estimated(2.9, 1.2),
  pocketRenewedShare: estimated(0.34, 0.1),
  levelM: figure(278.49),
  levelVsNormalM: figure(-0.41),
  levelBandShare: figure(0.236),
  level6hM: figure(0.06),
  levelRateMPerH: figure(0.01),
  level24hM: figure(0.24),
  level72hM: figure(0.41),
  levelNext24hM: forecast(0.15),
  dischargeM3s: figure(62),
  windMs: forecast(4.2),
  gustMs: forecast(9.1),
  cloudPct: forecast(45),
  clarityM: figure(1.3, {
    freshness: 'ageing',
    asOfMs: SAMPLE_ISSUED_MS - 52 * HOUR,
    source: { code: 'anglerReading' },
  }),
};

/** Nine past days, today and three days ahead; the warm rain falls on the 4th. */
function sampleDays(): DayPoint[] {
  const air = [1.2, 0.4, 2.8, 4.1, 5.6, 6.0, 8.9, 11.2, 12.6, 12.0, 13.1, 12.2, 6.4];
  const water = [5.6, 5.5, 5.5, 5.7, 5.9, 6.2, 6.6, 7.1, 7.7, 8.3, 8.9, 9.3, 9.4];
  const rain = [0, 0, 0, 0, 1.4, 0, 0, 19.5, 4.1, 0, 0, 2.2, 8.6];
  const level = [278.1, 278.1, 278.08, 278.08, 278.07, 278.08, 278.08, 278.2, 278.34, 278.49];
  return air.map((mean, i): DayPoint => {
    const ahead = i > 9;
    const levelM = level[i];
    const half = 0.8 + (ahead ? 0.3 * (i - 9) : 0.05 * i);
    const waterC = water[i] ?? 0;
    return {
      date: addDays('2026-03-06', i - 9),
      airMeanC: mean,
      airMinC: mean - 5,
      airMaxC: mean + 6,
      rainMm: rain[i] ?? 0,
      waterC,
      waterLowC: waterC - half,
      waterHighC: waterC + half,
      ...(levelM === undefined ? {} : { levelM }),
      windMs: 3.5 + (i % 4),
      cloudPct: [20, 15, 40, 55, 80, 30, 60, 95, 90, 45, 35, 70, 90][i] ?? 50,
      forecast: ahead,
    };
  });
}

function sampleHours(): HourPoint[] {
  return Array.from({ length: 24 }, (_, hour): HourPoint => {
    const day = Math.sin(((hour - 6.7) / 11.6) * Math.PI);
    const warm = Math.sin(((hour - 9) / 24) * 2 * Math.PI);
    return {
      atMs: Date.UTC(2026, 2, 6, 6) + hour * HOUR,
      airC: 11.5 + 5.2 * warm,
      windMs: 3 + 2.4 * Math.max(0, warm),
      gustMs: 5 + 4 * Math.max(0, warm),
      shortwaveWm2: Math.max(0, 610 * day),
      sunAltitudeDeg: 46 * day,
      pocketMinusMainC: 1.5 + 1.4 * Math.sin(((hour - 10) / 24) * 2 * Math.PI),
      cloudPct: 45,
      rainMm: 0,
      forecast: hour > 5,
    };
  });
}

type ConditionOverrides = Partial<Omit<Conditions, 'signals'>> & {
  signals?: Partial<Record<SignalId, Figure | undefined>>;
};

export function sampleReport(
  overrides: Partial<Omit<SignalReport, 'conditions'>> & { conditions?: ConditionOverrides } = {},
): SignalReport {
  const { conditions, ...rest } = overrides;
  const merged = Object.entries({ ...SAMPLE_SIGNALS, ...conditions?.signals }).filter(
    (entry): entry is [string, Figure] => entry[1] !== undefined,
  );
  return {
    conditions: {
      asOfMs: SAMPLE_ISSUED_MS,
      date: '2026-03-06',
      zone: 'America/Chicago',
      latDeg: 36.6,
      species: 'largemouth',
      waterBody: 'highland-reservoir',
      gaps: [
        {
          id: 'turbidityFnu',
          fact: { code: 'notGiven', signal: 'clarityM', field: 'water.clarity' },
        },
      ],
      ...conditions,
      signals: Object.fromEntries(merged),
    },
    days: sampleDays(),
    hours: sampleHours(),
    pockets: [
      {
        id: 'mill-hollow',
        name: 'Mill Hollow',
        basis: 'configured',
        surfaceC: estimated(11.2, 1.4),
        minusMainC: estimated(2.9, 1.2),
        renewedShare: 0.34,
        buoyant: true,
        halfLifeH: 31,
        warmestHourMs: Date.UTC(2026, 2, 6, 21),
        story: [
          {
            code: 'ranIn',
            share: 0.34,
            warmth: 'warmer',
            went: 'floated',
            lasts: true,
            mattered: true,
          },
        ],
      },
    ],
    readingsUsed: [{ atMs: Date.UTC(2026, 2, 4, 16), waterC: 7.4, where: 'main lake' }],
    estimateBeforeReadingC: 7.0,
    levelBand: { lowM: 277.9, highM: 280.4, days: 363 },
    sun: {
      dawnMs: Date.UTC(2026, 2, 6, 12, 14),
      riseMs: Date.UTC(2026, 2, 6, 12, 40),
      setMs: Date.UTC(2026, 2, 7, 0, 14),
      duskMs: Date.UTC(2026, 2, 7, 0, 40),
    },
    ahead: [],
    sources: [
      {
        id: 'demo',
        name: 'Invented weather',
        attribution: 'made up for this example',
        url: 'https://open-meteo.com/',
        licence: 'CC BY 4.0',
        lastMs: SAMPLE_ISSUED_MS - HOUR,
      },
      {
        id: 'gauge',
        name: 'Invented gauge',
        attribution: 'made up for this example',
        url: 'https://waterdata.usgs.gov/',
        licence: 'public domain',
        lastMs: SAMPLE_ISSUED_MS - HOUR,
      },
    ],
    ...rest,
  };
}

function sampleEvidence(signal: Evidence['signal'], value: number | null, contribution: number): Evidence {
  return {
    rule: `sample.${signal}`,
    signal,
    value,
    curve: 0.8,
    contribution,
    sentence: 'A sample rule.',
    grade: 'common-practice',
    source: 'common practice, no source',
  };
}

const position = (
  rank: number,
  place: string,
  name: string,
  depthM: readonly [number, number],
  extra: Partial<PositionAdvice>,
): PositionAdvice => ({
  place,
  name,
  rank,
  total: 60 - 9 * rank,
  depthM,
  period: 'all_day',
  periodBecause: 'Light changes little today.',
  because: [],
  limitedBy: '',
  evidence: [],
  ...extra,
});

const SAMPLE_POSITIONS: readonly PositionAdvice[] = [
  position(1, 'inflow_pocket_back', 'back of an inflow pocket', [0.6, 2.4], {
    named: 'Mill Hollow',
    period: 'later',
    hours: [11, 16],
    because: [
      'Warm runoff has lifted the pocket {{temperatureDifference:2.9}} above the main lake.',
      'The lake rose {{levelChange:0.24}} in a day and floods new cover.',
    ],
    limitedBy: 'At dawn the pocket is hardly warmer than the lake.',
    evidence: [
      sampleEvidence('pocketMinusMainC', 2.9, 24),
      sampleEvidence('level24hM', 0.24, 9),
      sampleEvidence('waterC', 8.3, -4),
    ],
  }),
  position(2, 'secondary_point', 'secondary point', [1.5, 4], {
    because: [
      'The lake gained {{temperatureDifference:1.7}} in three days, and fish on the move stop here.',
      'Wind of {{windSpeed:4.2}} works the point.',
    ],
    limitedBy: 'No point is warmer than the water around it.',
    evidence: [sampleEvidence('waterChange3dC', 1.7, 15), sampleEvidence('windMs', 4.2, 6)],
  }),
  position(3, 'main_lake_bluff', 'main-lake bluff', [3, 7.5], {
    period: 'earlier',
    because: ['Deep water close by holds the fish that have not moved yet.'],
    limitedBy: 'The face lies in shade until noon.',
    evidence: [sampleEvidence('waterC', 8.3, 8)],
  }),
];

export const SAMPLE_CARD: PresentationCard = {
  family: 'diving',
  contactApplies: true,
  score: 0.8,
  place: 'inflow_pocket_back',
  lureClass: 'Medium-diving crankbait, tight wobble',
  because: 'It reaches the slope at {{depth:1.8}} and can be worked slowly in cold water.',
  runningDepthM: 1.8,
  retrieveMs: 0.6,
  retrieveLowMs: 0.45,
  retrieveHighMs: 0.75,
  turnsPerS: 0.9,
  reel: '6.4:1 reel, {{level:0.66}} a turn',
  pauseS: 2,
  pauseWords: 'Pause {{seconds:2}} whenever it touches.',
  lineKg: 5.4,
  lineWords: 'Fluorocarbon of {{lineTest:5.4}} helps it down.',
  boatDepthM: 3.4,
  castDepthM: 0.6,
  castLengthM: 24,
  castAngleDeg: 35,
  bankDeg: 12,
  contactShare: 0.35,
  contactFromM: 2,
  contactToM: 10.3,
  path: [
    { alongM: 0, depthM: 0 },
    { alongM: 2, depthM: 0.83 },
    { alongM: 10.3, depthM: 1.8 },
    { alongM: 19.1, depthM: 1.8 },
    { alongM: 24, depthM: 0 },
  ],
  steps: [
    'Hold the boat over {{depth:3.4}} and cast to water {{depth:0.6}} deep.',
    'Crank down until it touches, then slow to {{lureSpeed:0.6}}.',
    'Stop for {{seconds:2}} at each knock and let it rise.',
  ],
};

export function sampleAdvice(overrides: Partial<Advice> = {}): Advice {
  return {
    schema: 'thawline-advice/1',
    plan: null,
    phase: {
      membership: {
        winter: 0.2,
        early_prespawn: 0.7,
        prespawn: 0.1,
        spawn: 0,
        postspawn: 0,
        summer: 0,
        early_fall: 0,
        fall: 0,
        late_fall: 0,
      },
      leading: 'early_prespawn',
      because: 'Water is at {{temperature:8.3}} and has been rising for a week.',
    },
    positions: SAMPLE_POSITIONS,
    close: false,
    closeWords: '',
    swap: {
      signal: 'pocketMinusMainC',
      from: 2.9,
      to: 1.1,
      sentence:
        'If the pocket is less than {{temperatureDifference:1.1}} warmer than the lake, start at secondary points.',
    },
    searchPlan: [
      {
        place: 'inflow_pocket_back',
        step: 'Fish the last third of the pocket from the mouth of the creek outwards.',
        minutes: 40,
        moveOn: 'Move on when your thermometer shows no gain.',
      },
      {
        place: 'secondary_point',
        step: 'Fish the first two points outside.',
        minutes: 60,
        moveOn: 'Go deeper before you go farther.',
      },
    ],
    casts: [],
    presentations: [
      SAMPLE_CARD,
      {
        ...SAMPLE_CARD,
        family: 'bottom',
        lureClass: 'Finesse jig, dragged',
        because: 'It stays on the bottom where cold fish lie.',
        runningDepthM: 3.4,
        retrieveMs: 0.2,
        retrieveLowMs: 0.1,
        retrieveHighMs: 0.3,
        turnsPerS: 0.3,
        contactShare: 0.86,
        contactFromM: 0,
        contactToM: 20.6,
        path: [
          { alongM: 0, depthM: 0 },
          { alongM: 0, depthM: 0.6 },
          { alongM: 20.6, depthM: 3 },
          { alongM: 24, depthM: 0 },
        ],
        steps: ['Drag it {{depth:0.3}} at a time along the bottom.', 'Wait {{seconds:5}} between drags.'],
      },
    ],
    safety: {
      level: 2,
      levelWords: 'extra care',
      hazards: [
        {
          id: 'cold-water',
          level: 2,
          headline: 'COLD WATER: {{temperature:8.3}} water under mild air',
          what: 'Water of {{temperature:8.3}} takes your breath in the first minute and your grip within ten.',
          where: 'All of the lake.',
          when: 'All day; the warm air changes nothing.',
          doThis: 'Wear the life jacket, dress for the water and keep the kill cord on.',
          source: 'National Weather Service, cold water safety',
        },
        {
          id: 'rising-river',
          level: 2,
          headline: 'RISING WATER: up {{levelChange:0.24}} in 24 h, with drift',
          what: 'Runoff brings floating wood and moves it at night.',
          where: 'Upper arm and creek mouths.',
          when: 'Today and tomorrow.',
          doThis: 'Run slowly and look ahead.',
          source: 'level gauge',
        },
      ],
      notChecked: ['Dam releases below the lake were not looked at.'],
      deferTo: 'Local rules, ramp and dam notices come first.',
    },
    tendency: {
      word: 'improving',
      because: 'Two more mild days should add {{temperatureDifference:1}} to the lake.',
      trigger:
        'If the level rises more than {{levelChange:0.3}} by noon, leave the creek mouths for the points.',
      days: [
        {
          date: '2026-03-07',
          word: 'improving',
          firstPlace: 'inflow_pocket_back',
          because: 'Mild and half clear, with light wind.',
        },
        {
          date: '2026-03-08',
          word: 'steady',
          firstPlace: 'inflow_pocket_back',
          because: 'Cloud comes in and holds the warmth.',
        },
        {
          date: '2026-03-09',
          word: 'declining',
          firstPlace: 'main_lake_bluff',
          because: 'A front cools the air by {{temperatureDifference:6}}.',
        },
      ],
      bestDay: { date: '2026-03-07', because: 'The pockets are warmest and the wind is light.' },
    },
    confidence: {
      word: 'medium',
      because: 'Gauge and forecast are fresh, but the lake temperature rests on one reading.',
    },
    gaps: [],
    ...overrides,
  };
}
