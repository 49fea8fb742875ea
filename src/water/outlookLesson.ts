/** What a water's own past outlooks teach: how far off they were, by days ahead, and how widely they scattered. */
import { Z80 } from '../science/index.ts';

/** Days ahead that are learned together, and the lead that their mean stands for. */
const LEAD_GROUPS = [
  { fromDays: 1, toDays: 3, middle: 2 },
  { fromDays: 4, toDays: 7, middle: 5.5 },
  { fromDays: 8, toDays: 10, middle: 9 },
] as const;

/** Issues that are looked back on: longer ago it was another season. */
export const LESSON_ISSUES = 90;
/** Fewer issues with an outcome teach nothing. */
export const LESSON_FROM = 30;
/**
 * Days seen that count as much as what is usual elsewhere; neighbouring days share their weather and tell less than
 * their number (`bench/outlook.ts`: 30 to 120 differ by at most 0.02 degC).
 */
const USUAL_DAYS = 60;
/** The same of the scatter, which takes longer to know than a mean. */
const USUAL_SCATTER_DAYS = 180;
/** No single day says more than this, squared standard deviations. */
const MOST_Z2 = 9;

/** One day as one past issue saw it ahead, before any lesson, and as it was measured. */
export interface OutlookMiss {
  /** Issues are told apart by it; the newest sorts last. */
  readonly issued: string;
  /** Days ahead, 1 or more. */
  readonly leadDays: number;
  /** The day that was looked ahead to. */
  readonly date: string;
  /** Said minus measured, K. */
  readonly missC: number;
  /** Half-width of the 80 % interval it was said with, K. */
  readonly halfC: number;
}

/** What a group of leads has taught. */
export interface LeadLesson {
  readonly fromDays: number;
  readonly toDays: number;
  /** Issues with an outcome. */
  readonly issues: number;
  /** False: still too few; `biasC` is 0 and `spread` 1, as elsewhere. */
  readonly learned: boolean;
  /** Taken off what the model says, K. */
  readonly biasC: number;
  /** What the interval is multiplied by. */
  readonly spread: number;
}

const mean = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0) / values.length;

/**
 * Lessons of the last issues, a group of leads each, drawn towards what is usual elsewhere: no bias, intervals as stated.
 *
 * @param misses any order; figures from before any lesson, else learning would feed on itself
 */
export function outlookLessons(misses: readonly OutlookMiss[]): LeadLesson[] {
  const recent = new Set([...new Set(misses.map(({ issued }) => issued))].sort().slice(-LESSON_ISSUES));
  const counted = misses.filter(({ issued }) => recent.has(issued));
  return LEAD_GROUPS.map(({ fromDays, toDays }) => {
    const own = counted.filter(({ leadDays }) => leadDays >= fromDays && leadDays <= toDays);
    const issues = new Set(own.map(({ issued }) => issued)).size;
    const base = { fromDays, toDays, issues };
    if (issues < LESSON_FROM) return { ...base, learned: false, biasC: 0, spread: 1 };
    // A day seen by three issues is one day of weather.
    const days = new Set(own.map(({ date }) => date)).size;
    const share = days / (days + USUAL_DAYS);
    const biasC = share * mean(own.map(({ missC }) => missC));
    const z2 = mean(
      own.map(({ missC, halfC }) => Math.min(MOST_Z2, ((missC - biasC) / Math.max(0.1, halfC / Z80)) ** 2)),
    );
    const known = days / (days + USUAL_SCATTER_DAYS);
    return { ...base, learned: true, biasC, spread: Math.sqrt(1 + known * (z2 - 1)) };
  });
}

/**
 * The lesson for one lead: between the middles of the groups along a line that starts at nothing on the day itself.
 *
 * @param leadDays 0 or more
 */
export function lessonAt(
  lessons: readonly LeadLesson[],
  leadDays: number,
): Pick<LeadLesson, 'biasC' | 'spread'> {
  let before = { lead: 0, biasC: 0, spread: 1 };
  for (const { middle, fromDays } of LEAD_GROUPS) {
    const lesson = lessons.find((one) => one.fromDays === fromDays);
    const here = { lead: middle, biasC: lesson?.biasC ?? 0, spread: lesson?.spread ?? 1 };
    if (leadDays <= middle) {
      const share = (leadDays - before.lead) / (middle - before.lead);
      return {
        biasC: before.biasC + share * (here.biasC - before.biasC),
        spread: before.spread + share * (here.spread - before.spread),
      };
    }
    before = here;
  }
  return before;
}

interface ForeseenDay {
  readonly waterC: number;
  readonly lowC: number;
  readonly highC: number;
  readonly leadDays: number;
}

/** The day with its lesson applied, and beside it what the model said; a day that is not ahead stays as it is. */
export function withLesson<T extends ForeseenDay>(
  day: T,
  lessons: readonly LeadLesson[],
): T & { readonly raw?: { readonly waterC: number; readonly halfC: number } } {
  if (day.leadDays < 1 || !lessons.some(({ learned }) => learned)) return day;
  const { biasC, spread } = lessonAt(lessons, day.leadDays);
  const halfC = day.highC - day.waterC;
  const waterC = Math.max(0, day.waterC - biasC);
  return {
    ...day,
    waterC,
    lowC: Math.max(0, waterC - spread * halfC),
    highC: waterC + spread * halfC,
    raw: { waterC: day.waterC, halfC },
  };
}
