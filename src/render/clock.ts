import type { UnitSystem } from '../units/index.ts';
import type { ClockStyle } from '../vocabulary/index.ts';
import type { Messages } from '../words/index.ts';

/** The reader's clock. Sentences and charts write local times as `HH:MM`; a reader of the 12-hour clock gets them so. */
export type { ClockStyle };

/** The clock of who reads in these units: 12 hours beside feet, 24 beside metres, unless the lake has its own. */
export const clockOf = (units: UnitSystem, own?: ClockStyle): ClockStyle =>
  own ?? (units === 'us' ? '12h' : '24h');

const TIME = /\b([01]\d|2[0-4]):([0-5]\d)\b/g;

/** A time of the 12-hour clock without its half of the day. */
const SHORT = /^\d{1,2}(?::\d{2})?/;

interface Shown {
  readonly time: string;
  readonly afternoon: boolean;
}

function shown(hour: string, minute: string): Shown {
  const h = Number(hour) % 24;
  return {
    time: `${h % 12 === 0 ? 12 : h % 12}${minute === '00' ? '' : `:${minute}`}`,
    afternoon: h >= 12,
  };
}

/**
 * `06:10 to 17:00` -> `6:10 am to 5 pm`, and within one half of the day `6:10 to 11 am`; as it is for a reader of the
 * 24-hour clock.
 *
 * @param words the language's word between the ends of a span, and its halves of the day
 */
export function inClock(
  text: string,
  style: ClockStyle,
  { joint, halves }: Pick<Messages, 'joint' | 'halves'>,
): string {
  if (style === '24h') return text;
  const said = text.replace(TIME, (whole: string, hour: string, minute: string, at: number) => {
    const after = text.slice(at + whole.length);
    const rest = after.startsWith(` ${joint} `) ? after.slice(joint.length + 2).replace(SHORT, '') : after;
    // Said on this clock before: "10:30 am" and "10:30 to 11 am" stay.
    if (halves.some((half) => rest.startsWith(` ${half}`))) return whole;
    const { time, afternoon } = shown(hour, minute);
    return `${time} ${halves[afternoon ? 1 : 0]}`;
  });
  const endsIn = (after: string, half: string): boolean => after.replace(SHORT, '').startsWith(` ${half}`);
  return halves.reduce(
    (spans, half) =>
      spans
        .split(` ${half} ${joint} `)
        .reduce((before, after) => `${before}${endsIn(after, half) ? '' : ` ${half}`} ${joint} ${after}`),
    said,
  );
}
