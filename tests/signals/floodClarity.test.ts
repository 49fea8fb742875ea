// A flooding water is not guessed to be clear because the weather model has little rain.
import { describe, expect, it } from 'vitest';
import { clarityClass, type ClarityInput } from '../../src/water/clarity/index.ts';

const dry: ClarityInput = { runoffMmByDay: [{ ageDays: 1, mm: 0 }], waterBody: 'highland-reservoir' };
const inflow = { ratio: 10, rise24hM: 0.43 };

describe('a guess of the clarity', () => {
  it('is stained at least where the flow is far above its usual amount and the level rises', () => {
    expect(clarityClass(dry)!.class).toBe('clear');
    const flooding = clarityClass({ ...dry, inflow })!;
    expect(flooding).toMatchObject({ class: 'stained', from: 'runoff', secchiM: null, confidence: 'low' });
    expect(flooding.because).toEqual({ code: 'flood', ...inflow });
    expect(clarityClass({ ...dry, runoffMmByDay: null, inflow })!.class).toBe('stained');
  });

  it('stays what the runoff makes of it where that is darker', () => {
    const runoffMmByDay = [{ ageDays: 1, mm: 60 }];
    const muddy = clarityClass({ ...dry, runoffMmByDay });
    expect(clarityClass({ ...dry, runoffMmByDay, inflow })).toEqual(muddy);
  });

  it('stays as it is where one of the two is usual, and below a dam', () => {
    for (const usual of [
      { ratio: 2.9, rise24hM: 0.43 },
      { ratio: 10, rise24hM: 0.05 },
      { ratio: 10, rise24hM: -0.4 },
    ])
      expect(clarityClass({ ...dry, inflow: usual })!.class).toBe('clear');
    expect(clarityClass({ ...dry, waterBody: 'tailwater', inflow })!.because.code).toBe('runoffAlone');
  });

  it('gives way to a reading of today, and not to one of before the flood', () => {
    const read = (ageDays: number) => clarityClass({ ...dry, inflow, readingM: { value: 2.6, ageDays } })!;
    expect(read(0.2)).toMatchObject({ class: 'clear', from: 'reading' });
    expect(read(2)).toMatchObject({ class: 'stained', from: 'runoff' });
  });
});
