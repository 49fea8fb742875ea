/** The cost of moving by the way by water. */
import { describe, expect, it } from 'vitest';
import { searchPlan, type SearchInputs } from '../../../src/advice/plan/search.ts';
import type { Slot } from '../../../src/advice/plan/slots.ts';
import { copyFileSync, mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { loadConfig } from '../../../src/config/index.ts';
import { waysOf } from '../../../src/schedule/ways.ts';
import { outlined } from '../../helpers/outlined.ts';
import { rules } from '../support.ts';

const HALF_MS = 1_800_000;
const slots: Slot[] = Array.from({ length: 12 }, (_, i) => ({
  fromMs: i * HALF_MS,
  toMs: (i + 1) * HALF_MS,
  open: true,
  hour: i,
}));
/** The pocket is a little better in the afternoon. */
const inputs = (hours?: number): SearchInputs => ({
  slots,
  places: ['point', 'pocket'],
  valueOf: (place, slot) => (place === 'point' ? 5 : slot < 6 ? 4 : 5.6),
  stepsBetween: () => 1,
  settings: rules.hours.settings,
  ...(hours === undefined ? {} : { hoursBetween: () => hours }),
});
const moves = (hours?: number): string[] => searchPlan(inputs(hours)).map(({ place }) => place);

describe('a move', () => {
  it('over a short way is made for a small gain, and over a long one is not', () => {
    expect(moves(0.05)).toEqual(['point', 'pocket']);
    expect(moves(0.8)).toEqual(['point']);
  });
  it('whose way nobody knows costs by the kinds of place, as before', () => {
    expect(moves()).toEqual(['point', 'pocket']);
  });
  it('costs more the slower the boat: the same way is given up at a tenth of the speed', () => {
    const wayM = 2000;
    const at = (boatMs: number): string[] => moves(wayM / boatMs / 3600);
    expect(at(8.94)).toEqual(['point', 'pocket']);
    expect(at(0.7)).toEqual(['point']);
  });
});

describe('ways of a lake with an outline', () => {
  it('run inside the water: longer than the straight line between two arms, and the same both ways', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'thawline-ways-'));
    copyFileSync('config/ossarly.geojson', join(folder, 'ossarly.geojson'));
    writeFileSync(
      join(folder, 'thawline.yaml'),
      outlined().replace('# boatSpeed: 20 mph', 'boatSpeed: 10 mph'),
    );
    const [lake] = (await loadConfig(join(folder, 'thawline.yaml'))).lakes;
    if (lake?.shape === undefined) throw new Error('no shape');
    const { ways } = waysOf(lake);
    const [mill, hollow] = ['Mill Draw', 'Long Hollow'].map(
      (name) => lake.shape?.places.find((p) => p.name === name)?.at,
    );
    const straightM = Math.hypot(
      (mill?.[0] ?? 0) - (hollow?.[0] ?? 0),
      (mill?.[1] ?? 0) - (hollow?.[1] ?? 0),
    );
    const way = ways?.wayM('Mill Draw', 'Long Hollow') ?? 0;
    expect(way).toBeGreaterThan(straightM);
    expect(way).toBeLessThan(1.5 * straightM);
    expect(ways?.wayM('Long Hollow', 'Mill Draw')).toBe(way);
    expect(ways?.wayM('Mill Draw', 'nowhere')).toBeUndefined();
    expect(ways?.boatMs).toBeCloseTo(10 * 0.44704, 6);
    const { shape: _, ...bare } = lake;
    expect(waysOf(bare)).toEqual({});
  });
});
