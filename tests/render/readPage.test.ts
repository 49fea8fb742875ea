/** Every kept morning read as a stranger would, and pages that were spoilt on purpose. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { stumbles } from '../../scripts/read-page.ts';
import { keptPath, mornings } from '../helpers/mornings.ts';

describe('a stranger', () => {
  it.each(mornings())('does not stumble over $name', async ({ name, units }) => {
    expect(await stumbles(readFileSync(keptPath(name), 'utf8'), units)).toEqual([]);
  });

  interface Kept {
    plan: {
      blocks: { fromMs: number; toMs: number; depthM: [number, number]; cast: Record<string, number> }[];
    };
  }
  const spoilt = async (change: (kept: Kept) => void): Promise<string[]> => {
    const kept = JSON.parse(readFileSync(keptPath('warm-rain-pulse'), 'utf8')) as Kept;
    change(kept);
    return stumbles(JSON.stringify(kept), 'us');
  };

  it('notices an hour before the light', async () => {
    const found = await spoilt(({ plan }) => (plan.blocks[0]!.fromMs -= 3 * 3_600_000));
    expect(found.join()).toContain('outside the fishing hours');
  });

  it('notices two places at one time', async () => {
    const found = await spoilt(({ plan }) => (plan.blocks[0]!.toMs += 3_600_000));
    expect(found.join()).toContain('two places at');
  });

  it('notices a lure below the bottom', async () => {
    const found = await spoilt(({ plan }) => (plan.blocks[0]!.cast['runningDepthM'] = 30));
    expect(found.join()).toContain('runs below the bottom');
  });

  it('notices a range upside down', async () => {
    const found = await spoilt(({ plan }) => (plan.blocks[0]!.depthM = [9, 2]));
    expect(found.join()).toContain('upside down');
  });
});
