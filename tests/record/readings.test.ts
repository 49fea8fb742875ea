// Limits are common practice, no source: src/record/readings/readingQuestions.ts.
import { describe, expect, it } from 'vitest';
import { freshRecord } from '../helpers/record.ts';
import { parseLengthM, parseWater, readingQuestions, type ReadingQuestion } from '../../src/record/index.ts';
import type { Observation, Reading } from '../../src/record/index.ts';
import { DAY, HOUR, hourly, START, wave } from './rows.ts';

const NOW = START + 3 * DAY;

function reading(part: Partial<Reading> = {}): Reading {
  return {
    id: 'r1',
    lake: 'pine-hollow',
    atMs: NOW - HOUR,
    waterC: 9.4,
    depthM: 0.3,
    sdC: 0.5,
    where: 'ramp',
    ...part,
  };
}

async function questions(
  one: Reading,
  known: { observations?: Observation[]; readings?: Reading[]; written?: string } = {},
): Promise<ReadingQuestion[]> {
  const record = await freshRecord();
  try {
    await record.putObservations(known.observations ?? []);
    for (const other of known.readings ?? []) await record.putReading(other);
    const view = await record.view('pine-hollow', Math.max(NOW, one.atMs), { days: 30 });
    return readingQuestions(
      one,
      view,
      NOW,
      known.written === undefined ? undefined : parseWater(known.written),
    );
  } finally {
    await record.close();
  }
}

describe('how an angler writes a reading', () => {
  it.each([
    ['9.4C', 9.4],
    ['49F', (49 - 32) / 1.8],
    ['49 °F', (49 - 32) / 1.8],
    ['-0.2 c', -0.2],
  ])('takes %s', (text, waterC) => {
    expect(parseWater(text).waterC).toBeCloseTo(waterC, 12);
  });

  it.each(['9.4', 'F', '9.4K', '9,4C', 'warm', ''])('refuses "%s" and says how to write it', (text) => {
    expect(() => parseWater(text)).toThrow(/9\.4C or 49F/);
  });

  it('takes a depth without a unit as metres, a clarity not', () => {
    expect(parseLengthM('0.3', '--depth', 'm')).toBe(0.3);
    expect(parseLengthM('2ft', '--clarity')).toBeCloseTo(0.6096, 12);
    expect(() => parseLengthM('0.6', '--clarity')).toThrow(/0\.6m or 2ft/);
    expect(() => parseLengthM('-1m', '--depth')).toThrow(/--depth/);
  });
});

describe('what is asked before a reading is stored', () => {
  const gauge = hourly(wave(72, 9, 0.8));

  it('nothing, when it fits or when there is nothing to compare it with', async () => {
    expect(await questions(reading(), { observations: gauge })).toEqual([]);
    expect(await questions(reading())).toEqual([]);
  });

  it('a time in the future', async () => {
    expect(await questions(reading({ atMs: NOW + HOUR }))).toEqual([{ code: 'inFuture' }]);
  });

  it('the other unit, when the number is impossible in this one', async () => {
    expect(await questions(reading({ waterC: 49 }), { written: '49C' })).toEqual([
      { code: 'notLakeWater', waterC: 49, written: '49 °C', otherUnitFits: true },
    ]);
    expect(await questions(reading({ waterC: -12.6 }), { written: '9.4F' })).toMatchObject([
      { code: 'notLakeWater', otherUnitFits: true },
    ]);
  });

  it('the other unit, when the number is possible but only fits the lake in the other one', async () => {
    // 36 degC in March beside a gauge at 9: 36 degF would be 2.2 degC, which does not fit either; 48 does.
    const other = reading({ id: 'r0', atMs: NOW - DAY, waterC: 2.5 });
    expect(await questions(reading({ waterC: 36 }), { readings: [other], written: '36C' })).toEqual([
      { code: 'againstOthers', waterC: 36, nearestC: 2.5, otherUnitFits: true },
    ]);
  });

  it('one that is against all others, with the nearest of them', async () => {
    const [question] = await questions(reading({ waterC: 16 }), { observations: gauge });
    expect(question).toMatchObject({ code: 'againstOthers', waterC: 16, otherUnitFits: false });
    // A wave of 0.8 K about 9 °C.
    expect(question).toHaveProperty('nearestC', expect.closeTo(9, 0));
  });

  it('not one that agrees with any of two that quarrel', async () => {
    const readings = [reading({ id: 'a', waterC: 9 }), reading({ id: 'b', waterC: 16 })];
    expect(await questions(reading({ waterC: 15.5 }), { readings })).toEqual([]);
  });

  it('nothing on the word of a gauge that is itself doubted', async () => {
    const dry = hourly(wave(72, 4, 6));
    expect(await questions(reading({ waterC: 16 }), { observations: dry })).toEqual([]);
  });

  it('one far from the air of two weeks, when there is nothing else', async () => {
    const air = hourly(wave(72, 2, 4), { variable: 'air_temp' });
    expect(await questions(reading({ waterC: 24 }), { observations: air })).toMatchObject([
      { code: 'farFromAir', waterC: 24 },
    ]);
  });

  it('a pocket is compared with that pocket only', async () => {
    const known = { observations: gauge };
    expect(await questions(reading({ waterC: 16, pocket: 'back-cove' }), known)).toEqual([]);
  });

  it('a clarity that no reservoir has', async () => {
    expect(await questions(reading({ clarityM: 30 }))).toEqual([{ code: 'oddClarity', clarityM: 30 }]);
  });
});

describe('stored readings', () => {
  it('come back as given, in time order, and can be removed', async () => {
    const record = await freshRecord();
    const late = reading({ id: 'b', clarityM: 0.6, pocket: 'cove' });
    const early = reading({ id: 'a', atMs: NOW - DAY });
    await record.putReading(late);
    await record.putReading(early);
    await record.putReading(late);
    expect(await record.readings('pine-hollow')).toEqual([early, late]);
    expect((await record.view('pine-hollow', NOW - 2 * HOUR)).readings).toEqual([early]);
    expect(await record.removeReading('a')).toBe(true);
    expect(await record.removeReading('a')).toBe(false);
    await record.close();
  });
});
