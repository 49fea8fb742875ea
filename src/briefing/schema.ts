/**
 * The briefing as facts: what is archived, compared with the next issue, scored, and said on the page. Ids, SI numbers,
 * instants and codes; names that people gave their places. Every sentence is made above, in `words`.
 */
import { z } from 'zod';
import { SI_UNIT, type QuantityKind } from '../units/index.ts';
import { CLOCKS, LANGUAGES, LURE_FAMILIES, SIGNALS } from '../vocabulary/index.ts';

const kinds = Object.keys(SI_UNIT) as [QuantityKind, ...QuantityKind[]];
const signalIds = Object.keys(SIGNALS) as [keyof typeof SIGNALS, ...(keyof typeof SIGNALS)[]];

export const instant = z.number().int().describe('epoch milliseconds, UTC');
export const dateIso = z.string().regex(/^\d{4}-\d{2}-\d{2}$/);

/** A fact: a code with the numbers, SI, that its sentence needs. Earlier issues kept sentences, under the code `said`. */
export interface Statement {
  readonly code: string;
}
export const statementSchema: z.ZodType<Statement> = z.looseObject({ code: z.string() });

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
  source: z.union([statementSchema, z.string()]).describe('in words in documents of the first version'),
});

const clarityClass = z.enum(['clear', 'stained', 'muddy', 'very-muddy']);

/** What every version of a row has had, and all that a comparison reads. */
export const rowCoreSchema = z.object({
  id: z.enum(signalIds),
  signed: z.boolean().describe('printed with its sign: a change or a difference'),
  now: figureSchema.nullable(),
  last: figureSchema.nullable().describe('stale value, shown as "last ..." and used by nothing'),
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
});

export const rowSchema = rowCoreSchema.extend({
  guess: clarityClass
    .optional()
    .describe('printed in place of now, which is then the middle of the class, for the rules alone'),
  river: z.literal(true).optional().describe('a flow that passes on running water, and no inflow of a lake'),
  notes: z.array(statementSchema).describe('what the figure means'),
});

/** What a hazard is in every version of the document and on the page. */
export const hazardCore = {
  id: z.string(),
  level: levelSchema,
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
};
export const hazardSchema = z.union([
  z.object({
    ...hazardCore,
    told: statementSchema.describe('what it is, with the numbers it was judged by'),
  }),
  z
    .object({
      ...hazardCore,
      headline: statementSchema,
      what: statementSchema,
      where: statementSchema,
      when: statementSchema,
      doThis: statementSchema,
    })
    .describe('as earlier issues kept it: in sentences'),
]);

/** A kind of place and what it is called. */
const placeSchema = z.object({ id: z.string(), name: statementSchema });

/** What a change did to the order of places. */
const movedSchema = z.discriminatedUnion('code', [
  z.object({ code: z.literal('readHazard') }),
  z.object({ code: z.literal('noMove') }),
  z.object({ code: z.literal('movedUp'), place: placeSchema, before: z.number(), now: z.number() }),
  z.object({ code: z.literal('movedDown'), place: placeSchema, before: z.number(), now: z.number() }),
  z.object({ code: z.literal('entered'), place: placeSchema, now: z.number() }),
  z.object({ code: z.literal('strengthened'), place: placeSchema }),
  z.object({ code: z.literal('weakened'), place: placeSchema }),
  z.object({ code: z.literal('because'), reason: statementSchema }),
]);

/** A change since the last issue; `before` and `now` are null where the figure was or is not known. */
export const changeSchema = z.discriminatedUnion('code', [
  z.object({ code: z.literal('level'), before: levelSchema, now: levelSchema, moved: movedSchema }),
  z.object({
    code: z.literal('figure'),
    signal: z.enum(signalIds),
    quantity: quantityKindSchema.nullable(),
    signed: z.boolean(),
    before: z.number().nullable(),
    now: z.number().nullable(),
    guessBefore: clarityClass.optional(),
    guess: clarityClass.optional(),
    moved: movedSchema,
  }),
  z.object({ code: z.literal('order'), before: placeSchema, now: placeSchema, moved: movedSchema }),
]);

const positionCoreSchema = z.object({
  place: z.string(),
  rank: z.number().int(),
  contributions: z.record(z.string(), z.number()).describe('points by signal'),
});

export const positionSchema = positionCoreSchema.extend({
  name: statementSchema,
  named: z.string().optional().describe('name that the lake gives it'),
  depthM: z.tuple([z.number(), z.number()]),
  period: z.enum(['earlier', 'later', 'all_day']),
  bound: z.enum(['rest', 'cool', 'dark', 'hot']).optional(),
  hours: z.tuple([z.number(), z.number()]).optional().describe('local hours of the day'),
  because: z.array(statementSchema).describe('strongest first; several rules may say one sentence'),
  limitedBy: statementSchema.nullable(),
  total: z.number(),
  reasons: z
    .array(
      z.object({
        signal: z.string(),
        value: z.number().nullable().describe('SI'),
        sentence: statementSchema,
      }),
    )
    .describe('what speaks for it, strongest first'),
});

/** The numbers of a cast, SI. */
export const castNumbers = {
  place: z.string(),
  runningDepthM: z.number(),
  retrieveMs: z.number(),
  retrieveLowMs: z.number(),
  retrieveHighMs: z.number(),
  turnsPerS: z.number(),
  pauseS: z.number(),
  lineKg: z.number(),
  boatDepthM: z.number(),
  castDepthM: z.number(),
  castLengthM: z.number(),
  castAngleDeg: z.number(),
  bankDeg: z.number(),
  contactShare: z.number(),
  contactFromM: z.number().nullable(),
  contactToM: z.number().nullable(),
  family: z.enum(LURE_FAMILIES).optional().describe('absent in earlier issues'),
  path: z
    .array(z.object({ alongM: z.number(), depthM: z.number() }))
    .optional()
    .describe(
      'corners of the way of the lure from where it lands to the boat, m towards the boat and m deep; absent in earlier issues',
    ),
};
export const castSchema = z.union([
  z.object({
    ...castNumbers,
    lureClass: statementSchema,
    told: statementSchema.describe('class of lure, tackle, pace and what they rest on'),
  }),
  z
    .object({
      ...castNumbers,
      lureClass: statementSchema,
      because: statementSchema,
      reel: statementSchema,
      pauseWords: statementSchema,
      lineWords: statementSchema,
      steps: z.array(statementSchema),
      misfit: statementSchema.optional(),
    })
    .describe('as earlier issues kept it: in sentences'),
]);

const clockTime = z
  .string()
  .regex(/^\d{2}:\d{2}$/)
  .describe('clock of the lake, 24 h');
const spanSchema = z.object({ fromMs: instant, toMs: instant, from: clockTime, to: clockTime });

/** A stretch of the day at one place; the hour `to` is not part of it. */
export const blockSchema = spanSchema.extend({
  place: z.string(),
  name: statementSchema,
  named: z.string().optional().describe('name that the lake gives it'),
  depthM: z.tuple([z.number(), z.number()]),
  lureClass: statementSchema,
  weightG: z.number().nullable(),
  baitM: z
    .number()
    .optional()
    .describe('length of a bait that is fished without any weight, m; weightG is then its own'),
  because: z.array(statementSchema),
  giveUp: statementSchema,
  wayM: z.number().optional().describe('by water from the block before, m'),
  fogTo: clockTime.optional().describe('it begins in likely fog, which lifts about then'),
  whyChange: statementSchema.nullable().describe('what differs from the block before; null for the first'),
  layer: statementSchema
    .optional()
    .describe('where the layer is estimated to stand, of a block that reaches it'),
  cast: castSchema,
});

const patternSchema = z.union([
  z.object({
    place: z.string(),
    name: statementSchema,
    named: z.string().optional(),
    depthM: z.tuple([z.number(), z.number()]),
    lureClass: statementSchema,
    because: z.array(statementSchema),
  }),
  z.object({ none: statementSchema }),
]);

/** The day on one clock. */
export const planSchema = z.object({
  fishing: spanSchema.nullable(),
  blocks: z.array(blockSchema).max(4).describe('in order of time; empty when nothing is planned'),
  second: patternSchema,
  manyFish: patternSchema,
  bigFish: patternSchema,
  closed: z.array(spanSchema.extend({ hazard: z.string(), level: levelSchema })),
  beInBy: z
    .object({ atMs: instant, at: clockTime, because: statementSchema })
    .nullable()
    .describe('when to be off the water'),
  lightAllNight: z.literal(true).optional().describe('civil dusk does not come'),
  leftOut: statementSchema
    .optional()
    .describe('places that a hazard keeps from coming first; left out where none is'),
  notPlanned: statementSchema.nullable().describe('why there are no blocks; null when there are some'),
});

export const tendencyWord = z.enum(['improving', 'steady', 'declining']);
export const tendencySchema = z.object({
  word: tendencyWord,
  because: statementSchema,
  trigger: statementSchema,
  days: z.array(
    z.object({
      date: dateIso,
      word: tendencyWord,
      firstPlace: z.string(),
      name: statementSchema,
      because: statementSchema,
    }),
  ),
  bestDay: z.object({ date: dateIso, because: statementSchema }).optional(),
});

export const dayPointSchema = z.object({
  date: dateIso,
  airMeanC: z.number().optional(),
  airMinC: z.number().optional(),
  airMaxC: z.number().optional(),
  rainMm: z.number().optional(),
  waterC: z.number().optional(),
  waterLowC: z.number().optional(),
  waterHighC: z.number().optional(),
  waterRawC: z
    .number()
    .optional()
    .describe('as the model had it, before what past outlooks of this lake taught; only where they did'),
  waterRawHalfC: z.number().optional().describe('half-width of its 80 % interval, K'),
  levelM: z.number().optional(),
  forecast: z.boolean(),
});
export const hourPointSchema = z.object({
  atMs: instant,
  airC: z.number().optional(),
  windMs: z.number().optional(),
  gustMs: z.number().optional(),
  windDirDeg: z.number().optional().describe('where it blows from'),
  rainMm: z.number().optional(),
  shortwaveWm2: z.number().optional(),
  sunAltitudeDeg: z.number(),
  pocketMinusMainC: z.number().optional(),
  generationOn: z.number().optional().describe('water runs through the dam, 0 or 1, graded'),
  generationBy: z
    .enum(['gauge', 'operator', 'weekday'])
    .optional()
    .describe('measured, told by the operator, or an estimate from the weekdays before'),
  forecast: z.boolean(),
});

const pocketHourSchema = z.object({
  atMs: instant,
  surfaceC: z.number(),
  minusMainC: z.number().describe('surface minus the main lake, K'),
});

export const pocketFiguresSchema = z.object({
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

const readingEffectSchema = z.object({
  atMs: instant,
  beforeC: z.number().describe('the estimate without the reading, degC'),
  nowC: z.number(),
});

export const pocketSchema = pocketFiguresSchema.extend({
  name: z.string(),
  basis: z.enum(['configured', 'class']),
  sentence: statementSchema,
  reading: readingEffectSchema.optional(),
});

/** A source that could not be read, or what signals and advice miss. */
const gapSchema = z.union([
  z.object({ code: z.literal('notRead'), source: z.string(), atMs: instant, problem: z.string() }),
  statementSchema,
]);

const tallySchema = z.object({ hits: z.number(), of: z.number(), low: z.number(), high: z.number() });
export const scoreSchema = z.object({
  item: z.enum(['water', 'waterAhead', 'level', 'air', 'wind']),
  n: z.number(),
  meanError: z.number(),
  meanAbsError: z.number(),
  heldMeanAbsError: z.number(),
  inside: tallySchema.optional(),
  direction: tallySchema.optional(),
  heldDirection: tallySchema.optional(),
});

/** What past outlooks of the water taught, for a group of days ahead. */
export const lessonSchema = z.object({
  fromDays: z.number().int(),
  toDays: z.number().int(),
  issues: z.number().int().describe('past issues that could be compared'),
  learned: z.boolean().describe('false: too few yet, figures and ranges are as elsewhere'),
  biasC: z.number().describe('taken off what the model says, K'),
  spread: z.number().describe('what the interval is multiplied by'),
});

const outingRateSchema = z.object({
  n: z.number().int().describe('outings'),
  perHour: z.number().describe('fish an hour'),
  low: z.number().describe('lower end of the 80 % interval'),
  high: z.number(),
});
export const outingsSchema = z.object({
  n: z.number().int(),
  readers: z.number().int(),
  followed: outingRateSchema,
  elsewhere: outingRateSchema,
});

export const sourceSchema = z.object({
  name: z.string(),
  attribution: z.string(),
  url: z.string(),
  licence: z.string(),
  lastMs: instant.nullable(),
});

export const seriesSchema = z.object({
  days: z.array(dayPointSchema),
  hours: z.array(hourPointSchema),
  readings: z.array(z.object({ atMs: instant, waterC: z.number(), where: z.string() })),
  sun: z.object({
    dawnMs: instant.nullable().optional(),
    riseMs: instant.nullable(),
    setMs: instant.nullable(),
    duskMs: instant.nullable().optional(),
  }),
});

const metres = z.tuple([z.number(), z.number()]).describe('m east and north of the position of the lake');

/** The lake as it is drawn, with its own places. */
export const mapSchema = z.object({
  rings: z.array(z.array(metres)).describe('shores and islands, the water left of every line'),
  places: z.array(
    z.object({
      named: z.string(),
      kind: z.enum(['pocket', 'point', 'ramp']),
      at: metres,
      facesDeg: z.number().describe('bearing to which it is open'),
      waves: z
        .array(z.object({ atMs: instant, waveM: z.number() }))
        .describe('significant height by hour, m'),
      minusMainC: z.number().optional().describe('pocket at its warmest hour minus the main lake, K'),
    }),
  ),
});

export const lakeSchema = z.object({
  id: z.string(),
  name: z.string(),
  arm: z.string().optional(),
  zone: z.string(),
  language: z.enum(LANGUAGES).optional(),
  clock: z.enum(CLOCKS).optional(),
});

export const noticesSchema = z
  .array(z.object({ text: z.string(), from: dateIso, until: dateIso.nullable() }))
  .describe('of the operator, as written, with the local date it was given and the last one it stands');

const baseSchema = z.object({
  schema: z.literal('thawline-briefing/2'),
  id: z.string().describe('lake, local date and status'),
  demo: z.boolean(),
  preview: z.boolean(),
  lake: lakeSchema,
  date: dateIso,
  issuedMs: instant,
  validUntilMs: instant,
  nextIssueMs: instant,
  rulesWords: z
    .record(z.string(), z.record(z.string(), z.string()))
    .optional()
    .describe("the rules' own words that the facts name, by language and key, as they stood at the issue"),
  notices: noticesSchema.optional(),
  oldest: z.object({ signal: z.enum(signalIds), ageMinutes: z.number().int() }).nullable(),
  safety: z.object({
    level: levelSchema,
    hazards: z.array(hazardSchema),
    notChecked: z.array(statementSchema),
    deferTo: statementSchema.optional().describe('whom the lake names besides the usual'),
  }),
  whatChanged: z.object({
    since: z.object({ atMs: instant, zone: z.string() }).nullable().describe('null: nothing to compare with'),
    items: z.array(changeSchema).max(3),
  }),
  conditions: z.array(rowSchema),
  pockets: z.array(pocketSchema),
  lakeWaves: statementSchema
    .optional()
    .describe('waves by place: how high, where, by when, and who lies calm'),
  lakeToday: z
    .array(statementSchema)
    .optional()
    .describe(
      'hours of release; wind, waves and sun at the places of the lake that say where they are or which way they face',
    ),
  map: mapSchema.optional().describe('only of a lake with an outline'),
  gaps: z.array(gapSchema),
  scores: z.array(scoreSchema).describe('how past issues have done; empty until there is something to say'),
  outlook: z
    .array(lessonSchema)
    .optional()
    .describe('what past outlooks of the water taught; left out where too few could be compared'),
  outings: outingsSchema
    .optional()
    .describe('what readers told of days with the plan and elsewhere; left out where they are too few'),
  sources: z.array(sourceSchema),
  series: seriesSchema,
});

const nilSchema = baseSchema.extend({ status: z.literal('nil') });

const issuedSchema = baseSchema.extend({
  status: z.enum(['scheduled', 'amended', 'corrected', 'evening']),
  reading: readingEffectSchema
    .extend({ where: z.string() })
    .optional()
    .describe('what the last reading did to the estimate of the lake'),
  phase: z.object({ leading: z.string(), because: statementSchema }),
  positions: z.array(positionSchema).max(3),
  close: statementSchema.nullable().describe('set where first and second are close'),
  swap: statementSchema.nullable(),
  searchPlan: z.array(
    z.object({ place: z.string(), step: statementSchema, minutes: z.number(), moveOn: statementSchema }),
  ),
  casts: z.array(castSchema).max(2),
  plan: planSchema.nullable().describe('null where the day was not planned by the hour'),
  tendency: tendencySchema.nullable(),
  confidence: z.object({ word: z.enum(['high', 'medium', 'low']), because: statementSchema }),
});

/** `nil`: nothing was fresh, so nothing is ranked; it has no field that would need it. */
export const briefingSchema = z
  .discriminatedUnion('status', [issuedSchema, nilSchema])
  .meta({ title: 'Thawline briefing', description: 'One lake, one morning. Numbers are SI.' });

export type Briefing = z.infer<typeof briefingSchema>;
export type NilBriefing = z.infer<typeof nilSchema>;
export type IssuedBriefing = z.infer<typeof issuedSchema>;
export type BriefingFigure = z.infer<typeof figureSchema>;
export type ConditionFacts = z.infer<typeof rowSchema>;
export type HazardFacts = z.infer<typeof hazardSchema>;
export type ChangeFact = z.infer<typeof changeSchema>;
export type MovedFact = z.infer<typeof movedSchema>;
export type GapFact = z.infer<typeof gapSchema>;
export type PositionFacts = z.infer<typeof positionSchema>;
export type PlanFacts = z.infer<typeof planSchema>;
export type BlockFacts = z.infer<typeof blockSchema>;
export type CastFacts = z.infer<typeof castSchema>;
export type ScoreFacts = z.infer<typeof scoreSchema>;
export type LessonFacts = z.infer<typeof lessonSchema>;
export type OutingFacts = z.infer<typeof outingsSchema>;
export type BriefingStatus = Briefing['status'];

/** What comparing and scoring read of an issue: every version of the document has it. */
export const comparableSchema = z.object({
  status: z.enum(['scheduled', 'amended', 'corrected', 'evening', 'nil']),
  demo: z.boolean(),
  preview: z.boolean(),
  lake: z.object({ zone: z.string() }),
  date: dateIso,
  issuedMs: instant,
  safety: z.object({ level: levelSchema }),
  conditions: z.array(
    rowCoreSchema.extend({
      guess: clarityClass.optional(),
      words: z.string().optional().describe('first version: set where the clarity was a guess'),
    }),
  ),
  positions: z.array(positionCoreSchema).optional(),
  series: seriesSchema,
});
export type ComparableIssue = z.infer<typeof comparableSchema>;
