/** Hours of release: as told, else as the gauge's weekdays make likely, each called what it is. */
import { DateTime } from 'luxon';
import { describe, expect, it } from 'vitest';
import { loadRules } from '../../src/config/rules.ts';
import type { Config, LakeConfig } from '../../src/config/types.ts';
import type { Observation, ToldRelease } from '../../src/record/types.ts';
import { adviseFrom } from '../../src/schedule/advice.ts';
import { readSignals } from '../../src/signals/index.ts';
import { conditionRows } from '../../src/briefing/conditions.ts';
import { wordsFor } from '../../src/words/index.ts';
import { gauge, recordView, testLake } from '../helpers/weatherRecord.ts';

const HOUR = 3_600_000;
/** Thursday, 05:15 at the lake. */
const AS_OF = '2026-07-16T10:15:00Z';
const LAST = Date.parse('2026-07-16T10:00:00Z');
const zone = testLake.zone;
const local = (ms: number): DateTime => DateTime.fromMillis(ms, { zone });
/** Instant of a local time of that Thursday. */
const at = (clock: string): number => DateTime.fromISO(`2026-07-16T${clock}`, { zone }).toMillis();

const dam = { service: 'usgs', station: 'USGS-9', where: 'below the dam' } as const;
const tailwater: LakeConfig = {
  ...testLake,
  waterBody: 'tailwater',
  belowDam: true,
  pockets: [],
  gauges: [{ ...dam, variable: 'discharge' }],
};
const reservoir: LakeConfig = { ...testLake, gauges: [{ ...dam, variable: 'release' }] };

const told = (from: string, to: string, more: Partial<ToldRelease> = {}): ToldRelease => ({
  id: `${from}${to}`,
  lake: testLake.id,
  fromMs: at(from),
  toMs: at(to),
  units: 2,
  toldMs: LAST - 20 * HOUR,
  ...more,
});
const reportOf = (
  lake: LakeConfig,
  releases: readonly ToldRelease[] = [],
  extra: readonly Observation[] = [],
  asOf = AS_OF,
) => {
  const view = {
    ...recordView({ asOf, pastDays: 30, extra }),
    ...(releases.length === 0 ? {} : { releases }),
  };
  return { view, report: readSignals(view, lake) };
};
/** A gauge that runs on Thursdays from 14 to 18 and stands else; one Thursday may stand. */
const thursdays = (
  variable: Observation['variable'],
  { standing = 20, running = 200, but = 0 }: { standing?: number; running?: number; but?: number } = {},
): Observation[] =>
  gauge(
    variable,
    LAST,
    70,
    (back) => {
      const start = local(LAST - back * HOUR);
      const weeks = Math.floor((LAST - start.toMillis()) / (7 * 24 * HOUR));
      const runs = start.weekday === 4 && start.hour >= 14 && start.hour < 18 && weeks >= but;
      return runs || (start.weekday !== 4 && start.hour >= 6 && start.hour < 9) ? running : standing;
    },
    { station: 'USGS-9' },
  );
const hoursOn = (report: ReturnType<typeof readSignals>): number[] =>
  report.hours.filter(({ generationOn }) => (generationOn ?? 0) >= 0.5).map(({ atMs }) => local(atMs).hour);
const words = wordsFor('en').lake.fact;
const saidOf = (report: ReturnType<typeof readSignals>): string[] =>
  (report.release ?? []).map((fact) => {
    if (fact.code === 'releaseTold') return words.releaseTold(fact, () => '');
    if (fact.code === 'releaseUsual') return words.releaseUsual(fact, () => '');
    throw new Error(fact.code);
  });

describe('hours that the operator told', () => {
  it('are hours of running water, and said with the day of telling', () => {
    const { report } = reportOf(tailwater, [told('14:00', '18:00')]);
    expect(hoursOn(report)).toEqual([14, 15, 16, 17]);
    expect(report.hours.find(({ atMs }) => atMs === at('14:00'))).toMatchObject({
      generationBy: 'operator',
      releaseStart: 1,
    });
    expect(saidOf(report)).toEqual([
      'Release 14:00 to 18:00 (2 units), told by the operator on Wed 15 Jul. Hours change without notice: horns, lights and rising water come first.',
    ]);
  });

  it('count for the part of an hour that they cover', () => {
    const { report } = reportOf(tailwater, [told('14:30', '16:00')]);
    expect(report.hours.find(({ atMs }) => atMs === at('14:00'))?.generationOn).toBe(0.5);
  });

  it('say that none runs where none is told to', () => {
    const { report } = reportOf(tailwater, [told('06:00', '20:00', { units: 0 })]);
    expect(hoursOn(report)).toEqual([]);
    expect(saidOf(report)[0]).toMatch(/^No release 06:00 to 20:00, told by the operator/);
  });

  it('stand in place of what the weekdays make likely', () => {
    const { report } = reportOf(tailwater, [told('08:00', '10:00')], thursdays('discharge'));
    expect(hoursOn(report)).toEqual([8, 9]);
    expect(saidOf(report)).toHaveLength(1);
  });

  it('yield to what the gauge measured', () => {
    const { report } = reportOf(reservoir, [told('01:00', '12:00')], thursdays('release'));
    expect(report.hours.find(({ atMs }) => atMs === at('03:00'))).toMatchObject({
      generationOn: 0,
      generationBy: 'gauge',
    });
    expect(report.hours.find(({ atMs }) => atMs === at('08:00'))?.generationBy).toBe('operator');
  });

  it('begin anew where units join, and not where they go on', () => {
    const starts = (more: Partial<ToldRelease>) =>
      reportOf(tailwater, [told('10:00', '12:00', { units: 1 }), told('12:00', '14:00', more)])
        .report.hours.filter(({ releaseStart }) => releaseStart === 1)
        .map(({ atMs }) => local(atMs).hour);
    expect(starts({ units: 1 })).toEqual([10]);
    expect(starts({ units: 3 })).toEqual([10, 12]);
  });

  it('begin anew where the flow grows to one and a half times, and not by less', () => {
    const starts = (m3s: number) =>
      reportOf(tailwater, [
        told('10:00', '12:00', { flowM3s: 100 }),
        told('12:00', '14:00', { flowM3s: m3s }),
      ]).report.hours.flatMap(({ atMs, releaseStart }) => (releaseStart === 1 ? [local(atMs).hour] : []));
    expect(starts(149)).toEqual([10]);
    expect(starts(150)).toEqual([10, 12]);
    expect(starts(0)).toEqual([10]);
  });

  it('of a flow count as running by the most that the dam lets through', () => {
    const flow = (flowM3s: number): Partial<ToldRelease> => ({ flowM3s });
    const { report } = reportOf(tailwater, [
      told('06:00', '14:00', flow(3)),
      told('14:00', '18:00', flow(120)),
    ]);
    expect(hoursOn(report)).toEqual([14, 15, 16, 17]);
  });

  it('fill the day of 23 hours as they fill the others', () => {
    const day = (clock: string): number => DateTime.fromISO(`2026-03-08T${clock}`, { zone }).toMillis();
    const { report } = reportOf(
      tailwater,
      [told('14:00', '18:00', { fromMs: day('00:00'), toMs: day('00:00') + 23 * HOUR })],
      [],
      '2026-03-08T10:15:00Z',
    );
    expect(hoursOn(report)).toHaveLength(23);
    expect(saidOf(report)[0]).toMatch(/^Release 00:00 to 24:00/);
  });
});

describe('hours that the weekdays make likely', () => {
  it.each([
    ['release', reservoir, 'water ran'],
    ['discharge', tailwater, 'the flow was up'],
  ] as const)('are those of a %s gauge, with how often it held', (variable, lake, ran) => {
    const { report } = reportOf(lake, [], thursdays(variable, { but: 1 }));
    expect(hoursOn(report).filter((hour) => hour > 5)).toEqual([14, 15, 16, 17]);
    expect(saidOf(report)).toEqual([
      `On 7 of the last 8 Thursdays known ${ran} from 14:00 to 18:00: an estimate from the gauge, nobody announced it for today.`,
    ]);
    expect(saidOf(report).join()).not.toMatch(/schedule/i);
    const start = report.hours.find(({ atMs }) => atMs === at('14:00'));
    expect(start).toMatchObject({ generationBy: 'weekday', releaseStart: 7 / 8 });
  });

  it('of means over an hour that are stamped at its end are those of the hour', () => {
    const parameter = 'DAM.Flow-Out.Ave.1Hour.1Hour.REV';
    const rows = thursdays('release').map((row) => ({
      ...row,
      source: 'cwms',
      station: `LRN/${parameter}`,
      atMs: row.atMs + HOUR,
    }));
    const cwms = { service: 'cwms', office: 'LRN', station: 'DAM', where: 'at the dam', parameter } as const;
    const lake: LakeConfig = { ...testLake, gauges: [{ ...cwms, variable: 'release' }] };
    const { report } = reportOf(
      lake,
      [],
      rows.filter(({ atMs }) => atMs <= LAST),
    );
    expect(report.release).toMatchObject([{ spans: [{ fromHour: 14, toHour: 18 }] }]);
  });

  it('count a flow as running from two fifths of the way up from standing on', () => {
    // Mornings at 200, afternoons at what is asked, else 20: two fifths of the way are 92.
    const afternoons = (m3s: number): Observation[] =>
      thursdays('discharge').map((row) => {
        const { weekday, hour } = local(row.atMs);
        return weekday === 4 && hour >= 14 && hour < 18 ? { ...row, value: m3s } : row;
      });
    expect(reportOf(tailwater, [], afternoons(92)).report.release).toMatchObject([
      { spans: [{ fromHour: 14, toHour: 18 }] },
    ]);
    expect(reportOf(tailwater, [], afternoons(91.9)).report.release).toEqual([]);
  });

  it('leave a day out of which an hour of them is not known', () => {
    const week = 7 * 24 * HOUR;
    const holed = thursdays('discharge').filter(({ atMs }) => atMs !== at('15:00') - 3 * week);
    expect(reportOf(tailwater, [], holed).report.release).toMatchObject([
      { spans: [{ fromHour: 14, toHour: 18, held: 7, of: 7 }] },
    ]);
    // Of four of eight Thursdays the hour is not known: the other four are too few to tell of it.
    const half = [1, 2, 3, 4].map((weeks) => at('15:00') - weeks * week);
    const scarce = thursdays('discharge').filter(({ atMs }) => !half.includes(atMs));
    expect(reportOf(tailwater, [], scarce).report.release).toMatchObject([
      { spans: [{ fromHour: 16, toHour: 18 }] },
    ]);
  });

  it('are told of the level below a dam, of no lake with a level alone', () => {
    const level = { ...dam, variable: 'level' } as const;
    const rows = thursdays('level', { standing: 100, running: 101 });
    const { report } = reportOf({ ...tailwater, gauges: [level] }, [], rows);
    expect(saidOf(report)[0]).toMatch(/Thursdays known the water was up from 14:00/);
    expect(reportOf({ ...testLake, gauges: [level] }, [], rows).report.release).toEqual([]);
  });

  it.each([
    ['too seldom', thursdays('discharge', { but: 4 })],
    ['a flow that hardly differs', thursdays('discharge', { running: 25 })],
    [
      'a flood of a week',
      gauge('discharge', LAST, 70, (back) => (back > 200 && back < 400 ? 300 : 20), { station: 'USGS-9' }),
    ],
    [
      'a flow that swings by chance',
      gauge('discharge', LAST, 70, (back) => ((back * 7919) % 13 > 6 ? 200 : 20), { station: 'USGS-9' }),
    ],
    ['four Thursdays', thursdays('discharge').filter(({ atMs }) => atMs > LAST - 27 * 24 * HOUR)],
  ])('are not told of %s', (_, rows) => {
    expect(reportOf(tailwater, [], rows).report.release).toEqual([]);
  });

  it('are told from a flow below a dam, whichever of the two says that it lies there, and in a river’s pool from a large pulse alone', () => {
    const lake = (more: Partial<LakeConfig>): LakeConfig => ({ ...tailwater, ...more });
    const usual = (more: Partial<LakeConfig>, running = 200) =>
      saidOf(reportOf(lake(more), [], thursdays('discharge', { running })).report).length;
    expect(usual({ waterBody: 'tailwater', belowDam: false })).toBe(1);
    expect(usual({ waterBody: 'run-of-river', belowDam: true })).toBe(1);
    // The next dam up lets it through: ten times the flow at the same hours is no rain and no melt water.
    expect(usual({ waterBody: 'run-of-river', belowDam: false })).toBe(1);
    expect(usual({ waterBody: 'run-of-river', belowDam: false }, 50)).toBe(0);
    expect(usual({ waterBody: 'run-of-river', belowDam: true }, 50)).toBe(1);
    expect(usual({ waterBody: 'hill-land-reservoir', belowDam: false })).toBe(0);
  });

  it('are those of the clock before and after a change of the clocks', () => {
    // Monday 16 March 2026: the clocks went forward eight days before; the gauge keeps to 14:00 on the clock.
    const last = Date.parse('2026-03-16T10:00:00Z');
    const rows = gauge(
      'discharge',
      last,
      70,
      (back) => {
        const { weekday, hour } = local(last - back * HOUR);
        return weekday === 1 && hour >= 14 && hour < 18 ? 200 : hour === 3 ? 150 : 20;
      },
      { station: 'USGS-9' },
    );
    const { report } = reportOf(tailwater, [], rows, '2026-03-16T10:15:00Z');
    expect(report.release).toMatchObject([
      { weekday: 1, spans: [{ fromHour: 14, toHour: 18, held: 8, of: 8 }] },
    ]);
  });
});

describe('a plan below a dam', () => {
  const rules = loadRules();
  const config = { tackle: { reels: [], linesKg: [], castLengthM: 22.9 } } as unknown as Config;
  const advised = (releases: readonly ToldRelease[], rows: readonly Observation[] = []) => {
    const { view, report } = reportOf(tailwater, releases, rows);
    return adviseFrom({ config, rules }, tailwater, view, report);
  };

  it('closes the hour in which a release is told to begin, and no other', () => {
    const { plan, safety } = advised([told('12:00', '16:00')]);
    expect(
      plan?.closed.filter(({ hazard }) => hazard === 'release-start').map(({ from, to }) => [from, to]),
    ).toEqual([['12:00', '13:00']]);
    expect(plan?.blocks.every(({ fromMs, toMs }) => toMs <= at('12:00') || fromMs >= at('13:00'))).toBe(true);
    expect(safety.level).toBe(3);
  });

  it('closes none for hours that are only usual, and names them', () => {
    const { plan, safety } = advised([], thursdays('discharge'));
    expect(plan?.closed.filter(({ hazard }) => hazard === 'release-start')).toEqual([]);
    const hazards = safety.hazards.flatMap((hazard) => [hazard, ...(hazard.also ?? [])]);
    expect(hazards.find(({ id }) => id === 'release-start')).toMatchObject({ level: 2 });
  });

  it('fishes moving water in its hours, and is as without it before them', () => {
    const [withIt, without] = [advised([told('12:00', '17:00')]), advised([])];
    const first = (plan: typeof withIt.plan) => {
      const block = plan?.blocks[0];
      return [block?.from, block?.place];
    };
    expect(first(withIt.plan)).toEqual(first(without.plan));
    const moving = (plan: typeof withIt.plan) =>
      (plan?.blocks ?? []).filter(({ because }) =>
        because.some(
          (reason) =>
            reason.code === 'release' || (reason.code === 'rule' && reason.signal === 'generationOn'),
        ),
      );
    expect(moving(withIt.plan)).not.toEqual([]);
    for (const { fromMs, toMs } of moving(withIt.plan))
      expect(Math.min(toMs, at('17:00')) - Math.max(fromMs, at('12:00'))).toBeGreaterThan(0);
    expect(moving(without.plan)).toEqual([]);
  });

  it('names the hours in which the flow of a river’s pool usually jumps', () => {
    const pool: LakeConfig = { ...tailwater, waterBody: 'run-of-river', belowDam: false };
    const { view, report } = reportOf(pool, [], thursdays('discharge'));
    const { safety } = adviseFrom({ config, rules }, pool, view, report);
    expect(safety.hazards.flatMap((hazard) => [hazard, ...(hazard.also ?? [])])).toContainEqual(
      expect.objectContaining({ id: 'release-start', level: 2 }),
    );
  });

  it('says nothing of a start where no dam lies upstream', () => {
    const { view, report } = reportOf(testLake, [told('12:00', '16:00')]);
    const { safety } = adviseFrom({ config, rules }, testLake, view, report);
    expect(safety.hazards.map(({ id }) => id)).not.toContain('release-start');
    expect(saidOf(report)).toHaveLength(1);
  });
});

describe('a tailwater whose only gauge measures the release', () => {
  const river: LakeConfig = { ...tailwater, gauges: [{ ...dam, variable: 'release' }] };

  it('has that for its flow, and no ratio to a usual one: it goes up and down by design', () => {
    const { report } = reportOf(river, [], thursdays('release'));
    expect(report.conditions.signals.dischargeM3s?.value).toBe(20);
    expect(report.conditions.signals).not.toHaveProperty('dischargeRatio');
    const row = conditionRows(report, report.conditions.asOfMs).find(({ id }) => id === 'dischargeM3s');
    expect(row).toMatchObject({ river: true, now: { value: 20 } });
  });

  it('is no flow of the lake above the dam', () => {
    const { report } = reportOf({ ...reservoir, belowDam: false }, [], thursdays('release'));
    expect(report.conditions.signals).not.toHaveProperty('dischargeM3s');
  });
});
