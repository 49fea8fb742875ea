/** The invented mornings, from a warm rain to a flood: what the page must be able to say. */
import { without } from '../../../src/briefing/without.ts';
import type { MorningPlan } from './plan.ts';

/** A cold lake, four mild days and a warm rain on the last two of them. */
const warmRain: MorningPlan = {
  name: 'warm-rain-pulse',
  date: '2026-03-06',
  issuesBefore: 1,
  days: {
    [-9]: { mean: 3.2, cloudPct: 35 },
    [-8]: { mean: 4.1, cloudPct: 20 },
    [-7]: { mean: 6.4, cloudPct: 15 },
    [-6]: { mean: 8.2, cloudPct: 25 },
    [-5]: { mean: 9.1, cloudPct: 30 },
    [-4]: { mean: 10.2, cloudPct: 40 },
    [-3]: { mean: 11.4, cloudPct: 65 },
    [-2]: { mean: 13.4, cloudPct: 92, windMs: 4.5, rain: [16, 14, 9] },
    [-1]: { mean: 14, cloudPct: 96, windMs: 4, rain: [24, 4, 12] },
    0: { mean: 13.2, cloudPct: 50, windMs: 3 },
    1: { mean: 13.6, cloudPct: 30, windMs: 3.2 },
    2: { mean: 14.2, cloudPct: 45, windMs: 4.6 },
    3: { mean: 9, cloudPct: 75, windMs: 6.5, rain: [7, 8, 7] },
    4: { mean: 4, cloudPct: 15, windMs: 5 },
    5: { mean: 4.4, cloudPct: 15 },
  },
  readings: [{ daysAgo: 4, hour: 10, waterC: 7.2, clarityM: 1.6, where: 'main lake' }],
};

const front: MorningPlan = {
  name: 'front',
  date: '2026-04-09',
  issuesBefore: 1,
  days: {
    [-4]: { mean: 15.5, cloudPct: 30, windMs: 3.4 },
    [-3]: { mean: 17.2, cloudPct: 40, windMs: 4 },
    [-2]: { mean: 18.6, cloudPct: 55, windMs: 5 },
    [-1]: { mean: 17.8, cloudPct: 80, windMs: 7, thunderPct: 20, rain: [6, 15, 5] },
    0: { mean: 8.2, cloudPct: 45, windMs: 9.3, gustRatio: 1.62, dewC: 1 },
    1: { mean: 7.4, cloudPct: 10, windMs: 5 },
    2: { mean: 10, cloudPct: 10, windMs: 3 },
    3: { mean: 13, cloudPct: 25, windMs: 3.4 },
    4: { mean: 15, cloudPct: 35 },
  },
  readings: [{ daysAgo: 2, hour: 11, waterC: 14.4, where: 'ramp' }],
};

const flood: MorningPlan = {
  name: 'level-4-flood',
  date: '2026-03-20',
  issuesBefore: 1,
  flood: 'moderate',
  days: {
    [-3]: { mean: 12, cloudPct: 80, rain: [12, 10, 10] },
    [-2]: { mean: 14, cloudPct: 95, windMs: 5, rain: [48, 5, 16] },
    [-1]: { mean: 14.5, cloudPct: 97, windMs: 5.5, rain: [88, 2, 20] },
    0: { mean: 12, cloudPct: 85, windMs: 4.5, thunderPct: 15, rain: [9, 3, 6] },
    1: { mean: 9.5, cloudPct: 50, windMs: 4 },
    2: { mean: 10, cloudPct: 30, windMs: 3 },
    3: { mean: 12, cloudPct: 35, windMs: 3 },
  },
  alerts: [
    {
      id: 'flood-warning-1',
      issuer: 'Invented Weather Office',
      event: 'Flood Warning',
      severity: 'Severe',
      headline: 'Flood Warning for the upper arm of Quarry Bend Lake until Saturday noon',
      description:
        'Slate Fork has left its banks above the lake.\n\n* WHAT...Moderate flooding is occurring and is forecast.\n* WHERE...Slate Fork and the upper arm of Quarry Bend Lake.\n* IMPACTS...Ramps, picnic grounds and low roads are under water.',
      instruction: 'Turn around when a road is flooded. Move to higher ground now.',
    },
  ],
};

const winterCalm: MorningPlan = {
  name: 'winter-calm',
  date: '2026-01-14',
  days: Object.fromEntries(
    Array.from({ length: 22 }, (_, index) => [
      index - 16,
      { mean: -0.5 + 1.6 * Math.sin(index / 2.1), cloudPct: 18 + (index % 3) * 6, windMs: 1.3, half: 6 },
    ]),
  ),
  readings: [{ daysAgo: 3, hour: 12, waterC: 4.9, clarityM: 3.4, where: 'main lake' }],
};

const summerHeat: MorningPlan = {
  name: 'summer-heat',
  date: '2026-07-22',
  days: Object.fromEntries(
    Array.from({ length: 19 }, (_, index) => [
      index - 13,
      { mean: 28.4 + 0.6 * Math.sin(index), half: 7.5, cloudPct: 20, windMs: 2.4, dewC: 21.5 },
    ]),
  ),
  readings: [{ daysAgo: 1, hour: 8, waterC: 29.6, clarityM: 2.4, where: 'ramp' }],
};

/** Let out since the morning before: a foot in a day over 42 km2. */
const DRAWDOWN_M3S = 148;

const drawdown: MorningPlan = {
  name: 'drawdown',
  date: '2026-10-30',
  issuesBefore: 1,
  extraReleaseM3s: (hoursBefore) => (hoursBefore >= 0 && hoursBefore < 60 ? DRAWDOWN_M3S : 0),
  days: {
    [-4]: { mean: 13, cloudPct: 30 },
    [-3]: { mean: 12.4, cloudPct: 35 },
    [-2]: { mean: 12, cloudPct: 25 },
    [-1]: { mean: 11.6, cloudPct: 20, windMs: 2.8 },
    0: { mean: 12, cloudPct: 25, windMs: 2.6 },
    1: { mean: 12.6, cloudPct: 30, windMs: 3 },
    2: { mean: 12.2, cloudPct: 40, windMs: 3.4 },
    3: { mean: 11, cloudPct: 55, windMs: 3.6 },
  },
};

const spawn: MorningPlan = {
  name: 'spawn',
  date: '2026-04-28',
  status: 'amended',
  issuesBefore: 1,
  days: {
    [-6]: { mean: 17, cloudPct: 30 },
    [-5]: { mean: 18, cloudPct: 30 },
    [-4]: { mean: 18.6, cloudPct: 25 },
    [-3]: { mean: 19, cloudPct: 35 },
    [-2]: { mean: 19.2, cloudPct: 30, windMs: 2.6 },
    [-1]: { mean: 19.6, cloudPct: 25, windMs: 2.4 },
    0: { mean: 19.8, cloudPct: 30, windMs: 2.4 },
    1: { mean: 20, cloudPct: 35, windMs: 2.6 },
    2: { mean: 19.4, cloudPct: 50, windMs: 3 },
    3: { mean: 18, cloudPct: 60, windMs: 3.4 },
  },
  readings: [{ daysAgo: 1, hour: 10, waterC: 18.6, clarityM: 1.8, where: 'ramp' }],
};

/** Drizzle and a falling thermometer late in the year, for a reader of metric units. */
const metricReader: MorningPlan = {
  name: 'metric-reader',
  date: '2026-11-19',
  units: 'metric',
  issuesBefore: 1,
  days: {
    [-4]: { mean: 11, cloudPct: 60 },
    [-3]: { mean: 9.6, cloudPct: 80, rain: [5, 6, 12] },
    [-2]: { mean: 8.1, cloudPct: 90, rain: [9, 2, 16] },
    [-1]: { mean: 6.4, cloudPct: 92, windMs: 4.6, rain: [7, 4, 12] },
    0: { mean: 5.2, cloudPct: 85, windMs: 5, rain: [3, 8, 5] },
    1: { mean: 4.1, cloudPct: 60, windMs: 5.4 },
    2: { mean: 3.4, cloudPct: 30, windMs: 3.6 },
    3: { mean: 5, cloudPct: 25, windMs: 3 },
  },
  readings: [{ daysAgo: 1, hour: 13, waterC: 12.3, clarityM: 1.4, where: 'ramp' }],
};

/** Longer than the last forecast and the memory of runoff reach: then nothing at all is known. */
const SILENT_H = 400;

export const PLANS: readonly MorningPlan[] = [
  warmRain,
  {
    ...without(warmRain, 'issuesBefore'),
    name: 'nil',
    silences: [
      { service: 'open-meteo', hours: SILENT_H, problem: 'The weather service did not answer.' },
      { service: 'usgs', hours: SILENT_H, problem: 'The gauge service did not answer.' },
    ],
    readings: [],
  },
  flood,
  winterCalm,
  front,
  summerHeat,
  drawdown,
  {
    ...warmRain,
    name: 'gauge-down',
    silences: [
      {
        service: 'usgs',
        hours: 58,
        variable: 'level',
        problem: 'The level gauge answered without any value.',
      },
    ],
  },
  metricReader,
  { ...warmRain, name: 'clock-change-day', date: '2026-03-08', status: 'corrected' },
  spawn,
  {
    name: 'thin-evidence',
    date: '2026-03-06',
    preview: true,
    weatherDays: 4,
    days: warmRain.days ?? {},
    lake: (lake) => ({
      ...without(lake, 'floodGauge', 'fetchM', 'normalPoolM', 'arm'),
      alerts: 'none',
      gauges: [],
      pockets: [],
      points: [],
    }),
  },
  {
    ...warmRain,
    name: 'pocket-reading',
    readings: [
      ...(warmRain.readings ?? []),
      { daysAgo: 1, hour: 16, waterC: 12.6, where: 'back of the hollow', pocket: 'mill-hollow' },
    ],
  },
  {
    name: 'scored',
    date: '2026-05-20',
    issuesBefore: 12,
    measured: true,
    weatherDays: 75,
    readings: Array.from({ length: 13 }, (_, index) => ({
      daysAgo: 13 - index,
      hour: 13,
      waterC: 20.4 + 0.12 * index + 0.7 * Math.sin(index * 1.9),
      where: 'ramp',
    })),
    lake: (lake) => ({ ...lake, demo: false }),
  },
];
