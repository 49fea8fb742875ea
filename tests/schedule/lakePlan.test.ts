/** What a lake's own words change of its plan: places, fishing hours, the layer. */
import { describe, expect, it } from 'vitest';
import { loadRules } from '../../src/config/rules.ts';
import type { Config, LakeConfig } from '../../src/config/types.ts';
import { adviseFrom } from '../../src/schedule/advice.ts';
import { lakePart } from '../../src/briefing/lakePart.ts';
import { dayOf, plannedDay } from '../../src/schedule/plan.ts';
import { whatIfPlan } from '../../src/words/whatIfPlan.ts';
import { readSignals } from '../../src/signals/index.ts';
import { recordView } from '../helpers/weatherRecord.ts';
import { figure, sampleLake } from '../helpers/sampleReport.ts';

const rules = loadRules();
const config = { tackle: { reels: [], linesKg: [], castLengthM: 22.9 } } as unknown as Config;
const lake: LakeConfig = { ...sampleLake(), pockets: [], points: [], waterBody: 'highland-reservoir' };
const view = recordView({
  asOf: '2026-07-15T10:15:00Z',
  pastDays: 45,
  weather: (local) => ({ air: 24 + 6 * Math.max(0, Math.sin(((local.hour - 6) / 12) * Math.PI)), wind: 2 }),
});
const advised = (more: Partial<LakeConfig>) => {
  const own = { ...lake, ...more };
  const advice = adviseFrom({ config, rules }, own, view, readSignals(view, own));
  if (advice.plan === null) throw new Error('no plan');
  return { ...advice, plan: advice.plan };
};

describe('a lake that says', () => {
  it('what it has and has not is ranked and planned by it', () => {
    expect(advised({}).positions.map(({ place }) => place)).not.toContain('grass_edge');
    const { positions } = advised({ places: { has: ['grass_edge'], hasNot: ['dock'] } });
    expect(positions.map(({ place }) => place)).toContain('grass_edge');
    expect(positions.map(({ place }) => place)).not.toContain('dock');
  });

  it('when people fish is planned for those hours alone', () => {
    const { plan } = advised({ fishing: { from: '07:00', to: '12:30' } });
    expect([plan.fishing?.from, plan.fishing?.to]).toEqual(['07:00', '12:30']);
    expect(plan.blocks[0]?.from).toBe('07:00');
    expect(plan.blocks.at(-1)?.to).toBe('12:30');
    expect(plan.beInBy?.because).toEqual({ code: 'fishingHours' });
  });

  it('where the layer stands is told nothing below it, in its season', () => {
    const deepest = (more: Partial<LakeConfig>): number =>
      Math.max(...advised(more).plan.blocks.map(({ depthM }) => depthM[1]));
    const free = deepest({});
    expect(free).toBeGreaterThan(4);
    // Three feet into the layer, told a foot above that.
    expect(deepest({ layer: { depthM: 3 } })).toBeLessThanOrEqual(3 + 0.9144 - 0.3048);
    expect(deepest({ layer: { depthM: 3, from: '10-01', to: '12-01' } })).toBe(free);
    expect(deepest({ oxygenDepthM: 4 })).toBeLessThanOrEqual(4 - 0.3048);
  });
});

describe('a lake in the far north', () => {
  const june = recordView({
    asOf: '2026-06-20T04:15:00Z',
    pastDays: 45,
    weather: () => ({ air: 16, wind: 2 }),
  });
  const far: LakeConfig = { ...lake, latDeg: 65.5, lonDeg: 15, zone: 'Europe/Stockholm' };
  const planned = (more: Partial<LakeConfig> = {}) => {
    const own = { ...far, ...more };
    const report = readSignals(june, own);
    const { plan } = adviseFrom({ config, rules }, own, june, report);
    if (plan === null) throw new Error('no plan');
    return { plan, report, day: dayOf(report, own) };
  };

  // Civil twilight lasts all night north of 60.6 degrees at the solstice (90 - 23.4 - 6; definition of civil twilight).
  it('whose civil dusk does not come is planned to the end of the date, and nobody is to be in by it', () => {
    const { plan, report } = planned();
    expect([report.sun.dawnMs, report.sun.duskMs]).toEqual([null, null]);
    expect(plan.blocks.length).toBeGreaterThan(0);
    expect([plan.fishing?.fromMs, plan.fishing?.toMs]).toEqual([
      Date.parse('2026-06-20T00:00:00+02:00'),
      Date.parse('2026-06-21T00:00:00+02:00'),
    ]);
    expect(plan.lightAllNight).toBe(true);
    expect(plan.beInBy).toBeNull();
  });

  it('is planned by its own hours where it names them', () => {
    const { plan } = planned({ fishing: { from: '20:00', to: '23:30' } });
    expect([plan.fishing?.from, plan.fishing?.to]).toEqual(['20:00', '23:30']);
    expect(plan.lightAllNight).toBeUndefined();
    expect(plan.beInBy?.at).toBe('23:30');
  });

  it('south of that is planned from dawn to dusk', () => {
    const { day } = planned({ latDeg: 59, lonDeg: 15 });
    expect(day.fishing.lightAllNight).toBeUndefined();
    expect(new Date(day.fishing.fromMs).toISOString().slice(0, 10)).toBe('2026-06-20');
    expect(day.fishing.toMs - day.fishing.fromMs).toBeLessThan(24 * 3_600_000);
  });
});

describe('a lake in summer that says nothing of its layer', () => {
  const deep: Partial<LakeConfig> = { meanDepthM: 15, fetchM: 1500 };
  const reportOf = (more: Partial<LakeConfig>) => readSignals(view, { ...lake, ...deep, ...more });

  it('has one estimated, with its interval, above which all depths stay', () => {
    const { layer } = reportOf({});
    // Hanna (1990), from memory: 6.6 m for 1500 m of open water.
    expect(layer?.depthM).toBeCloseTo(6.64, 1);
    expect(layer?.lowM).toBeLessThan(5);
    expect(layer?.highM).toBeGreaterThan(8);
    const { plan, positions } = advised(deep);
    const limitM = (layer?.depthM ?? 0) - 0.3048;
    for (const { depthM } of [...plan.blocks, ...positions])
      expect(depthM[1]).toBeLessThanOrEqual(limitM + 1e-9);
  });

  it('is told so on the page and on the cards of blocks that reach it', () => {
    const report = reportOf({});
    const advice = advised(deep);
    const planned = plannedDay(advice, report, { ...lake, ...deep }, rules);
    expect(planned?.dropped).toEqual([]);
    const reaching =
      planned?.plan.blocks.filter(({ depthM }) => depthM[1] >= (report.layer?.lowM ?? 0)) ?? [];
    expect(reaching.length).toBeGreaterThan(0);
    for (const { layer } of reaching)
      expect(layer).toMatchObject({ code: 'lake.today', told: { code: 'layerEstimate' } });
    expect(lakePart({ ...lake, ...deep }, report).lakeToday).toContainEqual({
      code: 'lake.today',
      told: { code: 'layerEstimate', ...report.layer },
    });
  });

  it.each([
    ['it names its own', { layer: { depthM: 5 } }],
    ['it names the depth of its oxygen', { oxygenDepthM: 7 }],
    ['it is stirred to the bottom', { meanDepthM: 2.5 }],
    ['its water runs', { waterBody: 'run-of-river' as const }],
  ])('has none where %s', (_, more) => {
    expect(reportOf(more).layer).toBeUndefined();
  });

  it('has none in cold water', () => {
    const march = recordView({ asOf: '2026-03-06T11:15:00Z', pastDays: 45 });
    expect(readSignals(march, { ...lake, ...deep }).layer).toBeUndefined();
  });
});

describe('the hours that the plan is made from', () => {
  it('bring fog, which closes none and is told by the block that begins in it, with the hour it lifts', () => {
    const report = readSignals(view, lake);
    const foggy = (lifts: number) => {
      const hours = report.hours.map((hour) => ({
        ...hour,
        fogCode: (new Date(hour.atMs).getUTCHours() + 24 - 5) % 24 < lifts ? 1 : 0,
      }));
      const { plan } = adviseFrom({ config, rules }, lake, view, { ...report, hours });
      if (plan === null) throw new Error('no plan');
      return plan;
    };
    const morning = foggy(9);
    expect(morning.closed).toEqual([]);
    expect(morning.blocks[0]?.fogTo).toBe('09:00');
    const early = morning.blocks.filter(({ from }) => from < '09:00');
    expect(early.every(({ fogTo }) => fogTo === '09:00')).toBe(true);
    expect(morning.blocks.filter(({ from }) => from >= '09:00').some((block) => 'fogTo' in block)).toBe(
      false,
    );
    expect(foggy(0).blocks.some((block) => 'fogTo' in block)).toBe(false);
    const [first] = whatIfPlan(morning, rules.text);
    expect(first?.lines[0]).toBe(
      'Begins in likely fog, to about 09:00: idle with lights and sound signals, or wait until you see the far bank.',
    );
  });

  it('bring thunder and generation, so that a storm of the afternoon closes the afternoon alone', () => {
    const report = readSignals(view, lake);
    const stormy = report.hours.map((hour) => {
      const localHour = new Date(hour.atMs).getUTCHours() - 5;
      return { ...hour, thunderPct: localHour >= 15 && localHour < 18 ? 80 : 0, generationOn: 1 };
    });
    const { hours } = dayOf({ ...report, hours: stormy }, lake);
    expect(hours.map(({ fromMs, thunderPct, generationOn }) => [fromMs, thunderPct, generationOn])).toEqual(
      stormy.map(({ atMs, thunderPct, generationOn }) => [atMs, thunderPct, generationOn]),
    );
    const conditions = {
      ...report.conditions,
      signals: { ...report.conditions.signals, thunderPct: { ...figure(80), kind: 'forecast' as const } },
    };
    const { plan } = adviseFrom({ config, rules }, lake, view, { ...report, hours: stormy, conditions });
    const thunder = plan?.closed.filter(({ hazard }) => hazard === 'lightning') ?? [];
    expect(thunder.map(({ from, to }) => [from, to])).toEqual([['15:00', '18:30']]);
    expect(plan?.blocks[0]?.from.localeCompare('08:00')).toBe(-1);
  });
});
