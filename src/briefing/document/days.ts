/** Days and hours behind and ahead: the lake, its pockets, the tendency. */
import { z } from 'zod';
import { dateIso, instant, statementSchema } from './fact.ts';

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

const dayPointSchema = z.object({
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
const hourPointSchema = z.object({
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

export const readingEffectSchema = z.object({
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
