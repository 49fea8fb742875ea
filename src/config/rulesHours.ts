import { z } from 'zod';
import { curveSchema } from './rulesPlaces.ts';
import { PHASES, PLACES, SIGNAL_IDS } from '../vocabulary/index.ts';

/** What an hour has that a day has not: the sun, the clock, the rain that falls now, a hazard that keeps to sheltered water (1). */
export const HOUR_SIGNALS = [
  ...SIGNAL_IDS,
  'sunAltitudeDeg',
  'localHour',
  'hourRainMm',
  'keptToLee',
] as const;
export type HourSignal = (typeof HOUR_SIGNALS)[number];

/** Reasons that a rule of the hours may give; the numbers come from the hour. */
export const HOUR_REASONS = [
  'lowLight',
  'highSun',
  'cloudCover',
  'windOnIt',
  'sheltered',
  'calm',
  'pocketWarmer',
  'pocketColder',
  'release',
  'slack',
  'rainFalling',
  'sunWarms',
  'dark',
  'frontPassed',
  'heat',
] as const;
export type HourReason = (typeof HOUR_REASONS)[number];

const SEASONS = ['cold', 'spring', 'warm', 'fall'] as const;

const signal = z.enum(HOUR_SIGNALS);
const positive = z.number().positive();
const placesOfSeason = z.record(z.enum(SEASONS), z.array(z.enum(PLACES)));

const limit = z.strictObject({
  signal,
  minus: signal.optional(),
  curve: curveSchema,
  /** Share taken while the number is unknown; left out: the rule is silent then. */
  ifUnknown: z.number().min(0).max(1).optional(),
});

const rule = z.strictObject({
  id: z.string().min(1),
  reason: z.enum(HOUR_REASONS).nullable(),
  phases: z.partialRecord(z.enum(PHASES), z.number().min(0).max(1)).optional(),
  /** The smallest share decides; an unknown signal silences the rule. */
  limits: z.array(limit).min(1),
  points: z.partialRecord(z.enum(PLACES), z.number()),
});

/** Rules of `hours.yaml`: how the hours of a day move places, and how a plan is cut. */
export const hourRulesSchema = z.strictObject({
  schema: z.literal('thawline-hours/1'),
  settings: z.strictObject({
    shortestBlockH: positive,
    shortestCutH: positive,
    mostBlocks: z.number().int().min(1).max(6),
    moveCost: z.number().min(0),
    moveCostPattern: z.number().min(0),
    underWayPerH: z.number().min(0).default(4),
    /** An hour that is fished with the lure of another light gives this much less, points. */
    wrongLurePerH: z.number().min(0).default(1),
    wearFromH: z.number().min(0),
    wearPerH: z.number().min(0),
    inBeforeMin: z.number().min(0),
    inBeforeWeatherMin: z.number().min(0).default(60),
    closesFromLevel: z.number().int().min(2).max(4),
    secondWithin: positive,
    sizeWithin: positive,
  }),
  rules: z.array(rule),
  tells: z.partialRecord(z.enum(HOUR_REASONS), z.array(z.string())),
  /** Reasons that are told of no such place while these phases together are at least so much of the day. */
  untold: z
    .array(
      z.strictObject({
        reason: z.enum(HOUR_REASONS),
        places: z.array(z.enum(PLACES)).min(1),
        phases: z.array(z.enum(PHASES)).min(1),
        atLeast: z.number().gt(0).max(1),
      }),
    )
    .default([]),
  sizes: z.strictObject({
    seasons: z.record(z.enum(PHASES), z.enum(SEASONS)),
    big: placesOfSeason,
    many: placesOfSeason,
  }),
  giveUp: z.strictObject({
    warmthLeastC: positive,
    warmthMinutes: positive,
    windBelowMs: positive,
    /** That the wind may drop is told only where it blows at most this in an hour of the block, m/s. */
    windNearMs: positive,
    windMinutes: positive,
    currentMinutes: positive,
  }),
});

export type HourRules = z.infer<typeof hourRulesSchema>;
