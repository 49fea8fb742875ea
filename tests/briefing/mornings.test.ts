/** Issues every invented morning with the program itself, from its record to its document, and looks at its point. */
import { DateTime } from 'luxon';
import { describe, expect, it } from 'vitest';
import type { BriefingPage, PageRow } from '../../src/words/index.ts';
import { keptPath, keptText, morningNamed } from '../helpers/mornings.ts';
import { issueMorning } from '../helpers/mornings/issue.ts';
import { PLANS } from '../helpers/mornings/plans.ts';

describe('an invented morning', () => {
  it.each(PLANS)(
    '$name is kept as the program issues it from its record',
    async (plan) => {
      await expect(keptText(await issueMorning(plan))).toMatchFileSnapshot(keptPath(plan.name));
    },
    60_000,
  );

  it('comes out the same twice', async () => {
    const plan = PLANS.find(({ name }) => name === 'thin-evidence');
    if (plan === undefined) throw new Error('no plan');
    expect(await issueMorning(plan)).toEqual(await issueMorning(plan));
  });
});

const of = (name: string): BriefingPage => morningNamed(name).document;
const row = (document: BriefingPage, id: string): PageRow => {
  const found = document.conditions.find((one) => one.id === id);
  if (found === undefined) throw new Error(`no row ${id}`);
  return found;
};
const now = (document: BriefingPage, id: string): number => {
  const { now: figure } = row(document, id);
  if (figure === null) throw new Error(`${id} is not known`);
  return figure.value;
};
const hazards = (document: BriefingPage): string[] => document.safety.hazards.map(({ id }) => id);

describe('the point of a morning', () => {
  it('warm-rain-pulse: two days of warm rain on a cold lake, pockets ahead of it, the level rising', () => {
    const document = of('warm-rain-pulse');
    expect(now(document, 'rain72Mm')).toBeGreaterThan(25);
    expect(now(document, 'pocketMinusMainC')).toBeGreaterThan(1.5);
    expect(now(document, 'waterC')).toBeLessThan(10);
    expect(now(document, 'level24hM')).toBeGreaterThan(0.05);
    expect(document.positions[0]?.place).toMatch(/pocket/);
    expect(document.whatChanged.items.length).toBeGreaterThan(0);
  });

  it('nil: nothing is fresh, nothing is ranked, and what failed is named', () => {
    const document = of('nil');
    expect(document.status).toBe('nil');
    expect(document.conditions.every((one) => one.now === null)).toBe(true);
    expect(document.positions).toEqual([]);
    expect(document.gaps.join(' ')).toMatch(/did not answer/);
  });

  it('level-4-flood: an official statement word for word, and nobody is sent out', () => {
    const document = of('level-4-flood');
    expect(document.safety.level).toBe(4);
    const official = document.safety.hazards.find((hazard) => hazard.official !== undefined)?.official;
    expect(official?.issuer).toBe('Invented Weather Office');
    expect(official?.text).toContain('* WHAT...Moderate flooding is occurring and is forecast.');
    expect(hazards(document)).toContain('flood');
    expect(now(document, 'level24hM')).toBeGreaterThan(0.6);
    expect(document.casts).toEqual([]);
  });

  it('winter-calm: cold, dry and still, and the cold water alone is serious', () => {
    const document = of('winter-calm');
    expect(document.phase?.leading).toBe('winter');
    expect(now(document, 'waterC')).toBeLessThan(6);
    expect(now(document, 'windMs')).toBeLessThan(2);
    expect(now(document, 'level24hM')).toBe(0);
    expect(now(document, 'rain72Mm')).toBe(0);
    expect(hazards(document)[0]).toBe('cold-water');
  });

  it('front: the air has fallen, the wind is up, level 3 by wind', () => {
    const document = of('front');
    const [yesterday, today] = document.series.days.slice(8, 10);
    expect((yesterday?.airMeanC ?? NaN) - (today?.airMeanC ?? NaN)).toBeGreaterThan(6);
    expect(document.safety.level).toBe(3);
    // One wind is one block: its gusts, its mean and the cold water under it. Its hours are mild, 7 to 12 °C: no chill.
    expect(hazards(document)).toEqual(expect.arrayContaining(['cold-water-gusts', 'cold-water']));
    expect(hazards(document)).not.toContain('wind-chill');
  });

  it('summer-heat: a hot morning on warm water', () => {
    const document = of('summer-heat');
    expect(document.phase?.leading).toBe('summer');
    expect(now(document, 'waterC')).toBeGreaterThan(28);
    expect(hazards(document)).toEqual(expect.arrayContaining(['heat', 'fish-handling']));
  });

  it('drawdown: the lake fell a foot in a day, and the safety table says so at its level', () => {
    const document = of('drawdown');
    expect(now(document, 'level24hM')).toBeCloseTo(-0.3048, 1);
    const levels = document.series.days.flatMap(({ levelM }) => (levelM === undefined ? [] : [levelM]));
    const lastThree = levels.slice(-3);
    expect(lastThree).toEqual([...lastThree].sort((a, b) => b - a));
    expect((lastThree[0] ?? NaN) - (lastThree[2] ?? NaN)).toBeGreaterThan(0.3);
    // 0.3 m a day and more is level 2, 1 m level 3: config/rules/safety.yaml.
    expect(document.safety.hazards.find(({ id }) => id === 'falling-water')?.level).toBe(2);
    expect(document.safety.level).toBe(2);
  });

  it('gauge-down: no level is used, the last one is dated, the rest goes on', () => {
    const document = of('gauge-down');
    expect(row(document, 'levelM')).toMatchObject({ now: null });
    expect(row(document, 'levelM').last).not.toBeNull();
    expect(row(document, 'level24hM').now).toBeNull();
    expect(document.gaps.join(' ')).toMatch(/level gauge has been silent for 2 days/);
    expect(JSON.stringify(document.positions)).not.toMatch(/levelChange|"level/);
    expect(now(document, 'waterC')).toBeLessThan(10);
  });

  it('metric-reader: cooling late in the year, for a reader of metric units', () => {
    const { units, document } = morningNamed('metric-reader');
    expect(units).toBe('metric');
    expect(now(document, 'waterC')).toBeLessThan(14);
    expect(now(document, 'rain72Mm')).toBeGreaterThan(5);
  });

  it('clock-change-day: the lake loses an hour that day', () => {
    const { date, lake, status, series } = of('clock-change-day');
    const midnight = DateTime.fromISO(date, { zone: lake.zone });
    expect(midnight.plus({ days: 1 }).diff(midnight, 'hours').hours).toBe(23);
    expect(series.hours).toHaveLength(23);
    expect(status).toBe('corrected');
  });

  it('spawn: spawning temperature, an amended issue', () => {
    const { phase, status } = of('spawn');
    expect(phase?.leading).toBe('spawn');
    expect(status).toBe('amended');
  });

  it('thin-evidence: four days of weather and nothing else, as a preview', () => {
    const document = of('thin-evidence');
    expect(document.preview).toBe(true);
    for (const id of ['level24hM', 'airMean7dC', 'clarityM']) expect(row(document, id).now).toBeNull();
    expect(document.gaps.join(' ')).toMatch(/No level gauge is configured/);
    const { low, high } = row(document, 'waterC').now ?? {};
    const known = row(of('warm-rain-pulse'), 'waterC').now;
    expect((high ?? NaN) - (low ?? NaN)).toBeGreaterThan(2 * ((known?.high ?? NaN) - (known?.low ?? NaN)));
  });

  it('pocket-reading: a thermometer in the pocket moves that pocket and says so', () => {
    const document = of('pocket-reading');
    expect(document.pockets[0]?.sentence).toMatch(/Your reading of .* its warmest hour .*Thank you\./);
    const gained = now(document, 'pocketMinusMainC') - now(of('warm-rain-pulse'), 'pocketMinusMainC');
    expect(gained).toBeGreaterThan(0.5);
    expect(now(document, 'waterC')).toBeCloseTo(now(of('warm-rain-pulse'), 'waterC'), 6);
  });

  it('scored: what was issued before is set beside what came', () => {
    const told = of('scored').verification?.join(' ');
    expect(told).toMatch(/^Water: \d+ of the last \d+ days compared/);
    expect(told).toMatch(/Wind, fishing hours: \d+ days compared with a weather station/);
  });
});
