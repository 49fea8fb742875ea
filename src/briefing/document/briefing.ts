/**
 * The briefing as facts: what is archived, compared with the next issue, scored, and said on the page. Ids, SI numbers,
 * instants and codes; names that people gave their places. Every sentence is made above, in `words`.
 */
import { z } from 'zod';
import { dateIso, instant, levelSchema, rowSchema, signalIds, statementSchema } from './fact.ts';
import { hazardSchema } from './hazard.ts';
import { changeSchema } from './change.ts';
import { castSchema, positionSchema } from './place.ts';
import { planSchema } from './plan.ts';
import { pocketSchema, readingEffectSchema, seriesSchema, tendencySchema } from './days.ts';
import { gapSchema, lessonSchema, outingsSchema, scoreSchema, sourceSchema } from './known.ts';
import { lakeSchema, mapSchema, noticesSchema } from './lake.ts';

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
export type BriefingStatus = Briefing['status'];
