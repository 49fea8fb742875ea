/** One service at a time misbehaves; the others still speak, and each gap is one plain sentence. */
import { afterEach, describe, expect, it } from 'vitest';
import { refreshLakes } from '../../src/services/index.ts';
import { startReplayServer, type Fault, type ReplayServer } from '../helpers/replayServer.ts';
import { gauge, HOUR_MS, inventedLake, NOW_MS, testClient, testDeps, weatherBody } from './support.ts';

let server: ReplayServer | null = null;
afterEach(async () => {
  await server?.close();
  server = null;
});

const KEY = 'K'.repeat(40);
const FAULTS: readonly (readonly [Fault, string])[] = [
  ['down', 'could not be reached, or the connection broke off.'],
  ['slow', 'did not answer within 0.4 s.'],
  ['429', 'answered 429: we asked too often ("Rate limit exceeded").'],
  ['500', 'answered 500: it has a fault of its own ("An unexpected problem has occurred").'],
  ['html', 'answered with a web page instead of data; it will be asked again later.'],
  ['empty', ''],
];

async function refresh(service: 'usgs' | 'open-meteo', fault: Fault) {
  server = await startReplayServer({
    openMeteo: weatherBody,
    usgs: [
      {
        site: 'USGS-00000001',
        parameter: '00062',
        series: 's',
        atMs: NOW_MS - HOUR_MS,
        value: '600',
        unit: 'ft',
      },
    ],
    fault: { [service]: fault },
  });
  const lakes = [
    inventedLake({ gauges: [gauge()] }),
    inventedLake({ id: 'second', gauges: [gauge({ station: 'USGS-00000001' })] }),
  ];
  const deps = testDeps(server, testClient({ timeoutMs: fault === 'slow' ? 400 : 10_000, attempts: 2 }), {
    usgsKey: KEY,
  });
  return refreshLakes(lakes, deps);
}

describe.each(['usgs', 'open-meteo'] as const)('when %s fails', (service) => {
  it.each(FAULTS)('by: %s', async (fault, sentence) => {
    const refreshed = await refresh(service, fault);
    expect(refreshed).toHaveLength(2);
    for (const lake of refreshed) {
      const sources = new Set(lake.observations.map((o) => o.source));
      expect(sources).toEqual(new Set([service === 'usgs' ? 'open-meteo' : 'usgs']));
      const problems = lake.retrievals.filter((r) => !r.ok);
      expect(problems.map((r) => r.source)).toEqual([service]);
      expect(problems[0]?.problem).toContain(sentence);
      expect(problems[0]?.problem).toMatch(/^[A-Z].*\.$/);
      expect(JSON.stringify(lake)).not.toContain('http://');
      expect(JSON.stringify(lake)).not.toContain(KEY);
    }
  });
});

describe('the key of the gauge service', () => {
  it('goes to that host in a header, to no other, and never into an address', async () => {
    const replay = await startReplayServer({ openMeteo: weatherBody });
    server = replay;
    await refreshLakes(
      [inventedLake({ alerts: 'nws', gauges: [gauge()] })],
      testDeps(replay, testClient(), { usgsKey: KEY }),
    );
    const withKey = replay.seen.filter((r) => r.headers['x-api-key'] !== undefined).map((r) => r.service);
    expect(new Set(withKey)).toEqual(new Set(['usgs']));
    expect(replay.seen.some((r) => r.query.toString().includes(KEY))).toBe(false);
  });
});

describe('a page that fails', () => {
  it('costs all pages: rows of some are never returned as all of them', async () => {
    const rows = Array.from({ length: 20 }, (_, i) => ({
      site: 'USGS-00000001',
      parameter: '00062',
      series: 's',
      atMs: NOW_MS - i * HOUR_MS,
      value: '600',
      unit: 'ft',
    }));
    const replay = await startReplayServer({ usgs: rows, usgsPage: 15 });
    server = replay;
    const client = testClient({ attempts: 1 });
    const second = {
      ...client,
      get: async (request: Parameters<typeof client.get>[0]) => {
        if (request.url.includes('cursor=')) replay.setFault('usgs', 'html');
        return client.get(request);
      },
    };
    const [refreshed] = await refreshLakes(
      [inventedLake({ weather: [], gauges: [gauge()] })],
      testDeps(replay, second),
    );
    expect(refreshed?.observations).toEqual([]);
    expect(refreshed?.retrievals).toMatchObject([{ ok: false, source: 'usgs' }]);
  });
});
