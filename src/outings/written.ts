/** An outing as somebody wrote it: on a form, in a command or in a file. Numbers with their unit, nothing judged yet. */
export interface WrittenOuting {
  /** `YYYY-MM-DD` at the lake. */
  readonly date: string;
  /** Local clock, `06:30`. */
  readonly from: string;
  readonly to: string;
  /** `4.5`; left out where from and to say it. */
  readonly hours: string;
  readonly places: readonly string[];
  readonly lures: readonly string[];
  readonly bites: string;
  readonly fish: string;
  /** `2.4 lb` or `45 cm`. */
  readonly biggest: string;
  /** `9.4 °C`. */
  readonly water: string;
  readonly depth: string;
  readonly clarity: string;
  readonly plan: string;
  readonly note: string;
  readonly shared: boolean;
}

/** An outing of which nothing was said; what is told goes over it. */
export const UNTOLD: WrittenOuting = {
  date: '',
  from: '',
  to: '',
  hours: '',
  places: [],
  lures: [],
  bites: '',
  fish: '',
  biggest: '',
  water: '',
  depth: '',
  clarity: '',
  plan: '',
  note: '',
  shared: false,
};

/** What is wrong with a field, with the numbers that its sentence needs. */
export type OutingFault =
  | {
      readonly code:
        | 'notDate'
        | 'tooOld'
        | 'notTime'
        | 'untilMissing'
        | 'sinceMissing'
        | 'notAfter'
        | 'notYet'
        | 'hoursMissing'
        | 'moreThanDay'
        | 'fishMissing'
        | 'biggestOfNone'
        | 'tooHeavy'
        | 'tooLight'
        | 'notSize'
        | 'notBassLength'
        | 'notTemperature'
        | 'notLength'
        | 'notPlan'
        | 'fewerThanFish'
        | 'depthOfNothing';
    }
  | { readonly code: 'inFuture'; readonly lake: string; readonly today: string }
  | { readonly code: 'hoursOutOfRange'; readonly most: number }
  | { readonly code: 'moreThanSpan'; readonly from: string; readonly to: string }
  | { readonly code: 'countOutOfRange'; readonly most: number }
  | { readonly code: 'tooMany'; readonly perH: number; readonly most: number }
  | { readonly code: 'notLakeWater'; readonly waterC: number; readonly looksLikeF: boolean }
  /** m */
  | { readonly code: 'lengthOutOfRange'; readonly lowM: number; readonly highM: number }
  | { readonly code: 'tooManyPlaces'; readonly most: number }
  | {
      readonly code: 'unknownPlace';
      readonly word: string;
      readonly lake: string;
      readonly near: string | null;
      readonly some: readonly string[];
    }
  | { readonly code: 'tooManyLures'; readonly most: number }
  | {
      readonly code: 'unknownLure';
      readonly word: string;
      readonly near: string | null;
      readonly some: readonly string[];
    }
  | { readonly code: 'noteTooLong'; readonly most: number };

/** What keeps an outing from being taken: which field, what stands there and what is wrong with it. */
export interface OutingProblem {
  readonly field: keyof WrittenOuting;
  readonly found: string;
  readonly fault: OutingFault;
}
