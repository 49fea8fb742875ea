/** Kinds of place that a water has only where it says so: plants, roofs, seams, drains, what somebody sank. */
import { describe, expect, it } from 'vitest';
import { PLACE, PLACES, WATER_BODIES } from '../../src/vocabulary/index.ts';
import { presentAt } from '../../src/advice/presentation/index.ts';
import { conditionsOf, rules, TACKLE } from './support.ts';
import { planned } from './plan/support.ts';

const DECLARED = PLACES.flatMap((place) => {
  const on = WATER_BODIES.find((body) => PLACE[place].on[body] === 'declared');
  return on === undefined ? [] : [{ place, on }];
});
const form = (waterBody: string, more: object = {}) => ({
  date: '2026-06-18',
  latitude: 34,
  species: 'largemouth',
  waterBody,
  air: { mean24h: '76 F', mean3d: '76 F', mean7d: '75 F' },
  rain: { last72h: '0 in' },
  // Above the usual pool, so that what high water covers is covered.
  level: { change24h: '0 ft', aboveNormal: '1 ft' },
  water: { main: '77 F', change7d: '0.5 F', clarity: '3 ft' },
  wind: { speed: '4 mph' },
  sky: 'partly',
  ...more,
});
const ranked = (asked: ReturnType<typeof form>): string[] =>
  planned(asked).positions.map(({ place }) => place);

describe('a place that has to be declared', () => {
  it.each(DECLARED)(
    '$place on a $on is ranked where it is said to be there, and only there',
    ({ place, on }) => {
      expect(ranked(form(on))).not.toContain(place);
      expect(ranked(form(on, { places: { has: [place] } }))).toContain(place);
    },
  );

  it.each(DECLARED)(
    '$place has a lure that can be worked in every season, and words of its own',
    ({ place, on }) => {
      const { positions } = planned(form(on, { places: { has: [place] } }));
      const position = positions.find((one) => one.place === place);
      if (position === undefined) throw new Error('not ranked');
      const rule = rules.positions.places.find(({ id }) => id === place);
      for (const [phase, band] of Object.entries(rule?.depthM ?? {})) {
        const found = presentAt(conditionsOf(form(on)), { ...position, depthM: band }, rules.lures, TACKLE);
        expect(found.length, phase).toBeGreaterThan(0);
      }
      for (const field of ['name', 'limitedBy', 'timeless', 'step', 'moveOn'])
        expect(rules.text[`place.${place}.${field}`], field).toMatch(/\w{3}/);
    },
  );

  it('a list of places means exactly these', () => {
    const asked = form('natural-lake', { places: ['grass_edge', 'flat'] });
    expect(new Set(ranked(asked))).toEqual(new Set(['grass_edge', 'flat']));
  });

  it('what a water lacks is not ranked though it usually has it', () => {
    expect(ranked(form('highland-reservoir'))).toContain('dock');
    expect(ranked(form('highland-reservoir', { places: { hasNot: ['dock'] } }))).not.toContain('dock');
  });
});

// Common practice, no source.
describe('what moves them', () => {
  const totalOf = (place: string, asked: ReturnType<typeof form>): number =>
    planned(asked).positions.find((one) => one.place === place)?.total ?? Number.NaN;
  const grass = { places: { has: ['grass_edge', 'grass_mat', 'pads', 'emergent'] } };

  it('mats hold fish under the sun and are gone in the cold', () => {
    const cold = form('natural-lake', {
      ...grass,
      date: '2026-01-18',
      water: { main: '45 F', clarity: '3 ft' },
    });
    const warm = form('natural-lake', { ...grass, sky: 'clear' });
    expect(totalOf('grass_mat', warm) - totalOf('grass_mat', cold)).toBeGreaterThan(3);
  });

  it('stems lose their fish as the water falls', () => {
    const falling = form('natural-lake', { ...grass, level: { change24h: '-0.5 ft', change72h: '-1 ft' } });
    const steady = form('natural-lake', grass);
    expect(totalOf('emergent', falling)).toBeLessThan(totalOf('emergent', steady) - 1);
  });

  it('a seam needs running water', () => {
    const below = (generation: string, current: string) =>
      totalOf('eddy_seam', form('tailwater', { flow: { generation, current } }));
    expect(below('on', '2 ft/s')).toBeGreaterThan(below('off', '0 ft/s') + 3);
  });

  it('a drain leads fish in while the shallows warm in spring', () => {
    const spring = (warmingDays: number) =>
      form('hill-land-reservoir', {
        places: { has: ['ditch'] },
        date: '2026-03-01',
        air: { mean24h: '56 F', mean3d: '55 F', mean7d: '50 F', warmingDays },
        water: { main: '50 F', change7d: warmingDays > 0 ? '3 F' : '-2 F', clarity: '3 ft' },
      });
    expect(totalOf('ditch', spring(5))).toBeGreaterThan(totalOf('ditch', spring(-3)) + 0.5);
  });
});
