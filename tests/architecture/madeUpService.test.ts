/** A service is one object: a made-up row and its behaviour, and everything that lists services knows it. */
import { describe, expect, it, vi } from 'vitest';
import { z } from 'zod';
import type { Service } from '../../src/services/index.ts';

vi.mock('../../src/vocabulary/serviceTable.ts', async (original) => {
  const real = await original<typeof import('../../src/vocabulary/serviceTable.ts')>();
  return {
    ...real,
    SERVICES: {
      ...real.SERVICES,
      pondwatch: {
        ...real.SERVICES.ea,
        name: 'Invented Pond Service',
        attribution: 'Pond data: an invented service.',
        licence: 'invented licence',
        bases: { pondwatch: 'https://pond.example' },
        gaugeName: 'pond gauge',
      },
    },
  };
});

vi.mock('../../src/services/behaviours.ts', async (original) => {
  const real = await original<typeof import('../../src/services/behaviours.ts')>();
  const { retrieve } = await import('../../src/services/basket.ts');
  const fetch: Service['fetch'] = async (pairs, deps) => {
    for (const { lake, basket } of pairs) {
      if (!lake.gauges.some(({ service }) => (service as string) === 'pondwatch')) continue;
      await retrieve('pondwatch' as never, [basket], deps, () => Promise.resolve());
    }
  };
  return { BEHAVIOURS: { ...real.BEHAVIOURS, pondwatch: { id: 'pondwatch', variables: ['level'], fetch } } };
});

const { configSchema } = await import('../../src/config/index.ts');
const { parseYaml } = await import('../../src/config/yaml.ts');
const { ATTRIBUTIONS, probeServices, REGISTRY } = await import('../../src/services/index.ts');
const { isOf } = await import('../../src/signals/gauge.ts');
const { inventedLake, gauge, NOW_MS, testClient, testDeps } = await import('../services/support.ts');

const CONFIG = `
lakes:
  - id: a
    name: A
    position: { lat: 35, lon: -86 }
    zone: America/Chicago
    waterBody: highland-reservoir
    meanDepth: 10 m
    area: 20 km2
    gauges: [{ service: pondwatch, station: "P1", variable: level }]
services: { baseUrls: { pondwatch: "http://127.0.0.1:9" } }
`;

describe('a made-up service', () => {
  it('is taken by the configuration, as a gauge and with an address of its own', () => {
    const read = parseYaml(CONFIG, 'made-up.yaml', configSchema);
    expect(read.lakes[0]?.gauges[0]?.service).toBe('pondwatch');
  });

  it('stands in the JSON Schema that editors use', () => {
    const text = JSON.stringify(z.toJSONSchema(configSchema, { io: 'input', unrepresentable: 'any' }));
    expect(text.match(/"pondwatch"/g)?.length).toBeGreaterThanOrEqual(2);
  });

  it('is credited by its own name and licence', () => {
    expect((ATTRIBUTIONS as Record<string, unknown>)['pondwatch']).toEqual({
      name: 'Invented Pond Service',
      attribution: 'Pond data: an invented service.',
      url: expect.any(String) as string,
      licence: 'invented licence',
    });
  });

  it('is one object of the registry, and knows its own series', () => {
    const service = REGISTRY.find(({ id }) => (id as string) === 'pondwatch');
    expect(service?.bases).toEqual({ pondwatch: 'https://pond.example' });
    const own = { source: 'pondwatch', station: 'P1/level' };
    expect(service?.owns(own)).toBe(true);
    const configured = gauge({ service: 'pondwatch' as never, station: 'P1', parameter: 'level' });
    expect(isOf(own, configured)).toBe(true);
    expect(isOf({ ...own, station: 'P12/level' }, configured)).toBe(false);
  });

  it('is asked with the others and shown by the check', async () => {
    const lake = inventedLake({ weather: [], gauges: [gauge({ service: 'pondwatch' as never })] });
    const deps = testDeps(null, testClient());
    const rows = await probeServices({ lakes: [lake], services: deps.services }, { ...deps, nowMs: NOW_MS });
    expect(rows.map(({ service, ok }) => [service, ok])).toEqual([['pondwatch', true]]);
  });
});
