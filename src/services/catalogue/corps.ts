/**
 * Series of the US Army Corps of Engineers' projects near a position. The catalogue's questions and replies are written
 * from the service's documentation (no recorded reply was at hand) and tested on replies made by hand.
 */
import { z } from 'zod';
import type { GaugeVariable } from '../../config/index.ts';
import type { HttpClient } from '../http/types.ts';
import { check, finite, instantMs, looseNumber, parseJson } from '../parse.ts';
import { latestOf, nearestFirst, type Around, type GaugeNearby } from './gauge.ts';
import { distanceKm } from './place.ts';

const NAME = 'Corps of Engineers';
const ACCEPT = { accept: 'application/json;version=2' };
/** Projects of the whole country, and series of one of them. */
const MOST_ENTRIES = 5000;
const MOST_PROJECTS = 2;
const ALIVE_MS = 3 * 86_400_000;

const locationsSchema = z.object({
  entries: z.array(
    z.object({
      office: z.string(),
      name: z.string(),
      'public-name': z.string().nullish(),
      latitude: looseNumber,
      longitude: looseNumber,
    }),
  ),
});
const seriesSchema = z.object({
  entries: z.array(
    z.object({
      office: z.string(),
      name: z.string(),
      units: z.string().nullish(),
      extents: z.array(z.object({ 'latest-time': z.string().nullish() })).nullish(),
    }),
  ),
});
const newestSchema = z.object({
  units: z.string(),
  values: z.array(z.tuple([z.number(), looseNumber]).rest(z.unknown())),
});

/** What the second word of a series' name means; names of districts differ, so the likely ones only. */
const VARIABLE: Readonly<Record<string, GaugeVariable>> = {
  elev: 'level',
  'elev-forebay': 'level',
  'elev-pool': 'level',
  'flow-out': 'release',
  'flow-outflow': 'release',
  'flow-res out': 'release',
  'flow-in': 'inflow',
  'flow-inflow': 'inflow',
  'flow-res in': 'inflow',
  'temp-water': 'water_temp',
};

const escaped = (name: string): string => name.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');

/** @throws ThawlineError `service` */
export async function corpsNearby(
  client: HttpClient,
  base: string,
  at: Around,
  nowMs: number,
): Promise<GaugeNearby[]> {
  const ask = async (path: string): Promise<unknown> =>
    parseJson(
      (await client.get({ url: `${base}/cwms-data${path}`, service: NAME, headers: ACCEPT })).text,
      NAME,
    );
  const kinds = new URLSearchParams({ 'location-kind-like': 'PROJECT', 'page-size': String(MOST_ENTRIES) });
  const { entries } = check(locationsSchema, await ask(`/catalog/LOCATIONS?${kinds.toString()}`), NAME);
  const near = entries
    .flatMap((entry) => {
      const [latDeg, lonDeg] = [finite(entry.latitude), finite(entry.longitude)];
      if (latDeg === null || lonDeg === null) return [];
      return [{ ...entry, distance: distanceKm(at, { latDeg, lonDeg }) }];
    })
    .filter(({ distance }) => distance <= at.halfKm)
    .sort((a, b) => a.distance - b.distance)
    .slice(0, MOST_PROJECTS);
  const found = await Promise.all(
    near.map(async (project) => {
      const query = new URLSearchParams({
        office: project.office,
        like: `^${escaped(project.name)}([-.].*)?\\.(Elev|Flow|Temp-Water).*`,
        'page-size': '500',
      });
      const series = check(seriesSchema, await ask(`/catalog/TIMESERIES?${query.toString()}`), NAME).entries;
      const living = series.flatMap(({ name, office, extents }) => {
        const variable = VARIABLE[name.split('.')[1]?.toLowerCase() ?? ''];
        const newestMs = Math.max(
          ...(extents ?? []).map((one) => instantMs(one['latest-time']) ?? -Infinity),
          -Infinity,
        );
        // Without extents nobody knows; the newest value below tells.
        const dead = Number.isFinite(newestMs) && nowMs - newestMs > ALIVE_MS;
        return variable === undefined || dead ? [] : [{ name, office, variable }];
      });
      // Of each kind the first by name: revised series of a district sort beside the raw ones, and a person chooses.
      const first = new Map(living.reverse().map((one) => [one.variable, one]));
      return Promise.all(
        [...first.values()].map(async ({ name, office, variable }): Promise<GaugeNearby> => {
          const begin = new Date(nowMs - 86_400_000).toISOString();
          const values = new URLSearchParams({ name, office, unit: 'EN', begin, 'page-size': '500' });
          const page = check(newestSchema, await ask(`/timeseries?${values.toString()}`), NAME);
          const known = page.values.filter(([, value]) => finite(value) !== null);
          const [newestMs, newest] = known.at(-1) ?? [];
          const value = finite(newest);
          return {
            service: 'cwms',
            station: project.name,
            name: project['public-name'] ?? project.name,
            variable,
            parameter: name,
            office,
            distanceKm: project.distance,
            latest: latestOf(value, page.units, newestMs, nowMs),
          };
        }),
      );
    }),
  );
  return nearestFirst(found.flat());
}
