import { z } from 'zod';
import { LURE_FAMILIES } from '../vocabulary/index.ts';

const share = z.number().min(0).max(1);
const positive = z.number().positive();
const rising = (points: readonly (readonly [number, number])[]): boolean =>
  points.every((point, index) => index === 0 || point[0] > (points[index - 1]?.[0] ?? -Infinity));
const curve = z
  .array(z.tuple([z.number(), z.number()]))
  .min(2)
  .refine(rising, 'the first numbers of the pairs must rise; put the pairs in order');
const range = z
  .tuple([z.number().min(0), z.number().min(0)])
  .refine(([from, to]) => from <= to, 'the first number must not exceed the second; swap them');

const lureClass = z.strictObject({
  id: z.string().min(1),
  /** How it is worked, and so which geometry applies. */
  family: z.enum(LURE_FAMILIES),
  lip: z.enum(['flat', 'round', 'square', 'narrow', 'none']),
  waterC: z
    .strictObject({ min: z.number(), bestFrom: z.number(), bestTo: z.number(), max: z.number() })
    .refine(
      (w) => w.min < w.bestFrom && w.bestFrom < w.bestTo && w.bestTo < w.max,
      'min, bestFrom, bestTo and max must rise in this order',
    ),
  clarityM: range,
  depthM: range,
  /** How far below its path a fish comes up for it, m. */
  drawsFromM: z.number().min(0),
  speedMs: range,
  pauseS: range,
  pauseStyle: z.enum(['stop', 'drop', 'hang', 'rest', 'float', 'hold']),
  fallMs: positive.optional(),
  /** Factor on depth against speed, m/s: a buoyant body hardly dives when slow. */
  depthBySpeed: curve.optional(),
  coversWater: share,
  vibration: share,
  snagResistance: share,
  line: z.strictObject({ material: z.enum(['fluorocarbon', 'nylon']), kg: range }),
  gear: positive,
  light: z.strictObject({ bright: share, low: share }),
  wind: z.strictObject({ calm: share, windy: share }),
  species: z.strictObject({ largemouth: share, spotted: share, smallmouth: share }),
  places: z.array(z.string()).min(1),
});

const place = z.strictObject({
  bankDeg: z.number().gt(0).lt(90),
  cover: z.enum(['light', 'medium', 'heavy']),
  kind: z.enum(['open', 'rock', 'wood', 'grass']),
  pocketShare: share,
  /** Whether the lake's own steepness replaces the default, or does so only where it is steeper. */
  bankFrom: z.enum(['kind', 'lake', 'steeper']).default('kind'),
});

const settings = z.strictObject({
  diameterExponent: z.number().min(-1).max(0.5),
  castExponent: z.number().min(0).max(1.5),
  referenceCastM: positive,
  referenceDiameterMm: positive,
  nylonDepthFactor: curve,
  diveSlope: positive,
  longestDiveM: positive,
  riseLengthPerDepth: positive,
  longestRiseM: positive,
  boatMarginM: z.number().min(0),
  castDepthShare: share,
  smallestAngleDeg: z.number().min(0).max(45),
  speedTable: curve,
  speedSpread: share,
  speedShare: z.strictObject({
    diving: share,
    suspending: share,
    sinking: share,
    bottom: share,
    surface: share,
    vertical: share,
  }),
  guessSpreadC: positive,
  unknownWaterC: z.strictObject({ use: z.number(), from: z.number(), to: z.number() }),
  pauseTable: curve,
  pauseFromC: z.number(),
  pauseToC: z.number(),
  lineRule: z.strictObject({
    mostKg: positive,
    shallowKg: positive,
    heavyKg: positive,
    shallowM: positive,
    veryShallowM: positive,
  }),
  fluorocarbonMm: curve,
  defaultReel: z.strictObject({ name: z.string(), gear: positive, spoolM: positive }),
  defaultLinesKg: z.array(positive).min(1),
  pitchM: positive,
  activeWaterC: z.tuple([z.number(), z.number()]),
  frontDropC: positive,
  frontLoss: share,
  windGain: share,
  calmMs: z.number().min(0),
  windyMs: positive,
  varietyMargin: share,
});

/** Lure book (`config/rules/lures.yaml`): classes, kinds of place and the numbers that lay a cast. SI units. */
export const lureBookSchema = z
  .strictObject({
    schema: z.literal('thawline-lures/1'),
    settings,
    weights: z.strictObject({
      temperature: z.number().min(0),
      place: z.number().min(0),
      clarity: z.number().min(0),
      pace: z.number().min(0),
      light: z.number().min(0),
      wind: z.number().min(0),
      cover: z.number().min(0),
      species: z.number().min(0),
    }),
    places: z.record(z.string(), place),
    classes: z.array(lureClass).min(2),
  })
  .superRefine((book, context) => {
    book.classes.forEach((entry, index) => {
      for (const name of entry.places) {
        if (name in book.places) continue;
        context.addIssue({
          code: 'custom',
          path: ['classes', index, 'places'],
          message: `"${name}" is not described under places; add it there or take it out`,
        });
      }
    });
  });

export type LureBook = z.infer<typeof lureBookSchema>;
export type LureClass = LureBook['classes'][number];
export type LureSettings = LureBook['settings'];
export type LurePlace = LureBook['places'][string];
