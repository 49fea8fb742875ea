/**
 * The said page: the facts of a briefing in one language, which is what render lays out. Documents of the first version
 * were archived in this form, with their sentences; they are still read, compared and shown.
 */
import { z } from 'zod';
import { STEP_KINDS } from '../inWords.ts';
import {
  castNumbers,
  dateIso,
  figureSchema as factFigureSchema,
  hazardCore,
  instant,
  lakeSchema,
  levelSchema,
  mapSchema,
  noticesSchema,
  pocketFiguresSchema,
  quantityKindSchema,
  rowCoreSchema,
  seriesSchema,
  sourceSchema,
  tendencyWord,
} from '../../briefing/index.ts';

/** A sentence. Quantities inside stay `{{kind:SI value}}` until the reader's units are known. */
const sentence = z.string();

const figureSchema = factFigureSchema.extend({ source: z.string() });

const rowSchema = rowCoreSchema.extend({
  label: z.string(),
  now: figureSchema.nullable(),
  last: figureSchema.nullable().describe('stale value, shown as "last ..." and used by nothing'),
  words: z
    .string()
    .optional()
    .describe('printed in place of now; its number is then the middle of a class, for the rules alone'),
  note: sentence.optional().describe('what the figure means'),
  noteBesideFront: sentence.optional().describe('the same without what the front tells'),
});

const hazardSchema = z.object({
  ...hazardCore,
  levelWords: z.string(),
  label: z.string().optional().describe('what the headline begins with: the name of the danger'),
  headline: sentence,
  what: sentence,
  where: sentence,
  when: sentence,
  doThis: sentence,
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
  closedHours: z.literal(true).optional().describe('hazards close its hours: a mail leaves it out'),
  hours: z.tuple([z.number(), z.number()]).optional(),
  because: z.array(sentence).max(2),
  limitedBy: sentence,
  total: z.number(),
  contributions: z.record(z.string(), z.number()).describe('points by signal'),
});

const castSchema = z.object({
  ...castNumbers,
  placeName: z.string(),
  lureClass: z.string(),
  because: sentence,
  reel: sentence,
  pauseWords: sentence,
  lineWords: sentence,
  steps: z.array(sentence),
  stepKinds: z
    .array(z.enum(STEP_KINDS))
    .optional()
    .describe('what each step is about; absent in documents of the first version'),
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
  leftOut: sentence.optional().describe('places that a hazard keeps from coming first'),
  closedDay: z
    .boolean()
    .optional()
    .describe('no hours are left to fish, for hazards or because they are over'),
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

const pocketSchema = pocketFiguresSchema.extend({
  name: z.string(),
  basis: z.enum(['configured', 'class']),
  sentence,
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
    lake: lakeSchema,
    date: dateIso,
    issuedMs: instant,
    validUntilMs: instant,
    nextIssueMs: instant,
    notices: noticesSchema.optional(),
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
    lakeKept: z
      .array(sentence)
      .optional()
      .describe('those of lakeToday that no mail leaves out: hours of release, the layer of the lake'),
    map: mapSchema.optional().describe('only of a lake with an outline'),
    phase: z.object({ leading: z.string(), name: z.string(), because: sentence }).nullable(),
    nests: sentence.optional().describe('care of guarding fish, in the season of the spawn'),
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
    confidence: z.object({
      word: z.enum(['high', 'medium', 'low']),
      because: sentence,
      against: sentence.optional().describe('those clauses of because that lower it'),
    }),
    gaps: z.array(sentence),
    /** How we have done; absent until there is something honest to say. */
    verification: z.array(sentence).optional(),
    sources: z.array(sourceSchema),
    limits: z.array(sentence),
    cautions: z.array(sentence),
    series: seriesSchema,
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
