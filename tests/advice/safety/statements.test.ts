import { describe, expect, it } from 'vitest';
import type { LakeAlert } from '../../../src/advice/safety/index.ts';
import { safetyRulesSchema } from '../../../src/config/rulesSafety.ts';
import { parseYaml } from '../../../src/config/yaml.ts';
import { expandQuantities } from '../../../src/units/index.ts';
import { CHECKED, conditions, ids, judge, judgeInWords, table } from './day.ts';

const alert = (more: Partial<LakeAlert> = {}): LakeAlert => ({
  issuer: 'Weather office of the district',
  event: 'Lake Wind Advisory',
  severity: 'Moderate',
  headline: 'Lake Wind Advisory from 9 AM to 6 PM',
  description: 'South winds 20 to 25 mph.',
  instruction: 'Boaters should use extra caution.',
  endsMs: Date.UTC(2026, 2, 8, 0),
  expiresMs: Date.UTC(2026, 2, 7, 18),
  ...more,
});

describe('a harmless day', () => {
  it('is level 1, usual care, and still defers to those who decide', () => {
    const calm = judge({ waterC: 25 });
    expect(calm.level).toBe(1);
    expect(calm.levelWords).toBe('usual care');
    expect(calm.notChecked).toEqual([]);
    expect(calm.deferTo).toMatch(/Local rules, the operator of the dam and official warnings/);
  });
});

describe('levels', () => {
  it('are the highest of the hazards, which come highest first', () => {
    const day = judge({ waterC: 8, airMaxTodayC: 10, level24hM: 1.2, thunderPct: 12 });
    const levels = day.hazards.map((hazard) => hazard.level);
    expect(levels).toEqual([...levels].sort((a, b) => b - a));
    expect(day.level).toBe(levels[0]);
  });

  it.each([
    ['wind over cold water', { waterC: 8, airMaxTodayC: 9, windMs: 8, windMaxMs: 8 }, 'cold-water-wind', 2],
    ['a rise over cold water', { waterC: 8, airMaxTodayC: 9, level24hM: 0.4 }, 'cold-water-rising', 3],
    [
      'strong wind over very cold water',
      { waterC: 8, airMaxTodayC: 9, windMaxMs: 12 },
      'freezing-water-strong-wind',
      4,
    ],
    ['heavy rain and a rise', { rain72Mm: 40, level24hM: 0.2 }, 'debris', 2],
    [
      'rain in cold air',
      { airMaxTodayC: 9, airMinTodayC: 5, waterC: 16, rainNext24Mm: 12 },
      'cold-wet-day',
      2,
    ],
  ] as const)('rise together: %s', (_, signals, id, level) => {
    const day = judge(signals);
    expect(ids(day)).toContain(id);
    expect(day.level).toBe(level);
  });

  it('do not rise for the same wind over warm water', () => {
    expect(judge({ waterC: 25, windMs: 8, windMaxMs: 8 }, { fetchM: 500 }).level).toBe(2);
  });

  it.each([
    ['rising', { level24hM: 0.35 }, 'rising-water', 2],
    ['falling', { level24hM: -0.35 }, 'falling-water', 2],
    ['climbing by the hour', { levelRateMPerH: 0.12 }, 'rising-rate', 3],
    ['dropping by the hour', { levelRateMPerH: -0.12 }, 'falling-rate', 2],
    ['low', { levelVsNormalM: -2.5 }, 'low-water', 2],
    ['high', { levelVsNormalM: 1 }, 'high-water', 2],
    ['in strong flow', { dischargeRatio: 7 }, 'strong-flow', 3],
    ['about to rise', { levelNext24hM: 1.2 }, 'forecast-rise', 3],
    ['freezing', { waterC: 1 }, 'ice', 3],
  ] as const)('follow the water: %s', (_, signals, id, level) => {
    expect(judge(signals).hazards.find((hazard) => hazard.id === id)?.level).toBe(level);
  });

  it('below a dam are never usual care', () => {
    expect(judge({ waterC: 25 }, { belowDam: true }).level).toBe(2);
    expect(judge({ waterC: 12, airMaxTodayC: 14, generationOn: 1 }, { belowDam: true }).level).toBe(3);
  });

  // Dam operators: water can rise within minutes of a start, at any time (common practice, no one source).
  it('below a dam say what runs now by the gauge, and what may run by the hours told or usual', () => {
    const hour = (n: number): number => Date.UTC(2026, 2, 7, 11 + n);
    const hours = [0, 0, 1, 1].map((generationOn, n) => ({
      fromMs: hour(n),
      toMs: hour(n + 1),
      generationOn,
    }));
    const river = (generationOn: number | undefined) =>
      judge(
        { waterC: 11, airMaxTodayC: 14, ...(generationOn === undefined ? {} : { generationOn }) },
        { belowDam: true, hours },
      );
    const words = (generationOn: number | undefined): string =>
      river(generationOn)
        .hazards.filter(({ id }) => id.startsWith('dam'))
        .map(({ headline, what }) => `${headline}. ${what}`)
        .join(' ');
    for (const little of [0, 0.2, undefined]) {
      expect(river(little).level).toBe(3);
      expect(words(little)).toMatch(/can start at any time and rises within minutes/);
      expect(words(little)).not.toMatch(/is being released|Current is strong/);
    }
    expect(words(1)).toMatch(/Water is being released/);
    expect(river(1).level).toBe(3);
    expect(words(1)).not.toMatch(/can be released/);
  });

  it('take the running boat into the wind chill', () => {
    const cold = { airMinTodayC: 0, airMaxTodayC: 6, waterC: 16 };
    expect(ids(judge(cold))).not.toContain('running-wind-chill');
    expect(ids(judge({ ...cold, airMinTodayC: -5 }, { runningBoatMs: 20 }))).toContain('running-wind-chill');
  });

  it('are judged at the worse end of an estimate, and the range is printed', () => {
    const estimate = judge({
      waterC: { value: 16.5, low: 14.5, high: 18.5, kind: 'estimated' },
      airMaxTodayC: 17,
    });
    const found = estimate.hazards.find((hazard) => hazard.id === 'cold-water')!;
    expect(found.level).toBe(2);
    expect(expandQuantities(found.what, 'metric')).toContain('14.5 to 18.5 °C');
  });
});

describe('what is unknown', () => {
  it('is named, one by one', () => {
    const nothing = judgeInWords(conditions({}), table, {
      ...CHECKED,
      alertsChecked: false,
      floodCategory: 'unknown',
    });
    // What is a danger for not being known is told with the dangers, and once.
    const said = [...nothing.hazards.map(({ what }) => what), ...nothing.notChecked].join(' ');
    expect(said.match(/Water temperature is unknown/g)).toHaveLength(1);
    for (const { doThis } of nothing.hazards) expect(doThis).not.toMatch(/as if it were/);
    for (const word of [
      /Water temperature/,
      /Wind is/,
      /Waves/,
      /level is unknown/,
      /thunder/,
      /Flood category/,
      /Official/,
      /Air/,
    ]) {
      expect(said).toMatch(word);
    }
  });

  it('never makes an all-unknown day usual care', () => {
    expect(judgeInWords(conditions({}), table, CHECKED).level).toBe(2);
  });

  it('counts as cold water when the wind is strong', () => {
    const windy = judgeInWords(conditions({ windMs: 8 }), table, CHECKED);
    expect(ids(windy)).toContain('cold-water-wind');
  });

  it('wind does not hide the wind chill', () => {
    const cold = judgeInWords(conditions({ airMinTodayC: -20, airMaxTodayC: -5 }), table, CHECKED);
    expect(ids(cold)).toContain('wind-chill');
  });

  it('humidity is named on a hot day, and the hot air still counts', () => {
    const hot = judge({ airMaxTodayC: 36 });
    expect(hot.notChecked.join(' ')).toMatch(/Humidity/);
    expect(ids(hot)).toContain('hot-air-humidity-unknown');
  });

  // Heat index by Rothfusz (1990) with class limits of the National Weather Service, from memory: 45 % is ours.
  it('a day without a humidity is no milder than a moist one', () => {
    for (const airMaxTodayC of [31, 32, 34, 36, 37, 39]) {
      const level = (extras: object) => judge({ airMaxTodayC }, extras).level;
      expect(level({}), `${airMaxTodayC}`).toBeGreaterThanOrEqual(level({ humidityPct: 45 }));
    }
  });

  it('cold still air is no wind chill, and an hour is judged by its own air and wind', () => {
    const at = (hour: number, airC: number, windMs: number) => ({
      fromMs: hour * 3_600_000,
      toMs: (hour + 1) * 3_600_000,
      airC,
      windMs,
    });
    const day = { airMinTodayC: -0.6, airMaxTodayC: 15, windMs: 3, windMaxMs: 6.3 };
    const told = ids(judge(day, { hours: [at(6, -0.6, 0), at(14, 15, 6.3)] }));
    expect(told).toContain('cold-air');
    expect(told).not.toContain('wind-chill');
    expect(ids(judge(day, { hours: [at(6, -0.6, 4), at(14, 15, 6.3)] }))).toContain('wind-chill');
    expect(ids(judge({ ...day, windMs: 0, windMaxMs: 0 }))).toContain('cold-air');
  });
});

describe('official statements', () => {
  it('are given word for word, with issuer and end', () => {
    const given = alert();
    const found = judge({}, { alerts: [given] }).hazards.find((hazard) => hazard.official !== undefined)!;
    expect(found.official).toEqual({
      issuer: given.issuer,
      text: `${given.description}\n\n${given.instruction}`,
      endsMs: given.endsMs,
    });
    expect(found.headline).toContain(given.event);
    expect(found.what).toBe(given.headline);
    expect(found.level).toBe(3);
    expect(found.when).toBe('Until Sat 7 Mar, 18:00 CST.');
  });

  it('that have ended are left out', () => {
    const ended = alert({ endsMs: Date.UTC(2026, 2, 7, 10) });
    expect(judge({}, { alerts: [ended] }).hazards.some((hazard) => hazard.official)).toBe(false);
  });

  it('without a stated end stay', () => {
    const open = judge({}, { alerts: [alert({ endsMs: null, expiresMs: null })] });
    expect(open.hazards.find((hazard) => hazard.official)!.when).toMatch(/Until the issuer ends it/);
  });

  it.each([
    ['Extreme', 4],
    ['Severe', 4],
    ['Moderate', 3],
    ['Minor', 2],
    ['Unknown', 3],
    ['', 3],
  ])('of severity "%s" are level %d', (severity, level) => {
    expect(judge({}, { alerts: [alert({ severity })] }).level).toBe(level);
  });
});

describe('our own statements', () => {
  it('all have what, where, when and do, in sentences under 25 words', () => {
    const bad = judge(
      {
        waterC: 3,
        airMaxTodayC: 12,
        airMinTodayC: -20,
        windMs: 16,
        windMaxMs: 16,
        gustMs: 22,
        level24hM: 2.5,
        levelRateMPerH: 0.4,
        thunderPct: 70,
        dischargeRatio: 9,
        rain72Mm: 60,
        levelVsNormalM: 3,
        levelNext24hM: 2,
        generationOn: 1,
      },
      { belowDam: true, fetchM: 6000, floodCategory: 'major', runningBoatMs: 18 },
    );
    expect(bad.hazards.length).toBeGreaterThan(10);
    for (const hazard of bad.hazards) {
      for (const text of [hazard.headline, hazard.what, hazard.where, hazard.when, hazard.doThis]) {
        const plain = expandQuantities(text, 'us');
        expect(plain).not.toMatch(/\{|\}|\b(advisory|watch|warning)\b/i);
        expect(plain.length).toBeGreaterThan(3);
        for (const sentence of plain.split(/[.!?](?:\s|$)/)) {
          expect(sentence.trim().split(/\s+/).length, sentence).toBeLessThan(25);
        }
      }
    }
  });

  it('may not borrow the names of official ones: the file is refused', () => {
    const text = JSON.stringify(table).replace('too strong for small boats', 'wind advisory for small boats');
    expect(() => parseYaml(text, 'safety.yaml', safetyRulesSchema)).toThrow(/name official statements/);
  });

  it('may not be long: the file is refused', () => {
    const text = JSON.stringify(table).replace('"Stay ashore."', JSON.stringify('word '.repeat(30)));
    expect(() => parseYaml(text, 'safety.yaml', safetyRulesSchema)).toThrow(/split it/);
  });

  it('may not rank a milder class above a severer one: the file is refused', () => {
    const broken = structuredClone(table);
    broken.hazards[0]!.classes.at(-1)!.level = 4;
    expect(() => parseYaml(JSON.stringify(broken), 'safety.yaml', safetyRulesSchema)).toThrow(/milder class/);
  });
});
