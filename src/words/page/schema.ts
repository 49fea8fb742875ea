/**
 * The said page: the facts of a briefing in one language, which is what render lays out. Documents of the first version
 * were archived in this form, with their sentences; they are still read, compared and shown.
 */
import { z } from 'zod';
import { SIGNALS } from '../../signals/types.ts';
import { SI_UNIT, type QuantityKind } from '../../units/index.ts';
import { CLOCKS, LANGUAGES } from '../../vocabulary/index.ts';

const kinds = Object.keys(SI_UNIT) as [QuantityKind, ...QuantityKind[]];
const signalIds = Object.keys(SIGNALS) as [keyof typeof SIGNALS, ...(keyof typeof SIGNALS)[]];

/** A sentence. Quantities inside stay `{{kind:SI value}}` until the reader's units are known. */
const sentence = z.string();
const instant = z.number().int().describe('epoch milliseconds, UTC');
const dateIso = z.string().regex(/^\d{4}-\d{2}-\d{2}$/);

export const quantityKindSchema = z.enum(kinds);
export const levelSchema = z.union([z.literal(1), z.literal(2), z.literal(3), z.literal(4)]);

export const figureSchema = z.object({
  value: z.number().describe('SI'),
  low: z.number().optional().describe('lower end of the 80 % interval, SI'),
  high: z.number().optional(),
  quantity: quantityKindSchema,
  unit: z.string().describe('SI unit of value, low and high'),
  kind: z.enum(['observed', 'forecast', 'estimated']),
  asOfMs: instant,
  ageMinutes: z.number().int().min(0).describe('at the time of issue'),
  freshness: z.enum(['fresh', 'ageing', 'stale']),
  source: z.string(),
});

export const rowSchema = z.object({
  id: z.enum(signalIds),
  label: z.string(),
  /** Printed with its sign: a change or a difference. */
  signed: z.boolean(),
  now: figureSchema.nullable(),
  /** Stale value, shown as "last ..." and used by nothing. */
  last: figureSchema.nullable(),
  change24h: z.object({ value: z.number(), quantity: quantityKindSchema }).nullable(),
  tenDays: z
    .object({
      low: z.number(),
      high: z.number(),
      values: z.array(z.number().nullable()).describe('one a local day, oldest first, today last'),
    })
    .nullable(),
  next48h: z
    .object({
      low: z.number(),
      high: z.number(),
      quantity: quantityKindSchema,
      hours: z.number().describe('how far ahead the source looks: 24 or 48'),
      likelyLow: z.number().optional().describe('lower end of the 80 % interval of these hours, SI'),
      likelyHigh: z.number().optional(),
    })
    .nullable(),
  /** Printed in place of `now`, whose number is then an estimate for the rules alone: a class with its confidence. */
  words: z
    .string()
    .optional()
    .describe('printed in place of now; its number is then the middle of a class, for the rules alone'),
  /** What the figure means, in a sentence. */
  note: sentence.optional(),
});

export const hazardSchema = z.object({
  id: z.string(),
  level: levelSchema,
  levelWords: z.string(),
  headline: sentence,
  what: sentence,
  where: sentence,
  when: sentence,
  doThis: sentence,
  source: z.string(),
  official: z
    .object({
      issuer: z.string(),
      text: z.string(),
      endsMs: instant.nullable(),
      cut: z.boolean().optional().describe('the issuer wrote more than stands in text'),
      url: z.string().optional().describe('where the issuer keeps the whole text'),
    })
    .optional(),
});

export const changeSchema = z.object({
  about: z.string(),
  quantity: quantityKindSchema.nullable(),
  before: z.number().nullable(),
  now: z.number().nullable(),
  sentence,
  moved: sentence,
});

export const positionSchema = z.object({
  place: z.string(),
  name: z.string(),
  named: z.string().optional(),
  rank: z.number().int(),
  choice: z.string(),
  depthM: z.tuple([z.number(), z.number()]),
  period: z.enum(['earlier', 'later', 'all_day']),
  periodWords: z.string(),
  hours: z.tuple([z.number(), z.number()]).optional(),
  because: z.array(sentence).max(2),
  limitedBy: sentence,
  total: z.number(),
  contributions: z.record(z.string(), z.number()).describe('points by signal'),
});

export const castSchema = z.object({
  place: z.string(),
  placeName: z.string(),
  lureClass: z.string(),
  because: sentence,
  runningDepthM: z.number(),
  retrieveMs: z.number(),
  retrieveLowMs: z.number(),
  retrieveHighMs: z.number(),
  turnsPerS: z.number(),
  reel: sentence,
  pauseS: z.number(),
  pauseWords: sentence,
  lineKg: z.number(),
  lineWords: sentence,
  boatDepthM: z.number(),
  castDepthM: z.number(),
  castLengthM: z.number(),
  castAngleDeg: z.number(),
  bankDeg: z.number(),
  contactShare: z.number(),
  contactFromM: z.number().nullable(),
  contactToM: z.number().nullable(),
  steps: z.array(sentence),
  misfit: sentence.optional(),
});

/** A block of the plan, said. */
export const blockSchema = z.object({
  fromMs: instant,
  toMs: instant,
  from: z.string(),
  to: z.string(),
  title: z.string().describe('what the place is called on the strip'),
  place: z.string(),
  placeWords: z.string(),
  depthM: z.tuple([z.number(), z.number()]),
  lure: z.string(),
  because: z.array(sentence),
  giveUp: sentence,
  whyChange: sentence,
  cast: castSchema,
});

/** The plan, said. */
export const planSchema = z.object({
  fishing: z.object({ fromMs: instant, toMs: instant }).nullable(),
  blocks: z.array(blockSchema),
  others: z.array(sentence).describe('other patterns of the day'),
  closed: z.array(
    z.object({ fromMs: instant, toMs: instant, from: z.string(), to: z.string(), words: z.string() }),
  ),
  beIn: sentence,
  beInMs: instant.nullable(),
  none: sentence.describe("why there are no blocks; '' when there are some"),
});

/** The first screen: where, when, with what, what hurts, and when to be off the water. */
export const frontSchema = z.object({
  date: z.string(),
  danger: sentence.describe('word and level'),
  hazards: z.array(sentence).max(2),
  plan: z.array(z.object({ when: z.string(), place: z.string(), what: z.string() })),
  beIn: sentence,
  water: z.array(z.object({ value: z.string(), what: z.string() })),
  sure: sentence,
  changed: sentence,
});

const tendencyWord = z.enum(['improving', 'steady', 'declining']);
const dayPointSchema = z.object({
  date: dateIso,
  airMeanC: z.number().optional(),
  airMinC: z.number().optional(),
  airMaxC: z.number().optional(),
  rainMm: z.number().optional(),
  waterC: z.number().optional(),
  waterLowC: z.number().optional(),
  waterHighC: z.number().optional(),
  levelM: z.number().optional(),
  forecast: z.boolean(),
});
const hourPointSchema = z.object({
  atMs: instant,
  airC: z.number().optional(),
  windMs: z.number().optional(),
  gustMs: z.number().optional(),
  shortwaveWm2: z.number().optional(),
  windDirDeg: z.number().optional(),
  rainMm: z.number().optional(),
  sunAltitudeDeg: z.number(),
  pocketMinusMainC: z.number().optional(),
  generationOn: z.number().optional(),
  generationBy: z.enum(['gauge', 'operator', 'weekday']).optional(),
  forecast: z.boolean(),
});

const pocketHourSchema = z.object({
  atMs: instant,
  surfaceC: z.number(),
  minusMainC: z.number().describe('surface minus the main lake, K'),
});

const metres = z.tuple([z.number(), z.number()]).describe('m east and north of the position of the lake');
const mapSchema = z.object({
  rings: z.array(z.array(metres)),
  places: z.array(
    z.object({
      named: z.string(),
      kind: z.enum(['pocket', 'point', 'ramp']),
      at: metres,
      facesDeg: z.number(),
      waves: z.array(z.object({ atMs: instant, waveM: z.number() })),
      minusMainC: z.number().optional(),
    }),
  ),
});

const pocketSchema = z.object({
  name: z.string(),
  basis: z.enum(['configured', 'class']),
  sentence,
  /** Of the hours of the fishing day that are left. */
  warmest: pocketHourSchema.extend({ lowC: z.number().optional(), highC: z.number().optional() }).optional(),
  coldest: pocketHourSchema.optional(),
  renewedShare: z.number().optional().describe('of its water, by rain and runoff of 72 h, 0 to 1'),
  buoyant: z
    .boolean()
    .nullable()
    .optional()
    .describe('true: the runoff floats; false: it sinks; null: hardly any came'),
  halfLifeH: z
    .number()
    .nullable()
    .optional()
    .describe('hours from its peak in which the effect of the runoff halves; null: it never mattered'),
});

export const pageSchema = z
  .object({
    schema: z.enum(['thawline-page/2', 'thawline-briefing/1']),
    id: z.string().describe('lake, local date and status'),
    language: z.string(),
    status: z.enum(['scheduled', 'amended', 'corrected', 'evening', 'nil']),
    demo: z.boolean(),
    preview: z.boolean(),
    /** Sentences that say that this is a demonstration or a preview; printed in every part. */
    marks: z.array(z.string()),
    lake: z.object({
      id: z.string(),
      name: z.string(),
      arm: z.string().optional(),
      zone: z.string(),
      language: z.enum(LANGUAGES).optional(),
      clock: z.enum(CLOCKS).optional(),
    }),
    date: dateIso,
    issuedMs: instant,
    validUntilMs: instant,
    nextIssueMs: instant,
    notices: z
      .array(z.object({ text: z.string(), from: dateIso, until: dateIso.nullable() }))
      .optional()
      .describe('of the operator, as written, with the local date it was given and the last one it stands'),
    subject: sentence,
    bottomLine: sentence,
    oldest: z.object({ label: z.string(), ageMinutes: z.number().int() }).nullable(),
    safety: z.object({
      level: levelSchema,
      levelWords: z.string(),
      hazards: z.array(hazardSchema),
      notChecked: z.array(sentence),
      deferTo: sentence,
    }),
    front: frontSchema.optional().describe('absent in documents of the first version'),
    plan: planSchema.nullable().optional(),
    whatChanged: z.object({ lead: sentence, items: z.array(changeSchema).max(3) }),
    conditions: z.array(rowSchema),
    /** What the last reading did to the estimate; absent when nobody gave one. */
    readingThanks: sentence.optional(),
    pockets: z.array(pocketSchema),
    /** Waves by place; wind and sun at the lake's own places. */
    lakeWaves: sentence.optional(),
    lakeToday: z.array(sentence).optional(),
    map: mapSchema.optional().describe('only of a lake with an outline'),
    phase: z.object({ leading: z.string(), name: z.string(), because: sentence }).nullable(),
    positions: z.array(positionSchema).max(3),
    close: sentence.nullable(),
    swap: sentence.nullable(),
    searchPlan: z.array(
      z.object({ place: z.string(), step: sentence, minutes: z.number(), moveOn: sentence }),
    ),
    casts: z.array(castSchema).max(2),
    tendency: z
      .object({
        word: tendencyWord,
        because: sentence,
        trigger: sentence,
        days: z.array(
          z.object({ date: dateIso, word: tendencyWord, firstPlace: z.string(), because: sentence }),
        ),
        bestDay: z.object({ date: dateIso, because: sentence }).optional(),
      })
      .nullable(),
    confidence: z.object({ word: z.enum(['high', 'medium', 'low']), because: sentence }),
    gaps: z.array(sentence),
    /** How we have done; absent until there is something honest to say. */
    verification: z.array(sentence).optional(),
    sources: z.array(
      z.object({
        name: z.string(),
        attribution: z.string(),
        url: z.string(),
        licence: z.string(),
        lastMs: instant.nullable(),
      }),
    ),
    limits: z.array(sentence),
    cautions: z.array(sentence),
    series: z.object({
      days: z.array(dayPointSchema),
      hours: z.array(hourPointSchema),
      readings: z.array(z.object({ atMs: instant, waterC: z.number(), where: z.string() })),
      sun: z.object({
        dawnMs: instant.nullable().optional(),
        riseMs: instant.nullable(),
        setMs: instant.nullable(),
        duskMs: instant.nullable().optional(),
      }),
    }),
    /** Units in which the sentences of this copy are written; absent while they still hold placeholders. */
    sentenceUnits: z.enum(['us', 'metric']).optional(),
  })
  .meta({
    title: 'Thawline page',
    description: 'One lake, one morning, said in one language. Numbers are SI.',
  });

export type BriefingPage = z.infer<typeof pageSchema>;
export type Front = z.infer<typeof frontSchema>;
export type PageMap = z.infer<typeof mapSchema>;
export type PagePlan = z.infer<typeof planSchema>;
export type PageBlock = z.infer<typeof blockSchema>;
export type PageFigure = z.infer<typeof figureSchema>;
export type PageRow = z.infer<typeof rowSchema>;
export type PageHazard = z.infer<typeof hazardSchema>;
export type PageChange = z.infer<typeof changeSchema>;
export type PagePosition = z.infer<typeof positionSchema>;
export type PageCast = z.infer<typeof castSchema>;
