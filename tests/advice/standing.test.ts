/** What is there on a day, and which season may be told of it. Common practice, no source. */
import { describe, expect, it } from 'vitest';
import { adviceFor, type Form } from './support.ts';

const pond = (more: Form): Form => ({
  date: '2026-05-02',
  latitude: 35,
  species: 'largemouth',
  waterBody: 'pond',
  water: { main: '70 F', change7d: '4 F', clarity: '2 ft' },
  air: { mean24h: '68 F' },
  ...more,
});
const ranks = (form: Form, place: string): boolean =>
  adviceFor(form).positions.some((position) => position.place === place);

describe('stems in shallow water', () => {
  it('are a place at the usual level, and where nobody knows it', () => {
    expect(ranks(pond({}), 'emergent')).toBe(true);
    expect(ranks(pond({ level: { change24h: '-0.3 ft', change72h: '-1 ft' } }), 'emergent')).toBe(true);
    expect(ranks(pond({ level: { change72h: '3 ft' } }), 'emergent')).toBe(true);
  });
  it.each([{ change72h: '-4 ft' }, { change24h: '-3 ft' }, { aboveNormal: '-4 ft' }])(
    'stand dry after %j',
    (level) => {
      expect(ranks(pond({ level }), 'emergent')).toBe(false);
    },
  );
});

describe('a second season', () => {
  const SPRING = ['early_prespawn', 'prespawn', 'spawn', 'postspawn'];
  const FALL = ['early_fall', 'fall', 'late_fall'];
  it('is none of the half of the year that has passed, however the water turns', () => {
    const told = new Set<string>();
    for (const [date, halfPassed] of [
      ['2026-01-20', FALL],
      ['2026-03-10', FALL],
      ['2026-09-10', SPRING],
      ['2026-11-20', SPRING],
    ] as const)
      for (let waterC = 4; waterC <= 30; waterC += 1)
        for (const change7d of ['-4 C', '0 C', '4 C']) {
          const { because } = adviceFor({
            ...pond({ date, latitude: 30 }),
            water: { main: `${waterC} C`, change7d },
          }).phase;
          if (because.partly === null) continue;
          expect(halfPassed, `${date} ${waterC} ${change7d}`).not.toContain(because.partly);
          told.add(because.partly);
        }
    expect(told.size).toBeGreaterThan(4);
  });
});

describe('what stands on the bottom near the bank', () => {
  it('reaches no depth that clear cold water would send fish to elsewhere', () => {
    for (const waterBody of ['natural-lake', 'hill-land-reservoir', 'highland-reservoir'])
      for (const main of ['36 F', '46 F', '88 F']) {
        const { positions } = adviceFor({
          ...pond({ date: '2026-01-20', waterBody, places: { has: ['dock', 'laydown'] } }),
          water: { main, clarity: '18 ft' },
        });
        const deepest = (place: string) => positions.find((one) => one.place === place)?.depthM[1];
        expect(deepest('dock'), main).toBeLessThanOrEqual(7.5);
        expect(deepest('laydown'), main).toBeLessThanOrEqual(6);
      }
  });
});
