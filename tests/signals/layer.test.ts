/** Where warm and cold water meet in a lake whose configuration does not say it. */
import { describe, expect, it } from 'vitest';
import type { LakeConfig } from '../../src/config/types.ts';
import { thermoclineM } from '../../src/science/index.ts';
import { layerEstimate } from '../../src/signals/index.ts';
import { testLake } from '../helpers/weatherRecord.ts';

describe('the layer of a lake', () => {
  const lake = (more: Partial<LakeConfig>): LakeConfig => ({
    ...testLake,
    meanDepthM: 12,
    fetchM: 3000,
    ...more,
  });
  it('is guessed of warm, deep, standing water whose configuration does not name it', () => {
    expect(layerEstimate(lake({}), 26)).toEqual(thermoclineM(3000, 26));
    expect(layerEstimate(lake({}), 24)).not.toBeNull();
    expect(layerEstimate(lake({}), 40)).not.toBeNull();
    for (const waterC of [23.9, 40.1, undefined]) expect(layerEstimate(lake({}), waterC)).toBeNull();
    expect(layerEstimate(lake({ oxygenDepthM: 6 }), 26)).toBeNull();
    for (const waterBody of ['tailwater', 'run-of-river'] as const)
      expect(layerEstimate(lake({ waterBody }), 26)).toBeNull();
  });
  it('lies in lakes of 5 m and ponds of 2 m mean depth, above the bottom at twice it', () => {
    expect(layerEstimate(lake({ meanDepthM: 5 }), 26)).not.toBeNull();
    expect(layerEstimate(lake({ meanDepthM: 4.9 }), 26)).toBeNull();
    const pond = { waterBody: 'pond', fetchM: 60 } as const;
    expect(layerEstimate(lake({ ...pond, meanDepthM: 2 }), 26)).not.toBeNull();
    expect(layerEstimate(lake({ ...pond, meanDepthM: 1.9 }), 26)).toBeNull();
    // 20 km of open water: 15.9 m, deeper than a lake of 7 m in the mean is anywhere.
    expect(thermoclineM(20_000, 26).depthM).toBeGreaterThan(14);
    expect(layerEstimate(lake({ fetchM: 20_000, meanDepthM: 7 }), 26)).toBeNull();
    expect(layerEstimate(lake({ fetchM: 20_000, meanDepthM: 8.5 }), 26)).not.toBeNull();
  });
  it('goes by the area where no fetch is known, with a wider interval', () => {
    const { fetchM: _, ...noFetch } = lake({ areaKm2: 4 });
    const found = layerEstimate(noFetch, 26)!;
    expect(found.depthM).toBeCloseTo(thermoclineM(3000, 26).depthM, 9);
    expect(found.lowM).toBeCloseTo(thermoclineM(3000 / 1.35, 26).lowM, 9);
    expect(found.highM).toBeCloseTo(thermoclineM(3000 * 1.35, 26).highM, 9);
  });
});
