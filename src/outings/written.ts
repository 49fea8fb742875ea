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

/** What keeps an outing from being taken: which field, what stands there, what is expected and how to mend it. */
export interface OutingProblem {
  readonly field: keyof WrittenOuting;
  readonly found: string;
  readonly says: string;
}
