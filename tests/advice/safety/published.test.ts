import { describe, expect, it } from 'vitest';
import { expandQuantities } from '../../../src/units/index.ts';
import { judgeSafety } from '../../../src/advice/safety/index.ts';
import { CALM, CHECKED, conditions, ids, judge, table } from './day.ts';

const toC = (f: number): number => (f - 32) / 1.8;
const cold = (f: number): string | undefined => {
  const row = table.hazards.find((hazard) => hazard.id === 'cold-water')!;
  const found = judge({ waterC: toC(f), airMaxTodayC: toC(f) }).hazards.find(
    (hazard) => hazard.id === 'cold-water',
  );
  return row.classes.find((entry) => found?.headline.endsWith(entry.headline))?.name;
};

/**
 * Classes: cold shock at its strongest from 50 to 60 F, caution below 70 F (National Center for Cold Water Safety);
 * strongest response at 10 degC (House 2017, J. R. Nav. Med. Serv. 103, 189). Nothing is said above 70 F.
 */
describe('cold water classes', () => {
  it.each([
    [78, undefined],
    [77.1, undefined],
    [76, undefined],
    [70.5, undefined],
    [69, 'caution'],
    [60.2, 'caution'],
    [59, 'danger'],
    [50.2, 'danger'],
    [49, 'extreme'],
    [42, 'extreme'],
    [40, 'near freezing'],
  ])('%d F is %s', (f, name) => {
    expect(cold(f)).toBe(name);
  });

  // Rule of air plus water of 120 F or less would pass this day, yet the water is in the range of strongest shock.
  it('do not depend on the air: 75 F air over 50 F water is dangerous and said to mislead', () => {
    const day = judge({ waterC: toC(50), airMaxTodayC: toC(75), airMinTodayC: toC(50) });
    expect(day.level).toBeGreaterThanOrEqual(2);
    expect(ids(day)).toContain('cold-water');
    expect(ids(day)).toContain('warm-air-cold-water');
  });

  // Warm spells carry the cold-water line while the water is at 15 degC or below; a reminder below 21 degC.
  it('stay on every warm spell until the water has warmed', () => {
    for (let waterC = 3; waterC <= 15; waterC += 0.5) {
      expect(ids(judge({ waterC, airMaxTodayC: 26, airMinTodayC: 14 }))).toContain('warm-air-cold-water');
    }
    for (let waterC = 15; waterC <= 21; waterC += 0.5) {
      expect(ids(judge({ waterC, airMaxTodayC: 26, airMinTodayC: 14 }))).toContain('cold-water');
    }
  });

  // 1-10-1 (Giesbrecht): 1 minute to breathe, 10 of useful movement, 1 hour to unconsciousness.
  it('say 1-10-1 and to dress for the water, and print no survival times', () => {
    const text = judge({ waterC: 8 })
      .hazards.filter((hazard) => hazard.id === 'cold-water')
      .map((hazard) => `${hazard.what} ${hazard.doThis}`)
      .join(' ');
    expect(text).toMatch(/1 minute.*10 .*1 hour/);
    expect(text).toMatch(/Dress for the water/);
    expect(JSON.stringify(table)).not.toMatch(/surviv/i);
  });
});

describe('other published numbers', () => {
  // National Weather Service lightning safety: in shelter until 30 minutes after the last thunder.
  it('thunder means 30 minutes ashore', () => {
    const storm = judge({ thunderPct: 35 });
    expect(storm.hazards.find((hazard) => hazard.id === 'lightning')!.doThis).toMatch(/30 minutes/);
    expect(storm.level).toBe(3);
  });

  // The same: 30 minutes from the last thunder, whichever hour of the forecast it falls in.
  it('thunder closes half an hour more than its hours, and a mere possibility closes none', () => {
    const hour = (n: number): number => Date.UTC(2026, 6, 10, n);
    const chances = [0, 70, 0, 0, 70, 15, 70];
    const hours = chances.map((thunderPct, n) => ({ fromMs: hour(n), toMs: hour(n + 1), thunderPct }));
    const spans = (thunderPct: number, of = hours): number[][] | undefined =>
      judgeSafety(conditions({ ...CALM, thunderPct }), table, { ...CHECKED, hours: of })
        .hazards.find(({ id }) => id === 'lightning')
        ?.hours?.map(({ fromMs, toMs }) => [(fromMs - hour(0)) / 36e5, (toMs - hour(0)) / 36e5]);
    // The day's last hours have no half hour after them.
    expect(spans(70)).toEqual([
      [1, 2.5],
      [4, 5.5],
      [6, 7],
    ]);
    const possible = hours.map((one) => ({ ...one, thunderPct: Math.min(15, one.thunderPct) }));
    expect(spans(15, possible)).toEqual([
      [1, 2],
      [4, 7],
    ]);
    const next = hours.map((one, n) => ({ ...one, thunderPct: n === 1 || n === 2 ? 70 : 0 }));
    expect(spans(70, next)).toEqual([[1, 3.5]]);
  });

  // Initial mortality climbs above 25 degC (77 F), more than 30 % expected above 30 degC (86 F; Moon et al. 2017).
  it.each([
    [76, false, ''],
    [78, true, 'warm water is hard'],
    [87, true, 'often die'],
  ])('fish handling at %d F', (f, said, words) => {
    const found = judge({ waterC: toC(f) }).hazards.find((hazard) => hazard.id === 'fish-handling');
    expect(found !== undefined).toBe(said);
    if (found !== undefined) expect(found.headline).toContain(words);
  });

  // Wind chill of 5 F air at 15 mph is -13 F on the published chart: between -10 and -27 degC in our steps.
  it('wind chill is the published index', () => {
    const day = judge({
      airMinTodayC: toC(5),
      airMaxTodayC: toC(20),
      windMs: 15 * 0.44704,
      windMaxMs: 15 * 0.44704,
    });
    const chill = day.hazards.find((hazard) => hazard.id === 'wind-chill')!;
    expect(chill.level).toBe(3);
    expect(expandQuantities(chill.what, 'us')).toContain('-13 °F');
  });

  // 96 F at 60 % is 116 F (National Weather Service web calculator).
  it('heat index is the published one', () => {
    const day = judge({ airMaxTodayC: toC(96) }, { humidityPct: 60 });
    const heat = day.hazards.find((hazard) => hazard.id === 'heat')!;
    expect(expandQuantities(heat.what, 'us')).toContain('116 °F');
    expect(heat.level).toBe(3);
    // The hot air it is made of is not said twice.
    expect(day.hazards.map(({ id }) => id)).not.toContain('hot-air');
  });

  it('hot dry air is named for itself when it is worse than it feels', () => {
    const day = judge({ airMaxTodayC: 38.5 }, { humidityPct: 5 });
    expect(day.hazards.find(({ id }) => id === 'hot-air')?.level).toBe(3);
  });

  // 15 m/s over 8 km gives 0.71 m by EM 1110-2-1100 II-2.
  it('waves are those of the Coastal Engineering Manual', () => {
    const day = judge({ windMs: 15, windMaxMs: 15 }, { fetchM: 8000 });
    const waves = day.hazards.find((hazard) => hazard.id === 'waves')!;
    expect(waves.what).toContain('{{depth:0.713');
    expect(waves.level).toBe(4);
  });

  // National Weather Service Manual 10-950: action, minor, moderate, major.
  it.each([
    ['none', 1],
    ['action', 2],
    ['minor', 3],
    ['moderate', 4],
    ['major', 4],
  ] as const)('flood category %s is level %d', (floodCategory, level) => {
    expect(judge({}, { floodCategory }).level).toBe(level);
  });
});
