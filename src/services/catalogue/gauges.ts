/** Which networks can have a gauge near a position, and asking one of them. */
import type { HttpClient } from '../http/types.ts';
import { canadaNearby } from './canada.ts';
import { corpsNearby } from './corps.ts';
import { englandNearby } from './england.ts';
import type { Around, GaugeNearby } from './gauge.ts';
import { usgsNearby } from './usgs.ts';

type Network = 'usgs' | 'cwms' | 'ea' | 'eccc';

/** West, south, east, north of what a network covers, wide enough for its islands, degrees. */
const COVERS: Readonly<Record<Network, readonly [number, number, number, number]>> = {
  usgs: [-180, 13, -64, 72],
  cwms: [-125, 24, -66, 50],
  ea: [-6.5, 49.8, 2.1, 55.9],
  eccc: [-141.1, 41.6, -52.5, 72],
};

export const servicesAround = (at: Around): readonly Network[] =>
  (Object.keys(COVERS) as Network[]).filter((network) => {
    const [west, south, east, north] = COVERS[network];
    return at.lonDeg >= west && at.lonDeg <= east && at.latDeg >= south && at.latDeg <= north;
  });

/**
 * Living gauges of one network within a square or circle of that half width, nearest first.
 *
 * @throws ThawlineError `service` when it does not answer or in a shape that is not known
 */
export function gaugesNearby(
  network: Network,
  client: HttpClient,
  base: string,
  at: Around,
  nowMs: number,
  headers: Readonly<Record<string, string>> = {},
): Promise<GaugeNearby[]> {
  switch (network) {
    case 'usgs':
      return usgsNearby(client, base, at, nowMs, headers);
    case 'cwms':
      return corpsNearby(client, base, at, nowMs);
    case 'ea':
      return englandNearby(client, base, at, nowMs);
    case 'eccc':
      return canadaNearby(client, base, at, nowMs);
  }
}
