/** The configuration file as written: every field, its range and its default. Parsed values are SI. */
import { isIPv4 } from 'node:net';
import { DateTime, IANAZone } from 'luxon';
import { z } from 'zod';
import { mailAddress } from '../units/index.ts';
import {
  CLOCKS,
  LANGUAGES,
  ALERT_SERVICES,
  BASE_IDS,
  GAUGE_SERVICES,
  GAUGE_VARIABLES,
  MAIN_LAKE,
  misdeclared,
  PLACES,
  RIVER_KINDS,
  SPECIES,
  WATER_BODIES,
  WEATHER_SERVICES,
  type BaseId,
} from '../vocabulary/index.ts';
import { unseenLetter } from './letters.ts';
import { checkGauge, checkWhole, ID } from './consistency.ts';
import { facesSchema, horizonSchema, positionSchema } from './place.ts';
import { quantity } from './quantity.ts';
import { zoneProblem, ZONES } from './zones.ts';

const id = z.string().regex(ID, 'expected small letters, digits and dashes, for example "upper-arm"');
const zone = z
  .string()
  .refine((name) => ZONES.includes(name) && IANAZone.isValidZone(name), {
    error: ({ input }) => zoneProblem(String(input)),
  })
  .meta({ enum: [...ZONES] });
const clock = z
  .string()
  .regex(/^([01]\d|2[0-3]):[0-5]\d$/, 'expected a local time in quotes, for example "05:15"');
const fishingSchema = z.strictObject({ from: clock, to: clock }).refine(({ from, to }) => from < to, {
  path: ['to'],
  error: 'expected a time after `from`; a night that passes midnight is two days',
});
/** Full and half hours only: few plans serve many readers. */
const halfHour = z
  .string()
  .regex(
    /^([01]\d|2[0-3]):[03]0$/,
    'expected a local time at a full or half hour, in quotes, for example "06:30"',
  );
const readerHoursSchema = z
  .strictObject({ from: halfHour, to: halfHour })
  .refine(({ from, to }) => from < to, {
    path: ['to'],
    error: 'expected a time after `from`; a night that passes midnight is two days',
  });
/** Farm ponds of an eighth of an acre hold bass (common practice, no source). */
const SMALLEST_POND_M2 = 500;
/** A day of the year, `06-15`; of a leap year too. */
const monthDay = z
  .string()
  .regex(/^(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])$/, 'expected a month and day in quotes, for example "06-15"')
  .refine((text) => DateTime.fromISO(`2024-${text}`).isValid, 'expected a day that the month has');
const layerSchema = z.strictObject({
  depth: quantity('length', { min: 0.5, max: 200 }),
  from: monthDay.optional(),
  to: monthDay.optional(),
});
const placeId = z.enum(PLACES);
const placesSchema = z.union([
  z.array(placeId).min(1, 'expected at least one place'),
  z.strictObject({ has: z.array(placeId).optional(), hasNot: z.array(placeId).optional() }),
]);
const station = z.string({ error: 'expected text in quotes: an unquoted 012 would be read as 12' }).min(1);
const line = z
  .string()
  .regex(/^[^\r\n]*$/, 'expected one line without line breaks')
  .max(400)
  .superRefine((text, context) => {
    const unseen = unseenLetter(text);
    if (unseen !== null && !/[\r\n]/.test(text))
      context.addIssue({
        code: 'custom',
        message: `it holds ${unseen}, a letter that is not seen or turns the writing round. Write the text anew without it`,
      });
  });
/** Stands in headings, subjects and buttons. */
const name = line
  .min(1)
  .max(80)
  .refine((text) => text.trim() !== '', 'expected a name that can be read, not spaces alone');
const canonical = (text: string): string => mailAddress(text) ?? text;
const address = z
  .string()
  .refine((text) => mailAddress(text) !== null, 'expected a mail address, for example "ann@example.org"');
const sender = line.refine(
  (text) => mailAddress(/<([^<>]*)>\s*$/.exec(text)?.[1] ?? text) !== null,
  'expected one mail address, alone or as "River desk <desk@example.org>"',
);
const environmentName = z
  .string()
  // As a refinement, so that what was written is not repeated: it may be the secret.
  .refine(
    (name) => /^[A-Z][A-Z0-9_]*$/.test(name),
    'expected the NAME of an environment variable in capitals, for example THAWLINE_SMTP_URL, never the secret itself',
  )
  .meta({ pattern: '^[A-Z][A-Z0-9_]*$' });

const gaugeSchema = z
  .strictObject({
    service: z
      .enum(GAUGE_SERVICES)
      .describe('Public service that publishes the series, or csv for a file of your own'),
    station: station.describe('Station id in quotes, e.g. "USGS-01234567"'),
    variable: z.enum(GAUGE_VARIABLES),
    parameter: station
      .optional()
      .describe('Parameter code of the service in quotes, e.g. "00062" for reservoir elevation'),
    timeSeriesId: station.optional(),
    office: station.optional().describe('CWMS office, e.g. "LRN"'),
    datum: line
      .optional()
      .describe('Vertical datum, e.g. NAVD88: levels of different datums are never mixed'),
    where: line.default(MAIN_LAKE),
    standsIn: z
      .enum(['main-lake', 'elsewhere'])
      .optional()
      .describe(
        'Water that a thermometer stands in: only one in the main lake teaches the lake model. Left out: main-lake, unless `where` tells of a pocket, an inflow or a place above the lake',
      ),
    depth: quantity('length', { min: 0, max: 100 }).optional(),
    csv: z
      .strictObject({
        path: z.string().min(1),
        timeColumn: z.string(),
        valueColumn: z.string(),
        unit: z.string(),
        zone,
        timeFormat: z.string().optional(),
      })
      .optional(),
  })
  .superRefine(checkGauge);

const pocketSchema = z.strictObject({
  id,
  name,
  area: quantity('area', { min: 200, max: 5e7 }).optional(),
  meanDepth: quantity('length', { min: 0.2, max: 40 }).optional(),
  watershed: quantity('area', { min: 1e3, max: 5e10 })
    .optional()
    .describe('Land that drains into the pocket'),
  watershedOutline: z
    .string()
    .min(1)
    .optional()
    .describe('That land as GeoJSON (Polygon), relative to this configuration; its area is the watershed'),
  curveNumber: z.number().min(30).max(98).optional().describe('NRCS curve number; see TR-55 table 2-2'),
  landCover: z.enum(['wooded', 'mixed', 'pasture', 'urban']).default('mixed'),
  mouthWidth: quantity('length', { min: 1, max: 3000 }).optional(),
  channelLength: quantity('length', { min: 50, max: 2e5 })
    .optional()
    .describe('Longest flow path of the watershed'),
  slope: z.number().min(0.0005).max(0.5).optional().describe('Mean slope of that path, m per m'),
  bank: quantity('angle', { min: 1, max: 80 }).optional(),
  position: positionSchema.optional(),
  faces: facesSchema.optional(),
  horizon: horizonSchema.optional(),
});

const tackleSchema = z.strictObject({
  castLength: quantity('length', { min: 8, max: 70 }).prefault('75 ft'),
  reels: z
    .array(
      z.strictObject({
        name,
        gear: z.number().min(3).max(12),
        spool: quantity('length', { min: 0.02, max: 0.06 }).prefault('33 mm'),
      }),
    )
    .min(1)
    .prefault([{ name: 'casting reel', gear: 6.4, spool: '33 mm' }]),
  lines: z
    .array(quantity('mass', { min: 1, max: 40 }))
    .min(1)
    .prefault(['5.44 kg', '6.35 kg', '7.71 kg']),
});

const lakeSchema = z
  .strictObject({
    id,
    name,
    arm: name.optional(),
    language: z.enum(LANGUAGES).optional(),
    clock: z.enum(CLOCKS).optional(),
    demo: z
      .boolean()
      .default(false)
      .describe('Marks every part of the briefing as a demonstration of an invented lake'),
    position: positionSchema,
    elevation: quantity('length', { min: -450, max: 5000 }).optional(),
    zone,
    waterBody: z.enum(WATER_BODIES),
    riverKind: z
      .enum(RIVER_KINDS)
      .optional()
      .describe(
        'How the river of a tailwater or run-of-river pool answers to air and flow; left out: regulated below a dam, wide in a pool',
      ),
    meanDepth: quantity('length', { min: 0.5, max: 300 }),
    area: quantity('area', { min: SMALLEST_POND_M2, max: 1e11 }),
    bank: quantity('angle', { min: 1, max: 80 }).prefault('20 deg').describe('Typical shoreline steepness'),
    fetch: quantity('length', { min: 50, max: 3e5 })
      .optional()
      .describe(
        'Longest open water the wind can blow along; with an outline, that of the outline counts instead',
      ),
    normalPool: quantity('length').optional(),
    normalPoolDatum: line
      .optional()
      .describe('Vertical datum of normalPool, e.g. NGVD29; left out: that of the first level gauge'),
    belowDam: z
      .boolean()
      .default(false)
      .describe('True when a dam upstream can release water without notice'),
    species: z.enum(SPECIES).default('mixed'),
    weather: z.array(z.enum(WEATHER_SERVICES)).min(1).default(['open-meteo']),
    alerts: z
      .enum([...ALERT_SERVICES, 'none'])
      .default('none')
      .describe('Who issues official statements here; none means the briefing says they were not checked'),
    floodGauge: station.optional(),
    gauges: z.array(gaugeSchema).default([]),
    pockets: z.array(pocketSchema).default([]),
    points: z
      .array(
        z.strictObject({
          name,
          place: z.enum(PLACES),
          also: z
            .array(z.enum(PLACES))
            .min(1)
            .optional()
            .describe('Other kinds of place that it is at once, e.g. [laydown, grass_edge]'),
          bank: quantity('angle', { min: 1, max: 80 }).optional(),
          position: positionSchema.optional(),
          faces: facesSchema.optional(),
          horizon: horizonSchema.optional(),
        }),
      )
      .default([]),
    ramps: z
      .array(z.strictObject({ name, position: positionSchema.optional(), faces: facesSchema.optional() }))
      .default([])
      .describe('Ramps for boats: the briefing names the most sheltered one'),
    outline: z
      .string()
      .min(1)
      .optional()
      .describe(
        'Shore of the lake as GeoJSON (Polygon or MultiPolygon, islands as holes), relative to this configuration',
      ),
    horizon: horizonSchema.optional(),
    boatSpeed: quantity('speed', { min: 0.5, max: 40 })
      .optional()
      .describe('Speed under way between places; left out: 20 mph'),
    places: placesSchema.optional(),
    fishing: fishingSchema.optional(),
    layer: layerSchema.optional(),
    oxygenDepth: quantity('length', { min: 0.5, max: 200 }).optional(),
    issueAt: clock.default('05:15'),
    graceMinutes: z.number().int().min(5).max(600).default(180),
    eveningOutlook: z.boolean().default(false),
  })
  .superRefine(({ places, waterBody }, ctx) => {
    for (const { place, why, path } of places === undefined ? [] : misdeclared(places, waterBody))
      ctx.addIssue({
        code: 'custom',
        path: ['places', ...path],
        message:
          why === 'never'
            ? `a ${waterBody} never has the place "${place}"; remove it, or correct waterBody`
            : `"${place}" stands under has and under hasNot; remove one of them`,
      });
  })
  .refine(
    ({ riverKind, waterBody }) =>
      riverKind === undefined || waterBody === 'tailwater' || waterBody === 'run-of-river',
    { path: ['riverKind'], error: 'expected only where waterBody is tailwater or run-of-river; remove it' },
  );

const readerSchema = z.strictObject({
  address: address.transform(canonical),
  lakes: z.array(id).min(1),
  units: z.enum(['us', 'metric']).default('us'),
  days: z.array(z.number().int().min(1).max(7)).optional().describe('ISO weekdays, 1 Monday to 7 Sunday'),
  earliestHour: z
    .number()
    .int()
    .min(0)
    .max(12)
    .optional()
    .describe('Local hour at the lake before which nothing is sent, 0 to 12'),
  form: z.enum(['full', 'short']).default('full'),
  amendments: z.boolean().default(true),
  language: z.enum(LANGUAGES).optional(),
  fishing: readerHoursSchema.optional(),
  asksReading: z.boolean().optional(),
  tackle: tackleSchema.optional(),
});

const url = z
  .string()
  .regex(/^https?:\/\/[^\s]+$/, 'expected an address that begins with http:// or https://');

/** Addresses of pages are made by putting a path behind it. */
const pagesUrl = url
  .refine(
    (text) => !/[?#]/.test(text),
    'expected an address without "?" and "#": paths of pages are put behind it',
  )
  .refine(
    (text) => URL.canParse(text),
    'expected an address of the web, for example "https://briefing.example.org"',
  );

/** One optional address a base of the vocabulary. */
const baseShape = Object.fromEntries(BASE_IDS.map((id) => [id, url])) as Record<BaseId, typeof url>;

/** Whether an address with its port, as the pattern takes them, can be one. */
function canListen(text: string): boolean {
  const [, host = text, port = '0'] = /^(.*?)(?::(\d+))?$/.exec(text) ?? [];
  return Number(port) <= 65_535 && (!/^[\d.]+$/.test(host) || isIPv4(host));
}

export const configSchema = z
  .strictObject({
    record: z
      .string()
      // As a refinement, so that what was written is not repeated: it may hold a password.
      .refine(
        (text) => !text.startsWith('postgres') || /^postgres:[A-Z][A-Z0-9_]*$/.test(text),
        'expected a file, or "postgres:" and the NAME of an environment variable in capitals, for example postgres:THAWLINE_POSTGRES_URL, never the address itself',
      )
      .default('data/thawline.sqlite')
      .describe(
        'The one SQLite file, relative to this configuration; or postgres:NAME, where the environment variable NAME holds the address of a PostgreSQL database that many machines share',
      ),
    lakes: z.array(lakeSchema).min(1, 'expected at least one lake'),
    readers: z.array(readerSchema).default([]),
    tackle: tackleSchema.prefault({}),
    mail: z
      .strictObject({
        from: sender.default('Thawline <briefing@localhost>'),
        replyTo: sender.optional(),
        transport: z.enum(['smtp', 'directory', 'stdout']).default('directory'),
        directory: z.string().default('out/mail'),
        smtpUrlEnv: environmentName.default('THAWLINE_SMTP_URL'),
        ratePerSecond: z.number().min(0.1).max(500).default(10),
        connections: z.number().int().min(1).max(20).default(3),
        dkim: z.strictObject({ domain: z.string(), selector: z.string(), keyFile: z.string() }).optional(),
        listId: z
          .string()
          .regex(/^[A-Za-z0-9.-]+$/)
          .default('briefing.localhost'),
        operator: address.optional(),
      })
      .prefault({}),
    web: z
      .strictObject({
        baseUrl: pagesUrl.default('http://127.0.0.1:8080'),
        port: z.number().int().min(0).max(65535).default(8080),
        listen: z
          .string()
          .regex(
            /^(?:none|\[[0-9a-fA-F:.]+\](?::\d{1,5})?|[A-Za-z0-9.-]+(?::\d{1,5})?)$/,
            'expected an address such as "127.0.0.1" or "0.0.0.0:8080", or none',
          )
          .refine(
            canListen,
            'expected four numbers up to 255 and a port up to 65535, such as "0.0.0.0:8080", or none',
          )
          .default('127.0.0.1')
          .describe(
            'Where run and web serve the pages, with web.port unless a port is written here; none: run leaves them to web, which serves at 127.0.0.1',
          ),
        trustProxy: z
          .array(z.string())
          .default(['127.0.0.0/8', '::1'])
          .describe('Addresses and networks of proxies whose X-Forwarded-For is believed'),
        secretEnv: environmentName.default('THAWLINE_SECRET'),
        bouncesEnv: environmentName
          .default('THAWLINE_BOUNCES_SECRET')
          .describe(
            'Holds the bearer secret of POST /bounces; while it is unset no bounce reports are taken',
          ),
      })
      .prefault({}),
    webhooks: z
      .array(
        z.strictObject({
          url: url.describe('Address that gets one POST per issue'),
          secretEnv: environmentName
            .default('THAWLINE_WEBHOOK_SECRET')
            .describe('Holds the secret that the messages are signed with, 24 characters or more'),
          lakes: z.array(id).min(1).optional().describe('Lakes it is told of; all when left out'),
        }),
      )
      .default([])
      .describe('Programs that are told of every issue, signed after the Standard Webhooks specification'),
    services: z
      .strictObject({
        contact: line
          .refine(
            (text) => /[\x21-\x7e]/.test(text),
            'expected a mail or web address in plain letters; without one leave the line out',
          )
          .default('')
          .describe(
            'Mail or web address put in the User-Agent; the US weather service refuses requests without',
          ),
        baseUrls: z.strictObject(baseShape).partial().default({}),
        usgsKeyEnv: environmentName.default('THAWLINE_USGS_KEY'),
        timeoutMs: z.number().int().min(200).max(120_000).default(15_000),
        parallelPerHost: z.number().int().min(1).max(8).default(2),
      })
      .prefault({}),
    thresholds: z
      .record(z.string(), z.number())
      .default({})
      .describe('Changes to the shipped rules by dotted rule id'),
  })
  .superRefine(checkWhole);

export type WrittenConfig = z.output<typeof configSchema>;
