/** The plan as a calendar, read back by another library than the one that wrote it. */
import ICAL from 'ical.js';
import { describe, expect, it } from 'vitest';
import { inUnits } from '../../src/render/index.ts';
import { planCalendar } from '../../src/web/planCalendar.ts';
import { wordsFor } from '../../src/words/index.ts';
import { morningNamed, mornings } from '../helpers/mornings.ts';

const words = wordsFor('en');
const ADDRESS = 'https://briefing.example.org/briefings/quarry-bend/2026-03-06/morning';

function read(text: string): {
  component: InstanceType<typeof ICAL.Component>;
  events: InstanceType<typeof ICAL.Event>[];
} {
  const component = new ICAL.Component(ICAL.parse(text) as unknown[]);
  return { component, events: component.getAllSubcomponents('vevent').map((one) => new ICAL.Event(one)) };
}
const of = (name: string): string => planCalendar(inUnits(morningNamed(name).document, 'us'), words, ADDRESS);

describe('the plan of the day as iCalendar (RFC 5545)', () => {
  it.each(mornings())(
    'holds every block of $name at its instants, and the hour to be in',
    ({ document, units }) => {
      const text = planCalendar(inUnits(document, units), words, ADDRESS);
      const { events } = read(text);
      const plan = document.plan;
      const wanted =
        document.safety.level === 4
          ? [[document.issuedMs, document.validUntilMs]]
          : [
              ...(plan?.blocks ?? []).map(({ fromMs, toMs }) => [fromMs, toMs]),
              ...(plan?.closed ?? []).map(({ fromMs, toMs }) => [fromMs, toMs]),
              ...(plan?.beInMs == null ? [] : [[plan.beInMs, plan.beInMs + 900_000]]),
            ];
      // A calendar counts in whole seconds.
      const nothing = wanted.length === 0;
      const whole = (ms: number): number => Math.floor(ms / 1000) * 1000;
      // A VCALENDAR holds at least one component (RFC 5545, 3.6).
      expect(events.length).toBeGreaterThan(0);
      if (nothing)
        expect(events.map((one) => [one.summary, one.startDate.isDate, one.startDate.toString()])).toEqual([
          ['No plan today', true, document.date],
        ]);
      else
        expect(
          events.map(({ startDate, endDate }) => [
            startDate.toJSDate().getTime(),
            endDate.toJSDate().getTime(),
          ]),
        ).toEqual(wanted.map((span) => span.map(whole)));
      expect(text).not.toContain('{{');
      // Lines of at most 75 octets, ended by CR and LF (RFC 5545, 3.1).
      for (const line of text.split('\r\n')) expect(Buffer.byteLength(line)).toBeLessThanOrEqual(75);
      expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
      // The last line too (3.4: "END:VCALENDAR" CRLF).
      expect(text.endsWith('\r\nEND:VCALENDAR\r\n')).toBe(true);
    },
  );

  it('names place and lure, and says how to work it', () => {
    const [first] = read(of('warm-rain-pulse')).events;
    const block = morningNamed('warm-rain-pulse').document.plan?.blocks[0];
    expect(first?.summary).toContain(block?.placeWords);
    expect(first?.description.split('\n').length).toBeGreaterThan(3);
  });

  it('keeps its identifiers when the issue is amended, and counts up', () => {
    const { document } = morningNamed('warm-rain-pulse');
    const made = (issuedMs: number) =>
      read(planCalendar(inUnits({ ...document, issuedMs }, 'us'), words, ADDRESS));
    const [before, after] = [made(document.issuedMs), made(document.issuedMs + 3_600_000)];
    expect(after.events.map(({ uid }) => uid)).toEqual(before.events.map(({ uid }) => uid));
    expect(after.events[0]?.sequence).toBeGreaterThan(before.events[0]?.sequence ?? Infinity);
  });

  it('reminds of the hour to be in', () => {
    const { component } = read(of('warm-rain-pulse'));
    const alarms = component
      .getAllSubcomponents('vevent')
      .flatMap((one) => one.getAllSubcomponents('valarm'));
    expect(alarms).toHaveLength(1);
    expect(String(alarms[0]?.getFirstPropertyValue('trigger'))).toBe('-PT45M');
  });

  it('says on a day without a plan that there is none, for the whole local day', () => {
    const { document } = morningNamed('warm-rain-pulse');
    const { events } = read(planCalendar(inUnits({ ...document, plan: null }, 'us'), words, ADDRESS));
    expect(events.map((one) => [one.summary, one.startDate.toString(), one.endDate.toString()])).toEqual([
      [
        'No plan today',
        document.date,
        new Date(Date.parse(document.date) + 86_400_000).toISOString().slice(0, 10),
      ],
    ]);
  });

  it('has no fishing on a day to stay ashore', () => {
    const { events } = read(of('level-4-flood'));
    expect(events.map(({ summary }) => summary)).toEqual(['Stay ashore today']);
  });
});
