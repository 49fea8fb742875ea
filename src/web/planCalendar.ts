/** The plan of the day as iCalendar (RFC 5545): its blocks, the closed hours and the hour to be in. */
import { ashoreAllDay } from '../briefing/index.ts';
import ical, {
  ICalAlarmType,
  type ICalCalendar,
  ICalCalendarMethod,
  ICalEventTransparency,
} from 'ical-generator';
import { DAY_MS } from '../units/time/index.ts';
import type { BriefingPage, Words } from '../words/index.ts';

/** How long before the hour to be in a calendar reminds, s (common practice, no source: time to run home). */
const REMIND_S = 45 * 60;
/** The hour to be in is a moment; a calendar wants a stretch, ms. */
const MOMENT_MS = 15 * 60_000;

/**
 * @param page a page in the reader's units, without placeholders
 * @param address where the issue stands on the web
 * @returns the calendar's text; the identifiers stay the same when the issue is amended, so that a calendar that takes
 *   it in again moves its entries instead of doubling them
 */
export function planCalendar(page: BriefingPage, words: Words, address: string): string {
  const w = words.calendar;
  const { lake, plan, safety } = page;
  const calendar = ical({
    name: w.of(lake.name),
    prodId: { company: 'Thawline', product: 'briefing', language: page.language.slice(0, 2).toUpperCase() },
    method: ICalCalendarMethod.PUBLISH,
    url: address,
    ttl: 60 * 60,
  });
  const id = (part: string): string => `${lake.id}.${page.date}.${part}@thawline`;
  // Grows with every amendment, as the standard wants it.
  const sequence = Math.floor(page.issuedMs / 60_000);
  const add = (part: string, fromMs: number, toMs: number, summary: string, lines: readonly string[]) =>
    calendar.createEvent({
      id: id(part),
      sequence,
      stamp: new Date(page.issuedMs),
      start: new Date(fromMs),
      end: new Date(toMs),
      summary,
      description: [...lines, w.defer].filter(Boolean).join('\n'),
      transparency: ICalEventTransparency.TRANSPARENT,
      url: address,
    });
  if (ashoreAllDay(page)) {
    const why = safety.hazards.map(({ headline }) => headline);
    add('ashore', page.issuedMs, page.validUntilMs, w.ashore, why);
    return textOf(calendar);
  }
  plan?.blocks.forEach((block, i) => {
    add(`block-${i + 1}`, block.fromMs, block.toMs, w.block(block.placeWords, block.lure), [
      ...block.because,
      ...block.cast.steps,
      block.giveUp,
    ]);
  });
  plan?.closed.forEach(({ fromMs, toMs, words: why }, i) => {
    add(`closed-${i + 1}`, fromMs, toMs, w.closed(why), []);
  });
  if (plan?.beInMs != null)
    add('be-in', plan.beInMs, plan.beInMs + MOMENT_MS, w.beIn, [plan.beIn]).createAlarm({
      type: ICalAlarmType.display,
      triggerBefore: REMIND_S,
      description: plan.beIn,
    });
  // A calendar without any entry is none (3.6), and a day that says nothing looks like one that was not fetched.
  if (calendar.length() === 0)
    add('no-plan', Date.parse(page.date), Date.parse(page.date) + DAY_MS, w.noPlan, [page.bottomLine]).allDay(
      true,
    );
  return textOf(calendar);
}

/** Every line ends with CR and LF, the last one too (3.1 and 3.4). */
const textOf = (calendar: ICalCalendar): string => `${calendar.toString().trimEnd()}\r\n`;
