/**
 * Gauges of England's network near a position. The list of stations is as recorded; the question by distance and the
 * newest value are written from the service's documentation and tested on replies made by hand.
 */
import { z } from 'zod';
import type { GaugeVariable } from '../../config/index.ts';
import { ATTRIBUTIONS } from '../attributions.ts';
import type { HttpClient } from '../http/types.ts';
import { check, finite, instantMs, looseNumber, oneOrMany, parseJson } from '../parse.ts';
import { latestOf, nearestFirst, type Around, type GaugeNearby } from './gauge.ts';
import { distanceKm } from './place.ts';

const NAME = ATTRIBUTIONS.ea.name;
/** Newest values are asked station by station: no more than can be read on a screen. */
const MOST_STATIONS = 12;

const VARIABLE: Readonly<Record<string, GaugeVariable>> = {
  level: 'level',
  flow: 'discharge',
  temperature: 'water_temp',
  rainfall: 'rain',
};

/** Some stations write a list where others write one value. */
const oneOf = z.union([z.string(), z.array(z.string()).transform(([first = '']) => first)]);
const measureSchema = z.object({
  '@id': z.string(),
  parameter: z.string(),
  qualifier: z.string().nullish(),
  unitName: z.string().nullish(),
});
const stationsSchema = z.object({
  items: z.array(
    z.object({
      notation: z.string(),
      label: oneOf.nullish(),
      lat: z.number().nullish(),
      long: z.number().nullish(),
      measures: oneOrMany(measureSchema).nullish(),
    }),
  ),
});
const readingSchema = z.object({ measure: z.string(), dateTime: z.string(), value: looseNumber });
const readingsSchema = z.object({ items: oneOrMany(readingSchema) });

/** `.../measures/1029TH-level-stage-i-15_min-mASD` -> the part that a configuration names. */
const notationOf = (address: string): string => address.split('/').at(-1) ?? address;

/** @throws ThawlineError `service` */
export async function englandNearby(
  client: HttpClient,
  base: string,
  at: Around,
  nowMs: number,
): Promise<GaugeNearby[]> {
  const ask = async (path: string): Promise<unknown> =>
    parseJson((await client.get({ url: `${base}/flood-monitoring${path}`, service: NAME })).text, NAME);
  const query = `lat=${at.latDeg}&long=${at.lonDeg}&dist=${at.halfKm}&status=Active`;
  const { items } = check(stationsSchema, await ask(`/id/stations?${query}`), NAME);
  const placed = items.flatMap((station) => {
    const { lat, long, measures } = station;
    if (typeof lat !== 'number' || typeof long !== 'number') return [];
    const distance = distanceKm(at, { latDeg: lat, lonDeg: long });
    return [{ station, measures: measures ?? [], distance }];
  });
  const near = placed.sort((a, b) => a.distance - b.distance).slice(0, MOST_STATIONS);
  const found = await Promise.all(
    near.map(async ({ station, measures, distance }) => {
      const path = `/id/stations/${encodeURIComponent(station.notation)}/readings?latest`;
      const latest = check(readingsSchema, await ask(path), NAME).items;
      return measures.flatMap((measure): GaugeNearby[] => {
        const variable = VARIABLE[measure.parameter];
        // Below a sluice stands other water than the one that is fished.
        if (variable === undefined || measure.qualifier === 'Downstream Stage') return [];
        const reading = latest.find((one) => notationOf(one.measure) === notationOf(measure['@id']));
        const value = finite(reading?.value);
        const readMs = instantMs(reading?.dateTime);
        const datum = measure.unitName === 'mAOD' ? { datum: 'AOD' } : {};
        return [
          {
            service: 'ea',
            station: station.notation,
            name: station.label ?? station.notation,
            variable,
            parameter: notationOf(measure['@id']),
            ...datum,
            distanceKm: distance,
            latest: latestOf(value, measure.unitName ?? '', readMs, nowMs),
          },
        ];
      });
    }),
  );
  return nearestFirst(found.flat());
}
