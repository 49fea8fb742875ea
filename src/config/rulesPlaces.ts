import { z } from 'zod';
import { GRADES, PHASES, PLACES, SIGNAL_IDS, SPECIES, WATER_BODIES } from '../vocabulary/index.ts';
import { ruleWords } from './ruleText.ts';

const signal = z.enum(SIGNAL_IDS);
const sentence = ruleWords()
  .min(3)
  .refine((text) => text.split(/\s+/).length < 25, 'a rule says itself in fewer than 25 words; shorten it');

/** Piecewise-linear curve: points [signal, share] with rising first numbers; level beyond both ends. */
export const curveSchema = z
  .array(z.tuple([z.number(), z.number()]))
  .min(2)
  .refine(
    (points) =>
      points.every((point, index) => index === 0 || point[0] > (points[index - 1]?.[0] ?? -Infinity)),
    'the first numbers of a curve must rise from point to point',
  )
  .readonly();

const plainCue = z.strictObject({ signal, minus: signal.optional(), curve: curveSchema });
const limit = plainCue.extend({
  ifUnknown: z.number().min(0).max(1).optional(),
  or: z.array(plainCue).optional(),
});

/** When a rule applies, and how fully. */
export const whenSchema = z.strictObject({
  species: z.array(z.enum(SPECIES)).optional(),
  waterBody: z.array(z.enum(WATER_BODIES)).optional(),
  limits: z.array(limit).optional(),
  scales: z.array(limit).optional(),
  cues: z.array(plainCue.extend({ weight: z.number().positive() })).optional(),
  fade: z
    .strictObject({ signal, halfLifeH: z.number().positive(), halfLifeSignal: signal.optional() })
    .optional(),
  cancel: plainCue.optional(),
});

/** Numbers beside the signals that the truth of a sentence may hang on: the hour's sun, degrees. */
export const HOUR_NUMBERS = ['sunAltitudeDeg'] as const;
const numberNames: readonly string[] = [...SIGNAL_IDS, ...HOUR_NUMBERS];

/** A number of the day, `runoffC`, or one minus another, `runoffC - waterC`. */
const measure = z
  .string()
  .refine(
    (text) => text.split(' - ').length <= 2 && text.split(' - ').every((name) => numberNames.includes(name)),
    'expected a signal, or two of them as "one - other"',
  );
const compared = z.tuple([measure, z.enum(['>=', '<=', '>', '<']), z.number()]);

/**
 * One thing that must hold for a sentence to be true today. A number that is unknown or stale makes it false, but for
 * `unknown`, which asks for that.
 */
const truth = z.union([
  compared,
  /** Membership of these season phases together, 0..1. */
  z.strictObject({ phases: z.array(z.enum(PHASES)).min(1), atLeast: z.number().gt(0).max(1) }),
  /** At least one of them holds. */
  z.strictObject({ any: z.array(compared).min(1) }),
  /** At least one of their numbers is known, and none of them holds. */
  z.strictObject({ none: z.array(compared).min(1) }),
  z.strictObject({ unknown: z.enum(SIGNAL_IDS) }),
  /** The water has one of these kinds of place. */
  z.strictObject({ has: z.array(z.enum(PLACES)).min(1) }),
  z.strictObject({ species: z.array(z.enum(SPECIES)).min(1) }),
  z.strictObject({ waterBody: z.array(z.enum(WATER_BODIES)).min(1) }),
]);

/** When a sentence is true: all of these hold. Left out: it is timeless. */
const trueWhen = z.array(truth).min(1).optional();

const phaseShares = z.partialRecord(z.enum(PHASES), z.number().min(0).max(1));
const byPhase = <T extends z.ZodType>(value: T) => z.record(z.enum(PHASES), value);
const rule = z.strictObject({
  id: z.string().min(1),
  sentence,
  trueWhen,
  phases: phaseShares.optional(),
  when: whenSchema,
});

const base = z.strictObject({
  points: z.number(),
  grade: z.enum(GRADES),
  source: z.string().min(1),
  sentence,
  trueWhen,
});

const place = z.strictObject({
  id: z.enum(PLACES),
  name: ruleWords().min(1),
  pattern: z.enum(['back', 'transition', 'main']),
  /** When it is there at all: on other days it is neither ranked nor planned. Left out: always. */
  hereWhen: trueWhen,
  /** When it is gone: as far as is known. Left out: never. */
  goneWhen: trueWhen,
  limitedBy: ruleWords().min(1),
  /** Said for it where none of today's reasons is true of the day. */
  timeless: ruleWords().min(1),
  search: z.strictObject({ step: ruleWords(), minutes: z.number().positive(), moveOn: ruleWords() }),
  depthM: byPhase(z.tuple([z.number().min(0), z.number().positive()])),
  /** It reaches no deeper, m, whatever clear or cold water adds. Left out: as deep as the water. */
  deepestM: z.number().positive().optional(),
  base: byPhase(base),
});

/** Rules of `positions.yaml`. */
export const positionRulesSchema = z.strictObject({
  /** Files of the first version read on: see `rulesBefore.ts`. */
  schema: z.enum(['thawline-positions/1', 'thawline-positions/2']),
  sources: z.record(z.string(), z.string()),
  places: z
    .array(place)
    .min(1)
    .refine(
      (found) => new Set(found.map((entry) => entry.id)).size === found.length,
      'a place is listed twice; each may be listed once, and one that is not listed is not ranked',
    ),
  /** Depth of a kind of water that nobody told, m: no band of depths goes below it. */
  deepestM: z.partialRecord(z.enum(WATER_BODIES), z.number().positive()).default({}),
  clampDefault: z.number().positive(),
  clamps: z.record(z.string(), z.number().positive()),
  modifiers: z.array(
    rule.extend({
      group: z.string().min(1),
      grade: z.enum(GRADES),
      source: z.string().min(1),
      points: z.partialRecord(z.enum(PLACES), z.number()),
      /** What it says of a place that it speaks against, where its sentence does not say that too. */
      against: z.string().optional(),
      /** Places that its sentence names: it is said of no other. Left out: it may be said of each. */
      saidOf: z.array(z.enum(PLACES)).min(1).optional(),
    }),
  ),
  /** Where fish were counted the rules of these groups give way to those learned from them; `keep` of them counts on. */
  counted: z
    .array(
      z.strictObject({
        id: z.string().min(1),
        when: whenSchema,
        places: z.array(z.enum(PLACES)).min(1),
        groups: z.array(z.string().min(1)).min(1),
        keep: z.number().min(0).max(1),
        /** Points for each of the places instead of what gives way, so that they stand among all others as before. */
        level: z.number().default(0),
        contradicted: z.array(z.string().min(1)).default([]),
      }),
    )
    .default([]),
  depthShifts: z.array(rule.extend({ factor: z.number().positive() })),
  periods: z.array(
    rule.extend({
      places: z.array(z.enum(PLACES)),
      period: z.enum(['earlier', 'later']),
      /** Which hours are best: those of the warmest pocket water, of the most wind, or of the sun alone. */
      best: z.enum(['warmPocket', 'wind', 'sun']).default('sun'),
    }),
  ),
  tendencyBand: z.number().positive(),
  tendency: z.array(
    rule.extend({
      points: z.number(),
      /** What it is about, where other things then change the tendency. */
      about: z.enum(['heat']).optional(),
      /** Words for its end where "the end of" does not fit. */
      ends: z.string().optional(),
    }),
  ),
  matters: z.array(
    z.strictObject({
      signal,
      weight: z.number().positive(),
      range: z.tuple([z.number(), z.number()]),
      /** How far it can move within a day, or be off; left out: a third of its range. */
      reach: z.number().positive().optional(),
      /** What a reading cannot tell apart. */
      noise: z.number().min(0).default(0),
      words: ruleWords(),
    }),
  ),
});

const phase = z.strictObject({
  id: z.enum(PHASES),
  name: ruleWords(),
  sentence,
  source: z.string(),
  spawning: z.boolean().optional(),
  water: curveSchema,
  trend: curveSchema,
  pocket: curveSchema.optional(),
  lengthening: curveSchema,
  shortening: curveSchema,
});

/** Rules of `phases.yaml`. */
export const phaseRulesSchema = z.strictObject({
  schema: z.literal('thawline-phases/1'),
  shiftC: z.record(z.enum(SPECIES), z.number()),
  daylightFloor: z.number().min(0).max(1),
  /** Waters whose season the light tells and not the water: this much of a phase stays whatever the water. */
  byDate: z
    .strictObject({ waterBody: z.array(z.enum(WATER_BODIES)).min(1), waterFloor: z.number().min(0).max(1) })
    .optional(),
  phases: z
    .array(phase)
    .refine(
      (found) => PHASES.every((id) => found.filter((entry) => entry.id === id).length === 1),
      'each of the nine phases must be listed once',
    ),
});

export type Curve = z.infer<typeof curveSchema>;
export type Truth = z.infer<typeof truth>;
export type ComparedTruth = z.infer<typeof compared>;
export type WhenRule = z.infer<typeof whenSchema>;
export type PlaceRule = z.infer<typeof place>;
export type PositionRules = z.infer<typeof positionRulesSchema>;
export type PhaseRules = z.infer<typeof phaseRulesSchema>;
