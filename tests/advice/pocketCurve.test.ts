/** A what-if's pocket is written at its best hour; what it has in the others. */
import { describe, expect, it } from 'vitest';
import { understand, whatIfSchema } from '../../src/advice/whatIf/index.ts';
import { planOf } from './plan/support.ts';
import type { Form } from './support.ts';

const SUNNY: Form = {
  date: '2026-03-10',
  latitude: 35,
  species: 'largemouth',
  waterBody: 'hill-land-reservoir',
  sky: 'clear',
  air: {
    mean24h: '52 F',
    mean3d: '50 F',
    mean7d: '46 F',
    warmingDays: 5,
    overnightLow: '45 F',
    highToday: '72 F',
  },
  wind: { speed: '5 mph' },
  water: { main: '51 F', change3d: '2 F', change7d: '4 F', pocket: '59.1 F', clarity: '3 ft' },
};
const at = (form: Form, hour: number): number =>
  understand(whatIfSchema.parse(form)).day.hours[hour]!.pocketMinusMainC!;

describe('a pocket that the sun warms', () => {
  // Two-layer runs of a shallow pocket on mild clear days, uncalibrated: 8.1 F above the lake in the afternoon, 2 F at dawn.
  it('keeps about a quarter of its warmth at dawn and has the most in the afternoon', () => {
    expect(at(SUNNY, 6) * 1.8).toBeCloseTo(2, 0);
    expect(at(SUNNY, 14) * 1.8).toBeCloseTo(8.1, 1);
    for (let hour = 6; hour < 14; hour += 1)
      expect(at(SUNNY, hour + 1)).toBeGreaterThanOrEqual(at(SUNNY, hour));
    expect(at(SUNNY, 20)).toBeLessThan(at(SUNNY, 15));
  });

  it('has nothing left at dawn of a night far colder than the lake, and all of it by the afternoon', () => {
    const cold = { ...SUNNY, air: { ...(SUNNY['air'] as object), overnightLow: '28 F' } };
    expect(at(cold, 5)).toBeCloseTo(0, 1);
    expect(at(cold, 14)).toBeCloseTo(at(SUNNY, 14), 6);
  });

  it('is left for the first hours, and fished from about eleven', () => {
    const cold = { ...SUNNY, air: { ...(SUNNY['air'] as object), overnightLow: '33 F' } };
    const { blocks } = planOf(cold);
    expect(blocks[0]!.place).not.toBe('pocket');
    const pocket = blocks.find(({ place }) => place === 'pocket')!;
    expect(pocket.from >= '09:30' && pocket.from <= '12:30').toBe(true);
  });

  it('is as it is written where its hours are written, is colder, or has no sun', () => {
    const hourly = { ...SUNNY, hours: [{ at: '06:00', pocket: '57 F' }] };
    expect(at(hourly, 6) * 1.8).toBeCloseTo(6, 6);
    const colder = { ...SUNNY, water: { ...(SUNNY['water'] as object), pocket: '48 F' } };
    expect(understand(whatIfSchema.parse(colder)).day.hours[6]!.pocketMinusMainC).toBeUndefined();
    const dull = { ...SUNNY, sky: '95 %' };
    expect(at(dull, 6)).toBeCloseTo(at(dull, 14), 6);
  });
});
