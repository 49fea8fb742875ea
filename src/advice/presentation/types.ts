import type { COLOURS, CoverKind, FORMS } from '../../config/index.ts';

export type Colour = (typeof COLOURS)[number];
export type Form = (typeof FORMS)[number];
export type Guard = 'treble' | 'open' | 'guarded' | 'weedless';
export type Lip = 'flat' | 'round' | 'square' | 'narrow' | 'none';

/** Why one class goes before others today. `points` signed, of the class's score; `above` against the mean class. */
export interface Cue {
  readonly fact: CueFact;
  readonly points: number;
  readonly above: number;
}

/** What a cue is about, with the numbers that its clause needs. */
export type CueFact =
  | { readonly code: 'temperature'; readonly waterC: number; readonly best: boolean }
  | { readonly code: 'place'; readonly listed: boolean }
  | { readonly code: 'cover'; readonly light: boolean }
  | { readonly code: 'clarity'; readonly clarityM: number; readonly measured: boolean }
  | { readonly code: 'pace'; readonly ready: boolean }
  | { readonly code: 'light'; readonly bright: boolean }
  | { readonly code: 'wind'; readonly windy: boolean }
  | { readonly code: 'species'; readonly species: 'largemouth' | 'spotted' | 'smallmouth' }
  /** `wound`: brought along on a moving line, and not let down. Absent in issues of before. */
  | { readonly code: 'situation'; readonly situation: string; readonly wound?: boolean };

/** Why a class cannot be worked at a place. */
export type Problem =
  | { readonly code: 'tooDeep' }
  | { readonly code: 'tooShallow' }
  | { readonly code: 'tooSteep' }
  /** Meant for the bottom, and would touch it for this share of the way, 0..1. */
  | { readonly code: 'littleContact'; readonly share: number };

/** A class the water asks for that this bank refuses. */
export interface Misfit {
  readonly wanted: string;
  readonly problem: Problem;
}

/** What is tied on. Absent where the class does not say. */
export interface Tied {
  /** Of the weight or the lure, g; of a bait without any weight, its own. */
  readonly weightG?: number;
  /** Length of a bait that is fished without any weight, m. */
  readonly baitM?: number;
  readonly hook?: string;
  /** Which of the two lures of its class. */
  readonly form?: Form;
  readonly colour?: Colour;
  readonly line: {
    readonly material: 'fluorocarbon' | 'nylon' | 'braid';
    readonly kg: number;
    /** Test of the leader, when the main line is braid. */
    readonly leaderKg?: number;
    readonly why:
      | 'asHeavyAsItBears'
      | 'veryShallowHeavyCover'
      | 'heavierForCover'
      | 'heavierShallow'
      | 'thinForDepth'
      | 'clearWater'
      | 'stems'
      | 'usual';
  };
}

export interface ReelFact {
  readonly gear: number;
  /** Line taken by one turn of the handle on a full spool, m. */
  readonly takeM: number;
}

/** Temperature the pace was chosen for. `air`: guessed from the week's air; `unknown`: a cautious default. */
export interface PaceWaterFact {
  readonly basis: 'known' | 'air' | 'unknown';
  readonly waterC: number;
}

/** How a cast is laid. */
export interface Laid {
  readonly boatDepthM: number;
  readonly castDepthM: number;
  readonly castLengthM: number;
  readonly castAngleDeg: number;
  readonly bankDeg: number;
}

/** A stretch of the retrieve on the bottom, m from the landing point, and its share of the way. */
export interface BottomStretch {
  readonly share: number;
  readonly fromM: number;
  readonly toM: number;
}

interface Common {
  readonly place: string;
  readonly lureClass: string;
  readonly lip: Lip;
  readonly guard: Guard;
  readonly tied: Tied;
  readonly reel: ReelFact;
  readonly water: PaceWaterFact;
  readonly pace: { readonly speedMs: number; readonly lowMs: number; readonly highMs: number };
  readonly pauseS: number;
  readonly pauseStyle: 'stop' | 'drop' | 'hang' | 'rest' | 'float' | 'hold';
  /** What the cover of the place is made of; null where there is none to mention. */
  readonly coverKind: CoverKind;
  /** The water carries it along: nothing lies still there. Absent in still water, and in issues of before. */
  readonly drifts?: boolean;
  /** It has no beat to be felt in the rod. Absent for the others, and in issues of before. */
  readonly silent?: boolean;
  readonly cues: readonly Cue[];
  /** 0..1 */
  readonly score: number;
  readonly misfit: Misfit | null;
}

/** Counting a sinking lure down, and how it goes on down the slope. */
export interface CountDown {
  /** Fall on a slack line, m/s. */
  readonly fallMs: number;
  /** Never longer than what brings it to its clearance above the bottom where it lands, s. */
  readonly countS: number;
  readonly startDepthM: number;
  /** More fall every 3 m of retrieve while the bottom drops away, s; 0 where it is at its depth already. */
  readonly moreEvery3mS: number;
  /** Metres of retrieve until its depth is reached. */
  readonly untilM: number;
}

/**
 * How one class of lure is worked at one place: facts and SI numbers. Each family has the fields that mean something
 * for it, and no others.
 */
export type Presentation =
  | (Common &
      Laid & {
        readonly family: 'diving';
        readonly runningDepthM: number;
        /** Depth printed on the lure: what to look for in the box. */
        readonly ratedDepthM: number;
        /** Null where it is run clear of the bottom. */
        readonly contact: BottomStretch | null;
      })
  | (Common &
      Laid & { readonly family: 'suspending'; readonly runningDepthM: number; readonly ratedDepthM: number })
  | (Common &
      Laid & { readonly family: 'sinking'; readonly runningDepthM: number; readonly down: CountDown | null })
  | (Common &
      Laid & {
        readonly family: 'bottom';
        readonly runningDepthM: number;
        /** One move, m; null where the book does not say. */
        readonly moveM: number | null;
        /** From the splash to the next cast, s. */
        readonly castS: number;
        readonly fallMs: number | null;
        readonly contact: BottomStretch | null;
        /** Deep end of the fish, m, where one cast does not get there: the next ones land deeper. */
        readonly deeperToM?: number;
      })
  | (Common & Laid & { readonly family: 'surface' })
  | (Common & {
      readonly family: 'vertical';
      readonly boatDepthM: number;
      readonly bankDeg: number;
      readonly runningDepthM: number;
      readonly fallMs: number | null;
      readonly countS: number | null;
    });

export type PresentationOf<F extends Presentation['family']> = Extract<Presentation, { family: F }>;

/** A corner of the way of a lure: m from where it lands towards the boat, and m deep. */
export interface PathPoint {
  readonly alongM: number;
  readonly depthM: number;
}

/** A presentation with the way of its lure. */
export type Presented = Presentation & { readonly path: readonly PathPoint[] };
