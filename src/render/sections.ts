/** What stands below the front, in order, laid out by nobody yet: page and text print the same sections. */
import { ashoreAllDay, isKeptIn } from '../briefing/index.ts';
import type { BriefingPage, Messages, Words } from '../words/index.ts';
import { capital, clock, dateWords, lowerFirst, zoneWords } from '../words/index.ts';
import type { UnitSystem } from '../units/index.ts';
import { inClock, type ClockStyle } from './clock.ts';
import { clocksForwardMs } from './clockChange.ts';
import { cardSection } from './cardSection.ts';
import { mergedRows } from './conditions.ts';
import { list, p, small, WHOLE, type Extent, type Item, type Section } from './items.ts';
import { fresh, freshSentences } from './once.ts';
import { safetySection, wavesAreHazard } from './safetySection.ts';
import { windSides } from './windSide.ts';
import { daysAhead, mastheadLines, noticeWords, rangeWords, sourceWords } from './present.ts';

/** Days ahead told in a mail. */
const MAIL_AHEAD = 2;
/** Scores of past issues told in a mail: the water stands first, the rest is on the web. */
const MAIL_SCORES = 1;

/** Sections of the whole page. From level 3 safety stands first and the fishing part is short. */
export function sectionsOf(
  doc: BriefingPage,
  units: UnitSystem,
  words: Words,
  extent: Extent = WHOLE,
): Section[] {
  const { detail } = extent;
  const grave = doc.safety.level >= 3;
  const strip: Section = {
    id: 'clock',
    heading: words.front.headings.clock,
    items:
      doc.status === 'nil'
        ? []
        : [{ kind: 'picture', id: 'day' }, ...p(clockWords(doc, words, extent).join(' '))],
  };
  const lake = lakeSection(doc, words, extent);
  const told = new Set<string>();
  const cards = cardSection(doc, words, extent, told, new Set(saidOf(lake)));
  const safety = safetySection(doc, words, detail);
  const notices: Section = {
    id: 'notices',
    heading: words.page.notice.heading,
    items: list((doc.notices ?? []).map((notice) => noticeWords(notice, doc.date, words.page))),
  };
  const all = [
    notices,
    ...(grave ? [safety, strip, lake, cards] : [strip, lake, cards, safety]),
    changedSection(doc, words, extent),
    conditionsSection(doc, units, words, extent),
    reasonsSection(doc, units, words, extent, told),
    aheadSection(doc, words, extent),
    sureSection(doc, words, extent),
    sourcesSection(doc, words, detail),
  ];
  return all.filter(({ items }) => items.length > 0);
}

/** Sentences of the lake's own places that a mail has room for. */
const MAIL_LAKE = 3;

/** The lake's own places in wind and sun, and the map where it has an outline. */
function lakeSection(doc: BriefingPage, words: Words, { detail, without }: Extent): Section {
  const told = [wavesAreHazard(doc) ? '' : (doc.lakeWaves ?? ''), ...(doc.lakeToday ?? [])].filter(
    (line) => line !== '',
  );
  // What is let through a dam is no matter of room.
  const kept = new Set(doc.lakeKept);
  const room = Math.max(0, (without.has('lakeBeyondFirst') ? 1 : MAIL_LAKE) - kept.size);
  const others = told.filter((line) => !kept.has(line));
  const inMail = told.filter((line) => kept.has(line) || others.indexOf(line) < room);
  const { map } = doc;
  return {
    id: 'lake',
    heading: words.lake.heading,
    items:
      doc.status === 'nil'
        ? []
        : [
            ...(map === undefined ? [] : [{ kind: 'picture', id: 'map' } as const]),
            ...p((detail === 'mail' ? inMail : told).join(' ')),
          ],
  };
}

/** Whose clock the hours are of, on the day it is set; on which banks the wind stands, with its hours. */
function clockWords(doc: BriefingPage, { front: w }: Words, { without }: Extent): string[] {
  const { zone } = doc.lake;
  const forwardMs = clocksForwardMs(doc.date, zone);
  const set = forwardMs === 0 ? [] : [forwardMs > 0 ? w.clocksForward : w.clocksBack];
  const sides = (without.has('windSides') ? [] : windSides(doc)).map(({ bank, fromMs, toMs }) =>
    w.windSide(clock(fromMs, zone), clock(toMs, zone), w.sides[bank] ?? '', w.sides[(bank + 4) % 8] ?? ''),
  );
  return [...set, ...sides];
}

/** The sentences that a section prints as its own paragraphs. */
const saidOf = ({ items }: Section): string[] =>
  items.flatMap((item) => (item.kind === 'p' ? [item.text] : []));

/** In a mail the first change stands on the front, or that there is none: what it moved is told here, with its name. */
function changedSection(
  { whatChanged }: BriefingPage,
  { page: m }: Words,
  { detail, without }: Extent,
): Section {
  const labels: Readonly<Record<string, string>> = { ...m.rows, ...m.changed.of };
  const lines = (without.has('changesBeyondSecond') ? whatChanged.items.slice(0, 2) : whatChanged.items)
    .map(({ about, sentence, moved }, i) => {
      if (detail === 'web' || i > 0) return `${sentence} ${moved}`.trim();
      const label = labels[about];
      return moved === '' || label === undefined ? moved : `${label}: ${lowerFirst(moved)}`;
    })
    .filter((line) => line !== '');
  const allOnFront = lines.length === 0 && (detail === 'mail' || whatChanged.items.length > 0);
  return {
    id: 'changed',
    heading: m.headings.changed,
    items: allOnFront || without.has('changes') ? [] : [...p(whatChanged.lead), ...list(lines)],
  };
}

const conditionsSection = (doc: BriefingPage, units: UnitSystem, words: Words, extent: Extent): Section => ({
  id: 'conditions',
  heading: words.page.headings.conditions,
  items: [
    { kind: 'rows', rows: mergedRows(doc, units, words, extent) },
    ...small(extent.without.has('thanks') ? '' : (doc.readingThanks ?? '')),
    { kind: 'picture', id: 'ten-days' },
  ],
});

function reasonsSection(
  doc: BriefingPage,
  units: UnitSystem,
  words: Words,
  { detail, without }: Extent,
  told: Set<string>,
): Section {
  const m = words.page;
  const once = (text: string): string => fresh([text], told).join('');
  // In a mail a place that has its hours and its card above is not told again, with other hours and another depth.
  const planned = new Set(detail === 'mail' ? (doc.plan?.blocks ?? []).map(({ place }) => place) : []);
  const places = doc.positions
    // Nothing is recommended in closed hours.
    .filter(({ place, closedHours }) => !planned.has(place) && !(closedHours === true && detail === 'mail'))
    .map((place) => {
      const named = place.named === undefined ? '' : ` (${place.named})`;
      const depth = rangeWords(place.depthM[0], place.depthM[1], 'depth', units, m);
      const reason = without.has('reasonOfOthers')
        ? ''
        : once(place.because.find((line) => !told.has(line)) ?? '');
      const limit = detail === 'web' ? once(place.limitedBy) : '';
      return [
        `${capital(place.name)}${named}, ${depth}, ${place.periodWords}.`,
        reason,
        limit === '' ? '' : `${m.positions.limitedBy}: ${lowerFirst(limit)}`,
      ]
        .filter(Boolean)
        .join(' ');
    });
  const { leftOut } = doc.plan ?? {};
  const closed = leftOut === undefined || doc.front?.beIn.includes(leftOut) === true ? '' : leftOut;
  const more =
    detail === 'mail'
      ? []
      : [
          ...p(doc.close ?? ''),
          ...p(doc.swap ?? ''),
          ...searchItems(doc, m),
          ...small(doc.phase === null ? '' : `${m.positions.phase(doc.phase.name)} ${doc.phase.because}`),
          ...doc.pockets.flatMap(({ sentence }) => small(sentence)),
        ];
  return {
    id: 'reasons',
    heading: planned.size > 0 ? m.headings.others : m.headings.positions,
    items:
      doc.positions.length === 0
        ? p(m.positions.none)
        : (isKeptIn(doc) && detail === 'mail') || without.has('others')
          ? []
          : [
              ...p(ashoreAllDay(doc) ? m.positions.ashore : isKeptIn(doc) ? m.positions.closedDay : ''),
              ...p(closed),
              ...list(places, detail === 'web'),
              ...more,
            ],
  };
}

/** What to try next where nothing bites. */
function searchItems(doc: BriefingPage, m: Words['page']): Item[] {
  if (doc.searchPlan.length === 0) return [];
  const steps = doc.searchPlan.map(({ step, minutes, moveOn }) =>
    m.positions.planStep(step, m.positions.minutes(minutes), moveOn),
  );
  return [{ kind: 'sub', text: m.positions.plan }, ...list(steps, true)];
}

function aheadSection(doc: BriefingPage, { page: m }: Words, { detail, without }: Extent): Section {
  const { tendency } = doc;
  const days = daysAhead(doc, m, detail === 'web' ? (tendency?.because ?? '') : '').slice(
    0,
    detail === 'web' ? undefined : without.has('secondDayAhead') ? 1 : MAIL_AHEAD,
  );
  const bestDay = tendency?.bestDay;
  const why = freshSentences(bestDay?.because ?? '', new Set(days));
  return {
    id: 'ahead',
    heading: m.headings.tendency,
    items:
      // What tomorrow will be stands on the front.
      without.has('ahead') && tendency !== null
        ? []
        : tendency === null
          ? p(m.tendency.none)
          : [
              ...p(detail === 'mail' ? '' : `${capital(m.tendency[tendency.word])}. ${tendency.because}`),
              ...list(days),
              ...p(detail === 'mail' ? '' : `${m.tendency.changesIt}: ${lowerFirst(tendency.trigger)}`),
              ...p(
                bestDay === undefined ? '' : `${m.tendency.best(dateWords(bestDay.date, m))} ${why}`.trim(),
              ),
            ],
  };
}

function sureSection(doc: BriefingPage, { page: m }: Words, { detail, without }: Extent): Section {
  return {
    id: 'sure',
    heading: m.headings.confidence,
    items: [
      // How sure stands on the front; what speaks for it is for the web.
      ...p(
        detail === 'web'
          ? `${m.confidenceLine(m.confidence[doc.confidence.word])} ${doc.confidence.because}`
          : doc.confidence.word === 'high' || without.has('against')
            ? ''
            : (doc.confidence.against ?? doc.confidence.because),
      ),
      ...(doc.gaps.length === 0 ? [] : [...p(`${m.gaps.heading}:`), ...list(doc.gaps)]),
      ...(doc.verification === undefined || without.has('scores')
        ? []
        : [
            { kind: 'sub', text: m.headings.verification } as const,
            ...list(detail === 'mail' ? doc.verification.slice(0, MAIL_SCORES) : doc.verification),
          ]),
    ],
  };
}

function sourcesSection(doc: BriefingPage, { page: m }: Words, detail: Extent['detail']): Section {
  const zone = zoneWords(doc.issuedMs, doc.lake.zone);
  return {
    id: 'sources',
    heading: m.headings.sources,
    items: [
      ...doc.sources.map((source): Item => ({
        kind: 'source',
        text: sourceWords(source, doc.lake.zone, m, detail === 'web'),
        url: source.url,
      })),
      ...small((detail === 'mail' ? [m.limitsShort] : [...doc.limits, ...doc.cautions]).join(' ')),
      ...small(
        [
          // When it was issued stands on the front.
          ...mastheadLines(doc, zone, m, detail === 'web')
            .slice(detail === 'mail' ? 1 : 0)
            .map(([label, value]) => `${label} ${value}`),
          ...(m.status[doc.status] === '' ? [] : [m.status[doc.status]]),
        ].join(' · '),
      ),
    ],
  };
}

/** The sections with their times on the reader's clock; what others wrote word for word stays as it is. */
export function inClockAll(sections: readonly Section[], clock: ClockStyle, m: Messages): Section[] {
  const write = (text: string): string => inClock(text, clock, m);
  return sections.map((section) => ({
    ...section,
    items: section.items.map((item): Item => {
      switch (item.kind) {
        case 'verbatim':
        case 'picture':
          return item;
        case 'list':
          return { ...item, items: item.items.map(write) };
        case 'rows':
          return {
            ...item,
            rows: item.rows.map((row) => ({ ...row, now: write(row.now), detail: write(row.detail) })),
          };
        default:
          return { ...item, text: write(item.text) };
      }
    }),
  }));
}
