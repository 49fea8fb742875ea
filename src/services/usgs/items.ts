import { z } from 'zod';
import { ThawlineError } from '../../units/index.ts';
import { ATTRIBUTIONS } from '../attributions.ts';
import type { HttpClient } from '../http/types.ts';
import { unnoted, type Note } from '../note.ts';
import { check, looseNumber, parseJson } from '../parse.ts';

const NAME = ATTRIBUTIONS.usgs.name;
/** A guard against a service that links its pages in a circle. */
const MAX_PAGES = 200;

const propertiesSchema = z.custom<Record<string, unknown>>(
  (value) => typeof value === 'object' && value !== null && !Array.isArray(value),
);
const linkSchema = z.object({ rel: z.string().optional(), href: z.string().optional() });
const pageSchema = z.object({
  type: z.literal('FeatureCollection'),
  // Each is looked over by itself, so that one that cannot be read costs nothing but itself.
  features: z.array(z.object({ properties: propertiesSchema })),
  numberReturned: z.number().optional(),
  links: z.array(linkSchema).nullish(),
});

/** A measured row. `id` is left out on purpose: it names a version of the row and changes with every revision. */
export const rowSchema = z.object({
  time_series_id: z.string().min(1),
  monitoring_location_id: z.string().min(1),
  parameter_code: z.string().min(1),
  statistic_id: z.string().nullish(),
  time: z.string(),
  value: looseNumber,
  unit_of_measure: z.string().nullish(),
  approval_status: z.string().nullish(),
  // The schema of the service says text, the live service sends a list.
  qualifier: z.union([z.string(), z.array(z.string())]).nullish(),
  last_modified: z.string().nullish(),
});
export type UsgsRow = z.infer<typeof rowSchema>;

export const seriesSchema = z.object({
  id: z.string().min(1),
  monitoring_location_id: z.string(),
  parameter_code: z.string(),
  statistic_id: z.string().nullish(),
  primary: z.string().nullish(),
  end: z.string().nullish(),
  end_utc: z.string().nullish(),
});
export type UsgsSeries = z.infer<typeof seriesSchema>;

interface Page {
  readonly properties: Record<string, unknown>[];
  readonly next: string | null;
}

export function pageOf(body: unknown): Page {
  const page = check(pageSchema, body, NAME);
  if (page.numberReturned !== undefined && page.numberReturned !== page.features.length) {
    throw new ThawlineError(
      'service',
      `${NAME} announced ${page.numberReturned} rows and sent ${page.features.length}; nothing was used.`,
      { retryable: true },
    );
  }
  return {
    properties: page.features.map((f) => f.properties),
    next: page.links?.find((link) => link.rel === 'next')?.href ?? null,
  };
}

/**
 * All pages of a query, parsed. A page that fails raises: rows of some pages are never returned as all of them. A row
 * that cannot be read costs nothing but itself.
 *
 * @param note  told how many rows could not be read
 */
export async function fetchItems<T>(
  client: HttpClient,
  url: string,
  key: string | undefined,
  schema: z.ZodType<T>,
  note: Note = unnoted,
): Promise<T[]> {
  let unread = 0;
  let answered = 0;
  const headers = key === undefined || key === '' ? {} : { 'x-api-key': key };
  const home = new URL(url);
  const seen = new Set<string>();
  const all: T[] = [];
  for (let at: string | null = url; at !== null;) {
    if (seen.has(at) || seen.size >= MAX_PAGES) {
      throw new ThawlineError('service', `${NAME} linked its pages in a circle; nothing was used.`);
    }
    seen.add(at);
    const reply = await client.get({ url: at, service: NAME, headers });
    const body = parseJson(reply.text, NAME);
    const page = pageOf(body);
    for (const properties of page.properties) {
      answered += 1;
      const row = schema.safeParse(properties);
      if (row.success) all.push(row.data);
      else unread += 1;
    }
    at = page.next === null || page.properties.length === 0 ? null : sameHost(page.next, home);
  }
  if (unread > 0 && unread === answered)
    throw new ThawlineError('service', `${NAME} answered in a shape we do not know; nothing of it was used.`);
  if (unread > 0) note(`${NAME}: ${unread} of ${answered} rows could not be read and were not used.`);
  return all;
}

function sameHost(href: string, home: URL): string {
  const next = URL.canParse(href, home.href) ? new URL(href, home) : null;
  if (next?.host !== home.host || next.protocol !== home.protocol) {
    throw new ThawlineError(
      'service',
      `${NAME} linked its next page to another host, which we do not follow.`,
    );
  }
  return next.href;
}
