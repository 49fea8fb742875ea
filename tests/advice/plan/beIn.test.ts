/** When to be off the water. How early one is in is the rules' to say; here what follows from it. */
import { describe, expect, it } from 'vitest';
import { beInBy, isWeather } from '../../../src/advice/plan/beIn.ts';
import { clockOf } from '../../../src/advice/plan/index.ts';
import { rules } from '../support.ts';
import { days, planned, planOf } from './support.ts';

const HOUR_MS = 3_600_000;
const at = (hour: number): number => Date.parse('2026-07-01T05:00:00Z') + hour * HOUR_MS;
const clock = clockOf('America/Chicago');
const [block] = planOf(days[0]!.form).blocks;
const blocks = [{ ...block!, fromMs: at(6), toMs: at(9) }];
const day = { fromMs: at(5), toMs: at(20), own: false };
const closure = (hazard: string, from: number, to: number) => ({
  hazard,
  level: 3 as const,
  fromMs: at(from),
  toMs: at(to),
});

describe('to be in', () => {
  it('is asked for before the hazard that sends home first, not before the one that begins first', () => {
    const closed = [closure('rising-water', 10.75, 12), closure('lightning', 11, 12)];
    const early = ({ hazard }: { readonly hazard: string }) => (hazard === 'lightning' ? HOUR_MS : 0);
    for (const list of [closed, [...closed].reverse()])
      expect(beInBy(blocks, list, day, clock, early)).toMatchObject({
        at: '10:00',
        because: { code: 'hazard', hazard: 'lightning', starts: '11:00' },
      });
  });

  it('is not asked for before what has begun when the plan begins', () => {
    const closed = [closure('heat', 4, 6), closure('heat', 13, 18)];
    expect(beInBy(blocks, closed, day, clock, () => 0)).toMatchObject({ at: '13:00' });
  });

  it('comes with the end of the fishing hours where nothing closes, and with no hour where the light stays', () => {
    expect(beInBy(blocks, [], day, clock, () => 0)).toMatchObject({ at: '20:00', because: { code: 'dusk' } });
    expect(beInBy(blocks, [], { ...day, own: true }, clock, () => 0)).toMatchObject({
      because: { code: 'fishingHours' },
    });
    expect(beInBy(blocks, [], { ...day, lightAllNight: true }, clock, () => 0)).toBeNull();
  });
});

describe('weather', () => {
  it.each(['wind', 'gusts', 'waves', 'lightning', 'storms'])('is %s', (id) => {
    expect(isWeather(id, rules.safety)).toBe(true);
  });
  it.each(['heat', 'rising-water', 'cold-water', 'dam', 'no such hazard'])('is not %s', (id) => {
    expect(isWeather(id, rules.safety)).toBe(false);
  });
});

describe('the level of a block', () => {
  it('is that of the worst hazard that closes no hour', () => {
    const levels = new Set<number>();
    for (const { form, id } of days) {
      const { plan, safety } = planned(form);
      const closing = new Set(plan!.closed.map(({ hazard }) => hazard));
      const worst = Math.max(
        1,
        ...safety.hazards.filter((hazard) => !closing.has(hazard.id)).map(({ level }) => level),
      );
      for (const { level } of plan!.blocks) {
        expect(level, id).toBe(worst);
        levels.add(level);
      }
    }
    expect(levels.size).toBeGreaterThan(1);
  });
});
