/** The days on which clocks are set: 15 U.S.C. 260a (second Sunday of March, first of November); Directive 2000/84/EC. */
import { describe, expect, it } from 'vitest';
import { clocksForwardMs } from '../../src/render/clockChange.ts';
import { renderBriefing } from '../../src/render/index.ts';
import { addDays } from '../../src/units/time/calendar.ts';
import { mornings } from '../helpers/mornings.ts';

const HOUR_MS = 3_600_000;

describe('clocks', () => {
  it.each([
    ['2026-03-08', 'America/Chicago', HOUR_MS],
    ['2026-11-01', 'America/Chicago', -HOUR_MS],
    ['2026-03-29', 'Europe/Madrid', HOUR_MS],
    ['2026-10-25', 'Europe/Madrid', -HOUR_MS],
    // Half an hour on Lord Howe Island, none in Arizona.
    ['2026-10-04', 'Australia/Lord_Howe', HOUR_MS / 2],
    ['2026-03-08', 'America/Phoenix', 0],
    ['2026-03-09', 'America/Chicago', 0],
  ])('on %s in %s go forward by %d ms', (date, zone, ms) => {
    expect(clocksForwardMs(date, zone)).toBe(ms);
  });

  it.each(['America/Chicago', 'Australia/Sydney', 'America/Santiago', 'Asia/Tokyo'])(
    'of %s stand after a year where they stood',
    (zone) => {
      let sum = 0;
      for (let day = 0; day < 365; day++) sum += clocksForwardMs(addDays('2025-06-15', day), zone);
      expect(sum).toBe(0);
    },
  );
});

describe('a page of the day on which they are set', () => {
  it('says so once, and no other does', async () => {
    const texts = await Promise.all(
      mornings().map(async ({ name, facts, units }) => {
        const { text } = await renderBriefing(facts, { units, form: 'full', pictures: false });
        return text.replace(/\s+/g, ' ').includes('Clocks go forward') ? [name] : [];
      }),
    );
    expect(texts.flat()).toEqual(['clock-change-day']);
  });
});
