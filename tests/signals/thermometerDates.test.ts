import { describe, expect, it } from 'vitest';
import { readSignals, type GapFact } from '../../src/signals/index.ts';
import type { RecordView } from '../../src/record/types.ts';
import { gauge, recordView, testLake } from '../helpers/weatherRecord.ts';

const AS_OF = '2026-06-06T11:15:00Z';
const DAY_MS = 86_400_000;
const DAYS = 420;
const dayBack = (ms: number): number =>
  Math.floor((Date.parse('2026-06-06T05:00:00Z') + DAY_MS - ms) / DAY_MS);

// Invented weather with a memory of two days, and a lake that relaxes to it at a tenth a day.
// A lone sine of the square of the day: as good as noise here, and the same on every machine.
const noise = (back: number): number => Math.sin(0.7 * back * back + back);
const airByBack = new Map<number, number>();
const waterByBack = new Map<number, number>();
for (let back = DAYS + 1, gust = 0, water = 14; back >= -8; back--) {
  gust = 0.6 * gust + 3 * noise(back);
  const air = 15 + 10 * Math.cos((2 * Math.PI * (back - 45)) / 365) + gust;
  water += 0.1 * (air + 1 - water);
  airByBack.set(back, air);
  waterByBack.set(back, water);
}

function stamped(lateDays: number): RecordView {
  const last = Date.parse('2026-06-06T11:00:00Z');
  return recordView({
    asOf: AS_OF,
    pastDays: DAYS,
    weather: (local) => ({ air: airByBack.get(dayBack(local.toMillis())) ?? 15 }),
    extra: gauge(
      'water_temp',
      last,
      DAYS - 5,
      (hours) => waterByBack.get(dayBack(last - hours * 3_600_000) + lateDays) ?? 15,
    ),
  });
}

describe('a gauge thermometer whose days do not fit the weather', () => {
  const named = (view: RecordView): GapFact[] =>
    readSignals(view, testLake)
      .conditions.gaps.map(({ fact }) => fact)
      .filter(({ code }) => code === 'thermometerDated');

  it('is named while its values come a day late', () => {
    expect(named(stamped(1))).toEqual([{ code: 'thermometerDated', dating: 'late' }]);
  });

  it('is not named while its days are right', () => {
    expect(named(stamped(0))).toEqual([]);
  });
});
