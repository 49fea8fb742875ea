import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { inClock } from '../../src/render/clock.ts';
import { messagesFor } from '../../src/words/index.ts';

const words = messagesFor('en');
const said = (text: string): string => inClock(text, '12h', words);

describe('the clock of twelve hours', () => {
  it.each([
    ['06:10 to 17:00', '6:10 am to 5 pm'],
    ['06:10 to 11:00', '6:10 to 11 am'],
    ['13:30 to 18:05', '1:30 to 6:05 pm'],
    ['00:00 to 12:00', '12 am to 12 pm'],
    ['Off the water 10:45 to 20:00. Be in by 20:50.', 'Off the water 10:45 am to 8 pm. Be in by 8:50 pm.'],
    ['From 09:00 to the end', 'From 9 am to the end'],
  ])('says %s as %s', (written, expected) => {
    expect(said(written)).toBe(expected);
  });

  it('leaves a reader of 24 hours alone, and what it has said already', () => {
    expect(inClock('06:10 to 17:00', '24h', words)).toBe('06:10 to 17:00');
    const clock = fc
      .tuple(fc.integer({ min: 0, max: 23 }), fc.integer({ min: 0, max: 59 }))
      .map(([h, m]) => `${String(h).padStart(2, '0')}:${String(m).padStart(2, '0')}`);
    fc.assert(
      fc.property(clock, clock, (from, to) => {
        const once = said(`Fish ${from} to ${to}, then rest.`);
        expect(said(once)).toBe(once);
        expect(once).not.toMatch(/[ap]m [ap]m/);
      }),
    );
  });
});
