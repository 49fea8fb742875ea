/** Days on which the clock is no plain one: it is set forward or back, or dusk comes after midnight or not at all. */
import { describe, expect, it } from 'vitest';
import { loadRules } from '../../src/config/rules.ts';
import type { Config, LakeConfig } from '../../src/config/types.ts';
import { adviseFrom } from '../../src/schedule/advice.ts';
import { dayOf, plannedDay } from '../../src/schedule/plan.ts';
import { readSignals } from '../../src/signals/index.ts';
import { DateTime } from 'luxon';
import { recordView } from '../helpers/weatherRecord.ts';
import { sampleLake } from '../helpers/sampleReport.ts';

const rules = loadRules();
const config = { tackle: { reels: [], linesKg: [], castLengthM: 22.9 } } as unknown as Config;

interface Morning {
  readonly why: string;
  readonly zone: string;
  readonly latDeg: number;
  readonly lonDeg: number;
  /** Local instant of the issue. */
  readonly issued: string;
  readonly hours: number;
  readonly wind?: number;
}
const MORNINGS: readonly Morning[] = [
  // Rules of the zones: IANA time zone database.
  {
    why: 'set forward',
    zone: 'America/Chicago',
    latDeg: 35,
    lonDeg: -86,
    issued: '2026-03-08T05:15',
    hours: 23,
  },
  {
    why: 'set back',
    zone: 'America/Chicago',
    latDeg: 35,
    lonDeg: -86,
    issued: '2026-11-01T05:15',
    hours: 25,
  },
  {
    why: 'set forward before the issue of the night',
    zone: 'America/Chicago',
    latDeg: 35,
    lonDeg: -86,
    issued: '2026-03-08T01:30',
    hours: 23,
  },
  {
    why: 'set back in the southern spring',
    zone: 'Australia/Sydney',
    latDeg: -33,
    lonDeg: 151,
    issued: '2026-10-04T05:15',
    hours: 23,
  },
  {
    why: 'half an hour',
    zone: 'Australia/Lord_Howe',
    latDeg: -31.5,
    lonDeg: 159,
    issued: '2026-04-05T05:15',
    hours: 24,
  },
  {
    why: 'dusk after midnight',
    zone: 'Europe/Helsinki',
    latDeg: 59.5,
    lonDeg: 22,
    issued: '2026-06-14T05:15',
    hours: 24,
    wind: 3,
  },
  {
    why: 'dusk after midnight, clouded',
    zone: 'Europe/Oslo',
    latDeg: 60.2,
    lonDeg: 6,
    issued: '2026-06-20T05:15',
    hours: 24,
  },
  { why: 'no dusk', zone: 'Europe/Helsinki', latDeg: 62, lonDeg: 25, issued: '2026-06-20T05:15', hours: 24 },
  {
    why: 'no dusk, issued at noon',
    zone: 'Europe/Helsinki',
    latDeg: 66,
    lonDeg: 25,
    issued: '2026-06-20T12:10',
    hours: 24,
  },
  {
    why: 'four hours of light',
    zone: 'Europe/Helsinki',
    latDeg: 66,
    lonDeg: 25,
    issued: '2026-12-21T05:15',
    hours: 24,
  },
];

describe.each(MORNINGS)('a day: $why', ({ zone, latDeg, lonDeg, issued, hours, wind = 2 }) => {
  const lake: LakeConfig = {
    ...sampleLake(),
    zone,
    latDeg,
    lonDeg,
    pockets: [],
    points: [],
    waterBody: 'natural-lake',
  };
  const asOf = DateTime.fromISO(issued, { zone });
  const view = recordView({
    asOf: asOf.toUTC().toISO() ?? '',
    pastDays: 45,
    weather: (local) => ({ air: 18 + 5 * Math.sin(((local.hour - 9) / 12) * Math.PI), wind }),
  });
  const report = readSignals(view, lake);
  const advice = adviseFrom({ config, rules }, lake, view, report);

  it('is planned by its own hours, each once, and the gate takes nothing from it', () => {
    expect(report.hours.length).toBeGreaterThanOrEqual(Math.floor(hours));
    expect(new Set(report.hours.map(({ atMs }) => atMs)).size).toBe(report.hours.length);
    const planned = plannedDay(advice, report, lake, rules);
    expect(planned?.dropped).toEqual([]);
    const { blocks = [], notPlanned } = planned?.plan ?? {};
    expect(blocks.length).toBeGreaterThan(0);
    expect(notPlanned).toBeNull();
    const { fishing } = dayOf(report, lake);
    for (const [i, block] of blocks.entries()) {
      expect(block.toMs).toBeGreaterThan(block.fromMs);
      expect(block.fromMs).toBeGreaterThanOrEqual(Math.max(fishing.fromMs, asOf.toMillis()));
      expect(block.toMs).toBeLessThanOrEqual(fishing.toMs);
      expect(block.from).toBe(DateTime.fromMillis(block.fromMs, { zone }).toFormat('HH:mm'));
      expect(block.fromMs).toBeGreaterThanOrEqual(blocks[i - 1]?.toMs ?? -Infinity);
    }
  });
});
