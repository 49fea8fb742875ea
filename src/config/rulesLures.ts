import { z } from 'zod';
import { LURE_FAMILIES, PHASES } from '../vocabulary/index.ts';
import { whenSchema } from './rulesPlaces.ts';

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

/** Kinds of cover, and so which words of cover are true at a place. */
export const COVER_KINDS = [
  'open',
  'rock',
  'wood',
  'brush',
  'dock',
  'stems',
  'grass',
  'pads',
  'mat',
  'current',
] as const;
export type CoverKind = (typeof COVER_KINDS)[number];

/** Families of colour, by the names of the trade. */
export const COLOURS = [
  'natural translucent',
  'shad-like',
  'bluegill-like',
  'green-brown',
  'craw red-brown',
  'dark',
  'white',
  'chartreuse',
  'bone',
] as const;

/** Lures that one class holds two of. */
export const FORMS = ['walker', 'popper', 'blade', 'spoon'] as const;

const byClarity = z.tuple([positive, positive, positive, positive]);
const fifth = z.number().min(0).max(5);

const lureClass = z.strictObject({
  id: z.string().min(1),
  /** How it is worked, and so which geometry applies. */
  family: z.enum(LURE_FAMILIES),
  lip: z.enum(['flat', 'round', 'square', 'narrow', 'none']),
  /** How its hooks stand: free trebles, an open single, behind a guard, in the bait. */
  guard: z.enum(['treble', 'open', 'guarded', 'weedless']),
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
  /** The same in clear water, where a fish sees it from farther, m; left out: as everywhere. */
  drawsFromClearM: z.number().min(0).optional(),
  /** Speed, or for lures that are moved and rested their mean advance, m/s against water temperature. */
  speed: curve,
  /** Pause, dwell or hold, s against water temperature. */
  rest: curve.optional(),
  /** One move of a lure that is moved and rested, m against water temperature. */
  move: curve.optional(),
  pauseStyle: z.enum(['stop', 'drop', 'hang', 'rest', 'float', 'hold']),
  /** Factor on depth against speed, m/s: a buoyant body hardly dives when slow. */
  depthBySpeed: curve.optional(),
  /** Weights it is sold in, g; of a bait that is fished without any weight, what it weighs itself. */
  weightsG: z.array(positive),
  /** Lengths of such baits in the order of their weights, m: the reader is told the length, and that no weight goes on. */
  baitsM: z.array(positive).min(1).optional(),
  /** What it weighs in water and how it drags: mean density, or body volume where that is what sinks it. */
  sink: z
    .union([
      z.strictObject({ densityKgM3: z.number().gt(998), dragCm2: z.number().min(0) }),
      z.strictObject({ bodyCm3: positive, dragCm2: z.number().min(0) }),
    ])
    .optional(),
  /** Fall rate that somebody measured, m/s; then nothing is computed. */
  fallMs: positive.optional(),
  /** How well it stays down when wound: 1 for most, more for bodies that swim with little drag. */
  hold: positive.default(1),
  /** Down to this depth, m: weight in calm, breeze, wind, g. */
  weightByDepth: z.array(z.tuple([positive, positive, positive, positive])).optional(),
  /** Hook in the trade's own sizes: one, or one for each weight up to the number before it, g. */
  hook: z.union([z.string().min(1), z.array(z.tuple([positive, z.string().min(1)])).min(1)]).optional(),
  /** Which of two lures of one class is tied on, by its pause in the day's water or by the depth it is worked at. */
  form: z
    .strictObject({
      by: z.enum(['restS', 'depthM']),
      at: positive,
      below: z.enum(FORMS),
      from: z.enum(FORMS),
    })
    .optional(),
  line: z.strictObject({
    material: z.enum(['fluorocarbon', 'nylon', 'braid']),
    kg: range,
    /** Test of the braid that a leader of the class is tied to. */
    mainBraidKg: positive.optional(),
    /** Test of the braid that takes its place among stems, grass and mats. */
    inStemsBraidKg: positive.optional(),
    /** By cover: clear, mild, stained, muddy water. */
    openKg: byClarity.optional(),
    mediumKg: byClarity.optional(),
    heavyKg: byClarity.optional(),
  }),
  gear: positive,
  castM: range,
  light: z.strictObject({ bright: share, low: share, night: share }),
  /** `most`: in more wind, or in current that pushes as much, it is no lure, m/s; left out: in any. */
  wind: z.strictObject({ calm: share, windy: share, most: positive.optional() }),
  coversWater: share,
  /** Share of its points that count where it is a lure for few bites or wants a rod of its own; left out for the usual ones. */
  everyday: share.optional(),
  vibration: share,
  species: z.strictObject({ largemouth: share, spotted: share, smallmouth: share }),
  /** How it comes through cover: 0 hangs, 5 clean. */
  comesThrough: z.strictObject({ wood: fifth, dock: fifth, rock: fifth, grass: fifth, mat: fifth }),
  /** First colour by clarity and by night; left out where it is no lure for that water. */
  colours: z.strictObject({
    clear: z.enum(COLOURS).optional(),
    mild: z.enum(COLOURS).optional(),
    stained: z.enum(COLOURS).optional(),
    muddy: z.enum(COLOURS).optional(),
    night: z.enum(COLOURS).optional(),
  }),
  places: z.array(z.string()).min(1),
});

const place = z.strictObject({
  bankDeg: z.number().gt(0).lt(90),
  cover: z.enum(['light', 'medium', 'heavy']),
  kind: z.enum(COVER_KINDS),
  pocketShare: share,
  /** The stream of a river or of a release runs over it. */
  inCurrent: z.boolean().default(false),
  /** Bushes: a class that names a braid for stems is tied to it. */
  cutsStems: z.boolean().default(false),
  /** Whether the lake's own steepness replaces the default, or does so only where it is steeper. */
  bankFrom: z.enum(['kind', 'lake', 'steeper']).default('kind'),
});

/** A day that the trade has an answer for: classes that then go first, by their share of the situation's points. */
const situation = z.strictObject({
  id: z.string().min(1),
  phases: z.partialRecord(z.enum(PHASES), share).optional(),
  when: whenSchema,
  /** Only in the dark. */
  atNight: z.boolean().optional(),
  /** Only at these kinds of place; left out: at all. */
  places: z.array(z.string()).optional(),
  classes: z.record(z.string(), share),
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
  boatMarginsM: z.array(z.number().gt(0)).min(1),
  landingShares: z.array(share).min(1),
  ledgeLandingShares: z.array(share).default([]),
  leastContact: share,
  contactAim: share,
  boatMarginM: z.number().min(0),
  clearanceM: z.strictObject({ open: z.number().min(0), guarded: z.number().min(0) }),
  smallestAngleDeg: z.number().min(0).max(45),
  longestCastS: positive.default(300),
  fartherCast: z.number().min(1).default(1),
  darkPace: share.default(1),
  mudM: z.tuple([z.number().min(0), positive]).default([0.3, 0.46]),
  tumblesFromMs: positive.default(0.3),
  shallowWindM: z.number().min(0).default(0),
  holdShare: positive,
  rodTipM: positive,
  speedSpread: share,
  guessSpreadC: positive,
  unknownWaterC: z.strictObject({ use: z.number(), from: z.number(), to: z.number() }),
  frontColderC: z.number().min(0),
  frontSkyPct: z.tuple([z.number(), z.number()]),
  lineRule: z.strictObject({
    mostKg: positive,
    shallowKg: positive,
    heavyKg: positive,
    shallowM: positive,
    veryShallowM: positive,
  }),
  fluorocarbonMm: curve,
  clarityStepsM: z.tuple([positive, positive, positive]),
  defaultReel: z.strictObject({ name: z.string(), gear: positive, spoolM: positive }),
  defaultLinesKg: z.array(positive).min(1),
  pitchM: positive,
  activeWaterC: z.tuple([z.number(), z.number()]),
  frontDropC: positive,
  frontLoss: share,
  windGain: share,
  calmMs: z.number().min(0),
  windyMs: positive,
  windStepsMs: z.tuple([positive, positive]),
  windPerCurrent: positive,
  varietyMargin: share,
});

/** Lure book (`config/rules/lures.yaml`): classes, kinds of place and the numbers that lay a cast. SI units. */
export const lureBookSchema = z
  .strictObject({
    schema: z.literal('thawline-lures/2'),
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
      situation: z.number().min(0),
    }),
    situations: z.array(situation),
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
    book.situations.forEach((entry, index) => {
      for (const name of Object.keys(entry.classes)) {
        if (book.classes.some(({ id }) => id === name)) continue;
        context.addIssue({
          code: 'custom',
          path: ['situations', index, 'classes', name],
          message: `"${name}" is no class of this book; write one of its ids`,
        });
      }
    });
  });

export type LureBook = z.infer<typeof lureBookSchema>;
export type LureClass = LureBook['classes'][number];
export type LureSettings = LureBook['settings'];
export type LurePlace = LureBook['places'][string];
