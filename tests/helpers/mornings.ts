/** Twelve invented mornings, from NIL to flood: what the page must be able to say. */
import type { Advice, Hazard, PhaseId, PositionAdvice } from '../../src/advice/types.ts';
import { without } from '../../src/briefing/without.ts';
import type { BriefingDocument, BriefingInput } from '../../src/briefing/index.ts';
import type { Figure, SignalId } from '../../src/signals/types.ts';
import type { UnitSystem } from '../../src/units/index.ts';
import { sampleBriefing } from './sampleBriefing.ts';
import {
  figure,
  SAMPLE_CARD,
  SAMPLE_ISSUED_MS,
  SAMPLE_POSITIONS,
  SAMPLE_SIGNALS,
  sampleAdvice,
  sampleDays,
  sampleEvidence,
  sampleHours,
  sampleLake,
  sampleReport,
} from './sampleReport.ts';

const HOUR = 3_600_000;
const DAY = 24 * HOUR;

export interface Morning {
  readonly name: string;
  readonly units: UnitSystem;
  readonly document: BriefingDocument;
}

type Signals = Partial<Record<SignalId, Figure | undefined>>;

/** A morning on another date: figures, days and hours move with it. */
function onDate(date: string, issuedMs: number, shiftC: number, signals: Signals): Partial<BriefingInput> {
  const moved = Object.fromEntries(
    Object.entries({ ...SAMPLE_SIGNALS, ...signals }).map(([id, value]) => [
      id,
      value === undefined ? undefined : { ...value, asOfMs: issuedMs - (SAMPLE_ISSUED_MS - value.asOfMs) },
    ]),
  ) as Signals;
  const base = sampleReport();
  return {
    issuedMs,
    validUntilMs: issuedMs + 14 * HOUR,
    nextIssueMs: issuedMs + DAY,
    report: sampleReport({
      conditions: { date, asOfMs: issuedMs, signals: moved },
      days: sampleDays(date, shiftC),
      hours: sampleHours(issuedMs - 5 * HOUR, 24, shiftC),
      readingsUsed: [],
      sun: {
        dawnMs: issuedMs + HOUR,
        riseMs: issuedMs + 1.5 * HOUR,
        setMs: issuedMs + 13 * HOUR,
        duskMs: issuedMs + 13.5 * HOUR,
      },
      sources: base.sources.map((source) => ({ ...source, lastMs: issuedMs - HOUR })),
    }),
  };
}

function phase(leading: PhaseId, because: string): Advice['phase'] {
  return { ...sampleAdvice().phase, leading, because };
}

function place(
  id: string,
  name: string,
  because: readonly string[],
  signal: SignalId,
  value: number,
): PositionAdvice {
  const [first] = SAMPLE_POSITIONS;
  if (first === undefined) throw new Error('the sample has no position');
  return {
    ...without(first, 'named', 'hours'),
    place: id,
    name,
    period: 'earlier',
    because,
    limitedBy: 'The sun is on it by ten.',
    evidence: [sampleEvidence(signal, value, 18)],
  };
}

const later = (positions: readonly PositionAdvice[]): PositionAdvice[] =>
  positions.map((position, i) => ({ ...position, rank: i + 1 }));

const hazard = (level: Hazard['level'], headline: string, what: string, doThis: string): Hazard => ({
  id: headline.split(':')[0] ?? headline,
  level,
  headline,
  what,
  where: 'All of the lake.',
  when: 'All day.',
  doThis,
  source: 'invented',
});

const safety = (level: Hazard['level'], hazards: readonly Hazard[]): Advice['safety'] => ({
  ...sampleAdvice().safety,
  level,
  hazards,
  notChecked: [],
});

/** Markup and quotes on purpose: statements come from outside and must stay words. */
export const OFFICIAL_TEXT =
  'FLOOD WARNING IN EFFECT <until Saturday>\n  * WHAT...Flooding "is" occurring & will go on.\n  * {{not a quantity}} 100% <script>alert(1)</script>';

const stale = (from: Figure): Figure => ({ ...from, freshness: 'stale', asOfMs: from.asOfMs - 2 * DAY });

export function mornings(): readonly Morning[] {
  const yesterday = sampleBriefing({
    issuedMs: SAMPLE_ISSUED_MS - DAY,
    report: sampleReport({
      conditions: {
        date: '2026-03-05',
        signals: { waterC: figure(7.5), pocketMinusMainC: figure(1.2), level24hM: figure(0.05) },
      },
    }),
    advice: sampleAdvice({
      positions: later([
        { ...place('secondary_point', 'secondary point', ['It was the way in.'], 'waterChange3dC', 1.2) },
        {
          ...place('inflow_pocket_back', 'back of an inflow pocket', ['It warms.'], 'pocketMinusMainC', 1.2),
        },
      ]),
    }),
  });
  const us = (name: string, overrides: Partial<BriefingInput>): Morning => ({
    name,
    units: 'us',
    document: sampleBriefing(overrides),
  });
  const quiet = { previous: yesterday };
  const allStale = Object.fromEntries(
    Object.entries(SAMPLE_SIGNALS).map(([id, value]) => [id, stale(value)]),
  ) as Signals;

  return [
    us('warm-rain-pulse', quiet),
    us('nil', {
      report: sampleReport({ conditions: { signals: allStale }, days: [], hours: [] }),
      advice: sampleAdvice({
        safety: { ...safety(2, []), notChecked: ['Official statements were not checked.'] },
      }),
      retrievals: [
        {
          source: 'Invented weather',
          ok: false,
          problem: 'It did not answer.',
          atMs: SAMPLE_ISSUED_MS - HOUR,
        },
      ],
    }),
    us('level-4-flood', {
      previous: yesterday,
      advice: sampleAdvice({
        safety: safety(4, [
          {
            ...hazard(
              4,
              'FLOOD: the river is over its banks',
              'The level rose {{levelChange:1.8}} in a day.',
              'Stay ashore.',
            ),
            official: {
              issuer: 'Invented Weather Office',
              text: OFFICIAL_TEXT,
              endsMs: SAMPLE_ISSUED_MS + 30 * HOUR,
            },
          },
        ]),
      }),
      report: sampleReport({
        conditions: {
          signals: {
            levelM: figure(280.9),
            levelVsNormalM: figure(2),
            levelBandShare: figure(1.2),
            level6hM: figure(0.9),
            levelRateMPerH: figure(0.15),
            level24hM: figure(1.8),
            level72hM: figure(2.1),
            dischargeM3s: figure(1450),
          },
        },
      }),
    }),
    us('winter-calm', {
      ...onDate('2026-01-14', Date.UTC(2026, 0, 14, 11, 15), -4, {
        waterC: figure(4.4, { kind: 'estimated', low: 3.6, high: 5.2 }),
        pocketMinusMainC: figure(-0.6),
        pocketC: figure(3.8),
        windMs: figure(1.1, { kind: 'forecast' }),
        rain24Mm: figure(0),
        rain72Mm: figure(0),
        levelVsNormalM: figure(0.01),
        levelBandShare: undefined,
        level6hM: figure(0),
        levelRateMPerH: figure(0),
        level24hM: figure(0),
        level72hM: figure(0),
      }),
      advice: sampleAdvice({
        phase: phase('winter', 'Water has lain below {{temperature:6}} for a month.'),
        positions: later([
          place('main_lake_bluff', 'main-lake bluff', ['Deep water close by stays even.'], 'waterC', 4.4),
        ]),
        close: true,
        closeWords: 'First and second are close: let the wind decide.',
        swap: null,
      }),
    }),
    us('front', {
      ...onDate('2026-04-09', Date.UTC(2026, 3, 9, 10, 15), 5, {
        waterC: figure(14.2, { kind: 'estimated', low: 13.3, high: 15.1 }),
        airDrop24hC: figure(8.3),
        windMs: figure(8.5, { kind: 'forecast' }),
      }),
      advice: sampleAdvice({
        phase: phase('prespawn', 'Water is at {{temperature:14.2}} and the days are longer than 12 h.'),
        positions: later([
          place(
            'channel_swing_bank',
            'channel swing bank',
            ['The air fell {{temperatureDifference:8.3}}.'],
            'airDrop24hC',
            8.3,
          ),
        ]),
        safety: safety(3, [
          hazard(
            3,
            'WIND: gusts to {{windSpeed:17}} on open water',
            'Waves of {{depth:0.9}} build on the long reach.',
            'Stay in the arms, or ashore.',
          ),
        ]),
      }),
    }),
    us('summer-heat', {
      ...onDate('2026-07-22', Date.UTC(2026, 6, 22, 10, 15), 20, {
        waterC: figure(29.4, { kind: 'estimated', low: 28.6, high: 30.2 }),
        pocketC: figure(31),
        pocketMinusMainC: figure(1.6),
        rain72Mm: figure(0),
        rain24Mm: figure(0),
      }),
      advice: sampleAdvice({
        phase: phase('summer', 'Water is at {{temperature:29.4}}.'),
        positions: later([
          place('offshore_hump', 'offshore hump', ['Cool water lies near it.'], 'waterC', 29.4),
        ]),
        presentations: [
          {
            ...SAMPLE_CARD,
            runningDepthM: 5.5,
            boatDepthM: 8,
            castDepthM: 4,
            contactFromM: null,
            contactToM: null,
            contactShare: 0,
          },
        ],
        safety: safety(2, [
          hazard(
            2,
            'HEAT: {{temperature:36}} by afternoon',
            'Heat stroke comes on without warning.',
            'Fish early, drink, go in by noon.',
          ),
        ]),
      }),
    }),
    us('drawdown', {
      ...onDate('2026-10-30', Date.UTC(2026, 9, 30, 10, 15), 8, {
        waterC: figure(16.4, { kind: 'estimated', low: 15.6, high: 17.2 }),
        levelM: figure(277.4),
        levelVsNormalM: figure(-1.5),
        levelBandShare: figure(-0.2),
        level6hM: figure(-0.08),
        levelRateMPerH: figure(-0.013),
        level24hM: figure(-0.31),
        level72hM: figure(-0.8),
      }),
      advice: sampleAdvice({
        phase: phase('fall', 'Water has fallen to {{temperature:16.4}}.'),
        positions: later([
          place(
            'main_lake_point',
            'main-lake point',
            ['The lake fell {{levelChange:0.31}} and pulls fish off the bank.'],
            'level24hM',
            -0.31,
          ),
        ]),
        safety: safety(1, []),
      }),
    }),
    us('gauge-down', {
      report: sampleReport({
        conditions: {
          signals: {
            levelM: undefined,
            levelVsNormalM: undefined,
            levelBandShare: undefined,
            level6hM: undefined,
            levelRateMPerH: undefined,
            level24hM: undefined,
            level72hM: undefined,
            levelNext24hM: undefined,
            dischargeM3s: stale(figure(62)),
          },
          gaps: [
            {
              id: 'levelM',
              sentence: 'The level gauge has been silent since Wednesday; no rule on level was used.',
              last: stale(figure(278.08)),
            },
            {
              id: 'level24hM',
              sentence: 'The level gauge has been silent since Wednesday; no rule on level was used.',
            },
          ],
        },
        days: sampleDays().map((day) => without(day, 'levelM')),
      }),
      retrievals: [
        {
          source: 'Invented gauge',
          ok: false,
          problem: 'The answer held no values.',
          atMs: SAMPLE_ISSUED_MS - HOUR,
        },
      ],
    }),
    { name: 'metric-reader', units: 'metric', document: sampleBriefing({ previous: yesterday }) },
    us('clock-change-day', {
      ...onDate('2026-03-08', Date.UTC(2026, 2, 8, 10, 15), 0, {}),
      lake: sampleLake({ name: 'Quarry Bend Lake' }),
      status: 'corrected',
    }),
    us('spawn', {
      ...onDate('2026-04-24', Date.UTC(2026, 3, 24, 10, 15), 10, {
        waterC: figure(18.3, { kind: 'estimated', low: 17.4, high: 19.2 }),
      }),
      status: 'amended',
      advice: sampleAdvice({
        phase: phase('spawn', 'Water is at {{temperature:18.3}} and days are long.'),
        positions: later([
          place('shallow_flat', 'shallow flat', ['Firm bottom within reach of the sun.'], 'waterC', 18.3),
        ]),
        safety: safety(1, []),
      }),
      verification: {
        issues: 31,
        sentences: ['In the last 30 issues the level went the way we said 26 times.'],
      },
    }),
    us('thin-evidence', {
      report: sampleReport({
        conditions: { signals: { pocketC: undefined, pocketMinusMainC: undefined, clarityM: undefined } },
        pockets: [],
        hours: [],
      }),
      advice: sampleAdvice({
        positions: [],
        presentations: [],
        tendency: null,
        swap: null,
        searchPlan: [],
        confidence: { word: 'low', because: 'Too little is known.' },
      }),
      preview: true,
    }),
  ];
}
