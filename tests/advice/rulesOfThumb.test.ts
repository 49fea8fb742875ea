import { describe, expect, it } from 'vitest';
import { adviceFor, places, rankOf, rules, totalOf, type Form } from './support.ts';

// Every test here: common practice, no source.
const march: Form = {
  date: '2026-03-04',
  latitude: 35.5,
  air: { mean24h: '50 F', mean3d: '50 F', mean7d: '48 F' },
  rain: { last72h: '0 in' },
  level: { change24h: '0 ft' },
  water: { main: '48 F', change7d: '1 F', clarity: '5 ft' },
  wind: { speed: '6 mph' },
  sky: 'partly',
};
const withWater = (water: object, rest: Form = {}): Form => ({
  ...march,
  ...rest,
  water: { ...(march['water'] as object), ...water },
});
const MAIN = ['channel_swing_bank', 'bluff', 'main_point'];
const INSIDE = ['pocket', 'secondary_point', 'flat'];
const sum = (form: Form, ids: string[]): number => {
  const advice = adviceFor(form);
  return ids.reduce((total, id) => total + totalOf(advice, id), 0);
};

describe('rules of thumb (common practice, no source)', () => {
  it('early season holds two or three patterns at once: the plan lays out at least two, main lake among them', () => {
    const advice = adviceFor(march);
    const patterns = new Set(
      advice.searchPlan.map(({ place }) => rules.positions.places.find(({ id }) => id === place)!.pattern),
    );
    expect(patterns.size).toBeGreaterThanOrEqual(2);
    expect(patterns).toContain('main');
    const [first, second] = advice.positions;
    expect(first!.total - second!.total).toBeLessThan(1.5);
  });

  it('a warm steady spell moves fish shallower and farther back, the more the longer it lasts', () => {
    const spell = (days: number): Form =>
      withWater(
        { change7d: `${days * 0.7} F` },
        { air: { mean24h: '58 F', mean3d: '56 F', mean7d: '52 F', warmingDays: days } },
      );
    const lead = (days: number): number => sum(spell(days), INSIDE) - sum(spell(days), MAIN);
    expect(lead(4)).toBeGreaterThan(lead(1) + 0.5);
    expect(lead(9)).toBeGreaterThan(lead(4) + 0.5);
  });

  it.each([1.2, 1.5, 2])(
    '%s in of warm rain at 58 F on a 46.5 F lake puts the inflow pocket first, even dirty',
    (inches) => {
      const advice = adviceFor(
        withWater(
          { main: '46.5 F', clarity: '1.5 ft' },
          {
            rain: { last24h: `${inches} in`, last72h: `${inches} in`, temperature: '58 F', hoursSince: 6 },
            sky: 'overcast',
            air: { mean24h: '57 F', mean3d: '53 F', mean7d: '48 F' },
          },
        ),
      );
      expect(places(advice)[0]).toBe('inflow');
      expect(rules.text[`place.${advice.searchPlan[0]!.place}.step`]).toMatch(/thermometer/);
    },
  );

  it('rain under half an inch makes no runoff to follow', () => {
    const wet = adviceFor(
      withWater({}, { rain: { last24h: '0.3 in', last72h: '0.3 in', temperature: '58 F', hoursSince: 6 } }),
    );
    const dry = adviceFor(march);
    expect(totalOf(wet, 'inflow')).toBeCloseTo(totalOf(dry, 'inflow'), 6);
  });

  it('cool windy days scatter fish: first and second place stay within reach and the points gain', () => {
    const windy = adviceFor(withWater({}, { wind: { speed: '13 mph' }, sky: 'overcast' }));
    const calm = adviceFor(withWater({}, { wind: { speed: '1 mph' }, sky: 'overcast' }));
    for (const place of ['main_point', 'secondary_point', 'riprap']) {
      expect(totalOf(windy, place)).toBeGreaterThan(totalOf(calm, place));
    }
  });

  it('in the coldest water the fish to fish for hold deep', () => {
    const cold = adviceFor(withWater({ main: '41 F', change7d: '-1 F' }, { date: '2026-01-15' }));
    expect(cold.positions[0]!.depthM[1]).toBeGreaterThan(6);
    expect(rankOf(cold, 'flat')).toBe(cold.positions.length);
  });

  it('bait goes up the creeks in fall, and back out late in fall', () => {
    const fall = adviceFor(withWater({ main: '64 F', change7d: '-2 F' }, { date: '2026-10-22' }));
    const late = adviceFor(withWater({ main: '52 F', change7d: '-3 F' }, { date: '2026-11-30' }));
    expect(places(fall)[0]).toBe('creek_arm');
    expect(rankOf(late, 'creek_arm')).toBeGreaterThan(rankOf(late, 'channel_swing_bank'));
  });

  it('sun on riprap counts on a cold lake and not on a hot one', () => {
    const sunny: Form = { sky: 'clear', wind: { speed: '5 mph' } };
    const cloudy: Form = { sky: 'overcast', wind: { speed: '5 mph' } };
    const gain = (water: object, date: string): number =>
      totalOf(adviceFor(withWater(water, { ...sunny, date })), 'riprap') -
      totalOf(adviceFor(withWater(water, { ...cloudy, date })), 'riprap');
    expect(gain({ main: '48 F' }, '2026-03-01')).toBeGreaterThan(0.1);
    expect(gain({ main: '86 F', change7d: '0 F' }, '2026-07-20')).toBeLessThan(0);
  });
});
