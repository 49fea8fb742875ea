/** What stands below the front, in order, laid out by nobody yet: page and text print the same sections. */
import { ashoreAllDay, isKeptIn } from '../briefing/index.ts';
import type { BriefingPage, Messages, PageCast, PageHazard, Words } from '../words/index.ts';
import { capital, clock, dateWords, lowerFirst, zoneWords } from '../words/index.ts';
import type { UnitSystem } from '../units/index.ts';
import { inClock, type ClockStyle } from './clock.ts';
import { clocksForwardMs } from './clockChange.ts';
import { CardSteps } from './cardSteps.ts';
import { mergedRows, type MergedRow } from './conditions.ts';
import { fresh, freshSentences, saidBefore } from './once.ts';
import { windSides } from './windSide.ts';
import { daysAhead, mastheadLines, noticeWords, officialWords, rangeWords, sourceWords } from './present.ts';

export type PictureId = 'day' | 'map' | 'ten-days' | `cast-${number}`;

export type Item =
  | { readonly kind: 'sub' | 'p' | 'small' | 'verbatim'; readonly text: string }
  | { readonly kind: 'label'; readonly label: string; readonly text: string }
  | { readonly kind: 'list'; readonly ordered: boolean; readonly items: readonly string[] }
  | { readonly kind: 'rows'; readonly rows: readonly MergedRow[] }
  | { readonly kind: 'source'; readonly text: string; readonly url: string }
  | { readonly kind: 'picture'; readonly id: PictureId };

export interface Section {
  readonly id:
    | 'notices'
    | 'clock'
    | 'lake'
    | 'cards'
    | 'safety'
    | 'changed'
    | 'conditions'
    | 'reasons'
    | 'ahead'
    | 'sure'
    | 'sources';
  readonly heading: string;
  readonly items: readonly Item[];
}

/** A mail is read at breakfast: at most 700 words. The web page holds the rest. */
export type Detail = 'mail' | 'web';

/** From this level a hazard is told whole, in a mail too. */
const GRAVE = 3;
/** Days ahead told in a mail. */
const MAIL_AHEAD = 2;
/** Scores of past issues told in a mail: the water stands first, the rest is on the web. */
const MAIL_SCORES = 1;

const p = (text: string): Item[] => (text === '' ? [] : [{ kind: 'p', text }]);
const small = (text: string): Item[] => (text === '' ? [] : [{ kind: 'small', text }]);
const list = (items: readonly string[], ordered = false): Item[] =>
  items.length === 0 ? [] : [{ kind: 'list', ordered, items }];

/** Sections of the whole page. From level 3 safety stands first and the fishing part is short. */
export function sectionsOf(
  doc: BriefingPage,
  units: UnitSystem,
  words: Words,
  detail: Detail = 'mail',
): Section[] {
  const grave = doc.safety.level >= 3;
  const strip: Section = {
    id: 'clock',
    heading: words.front.headings.clock,
    items:
      doc.status === 'nil' ? [] : [{ kind: 'picture', id: 'day' }, ...p(clockWords(doc, words).join(' '))],
  };
  const lake = lakeSection(doc, words, detail);
  const told = new Set<string>();
  const cards = cardSection(doc, words, detail, told, new Set(saidOf(lake)));
  const safety = safetySection(doc, words, detail);
  const notices: Section = {
    id: 'notices',
    heading: words.page.notice.heading,
    items: list((doc.notices ?? []).map((notice) => noticeWords(notice, words.page))),
  };
  const all = [
    notices,
    ...(grave ? [safety, strip, lake, cards] : [strip, lake, cards, safety]),
    changedSection(doc, words, detail),
    conditionsSection(doc, units, words, detail),
    reasonsSection(doc, units, words, detail, told),
    aheadSection(doc, words, detail),
    sureSection(doc, words, detail),
    sourcesSection(doc, words, detail),
  ];
  return all.filter(({ items }) => items.length > 0);
}

/** Wind and waves that are told as a danger: how high they are where stands with them. */
const OF_WIND = /wave|wind|gust/;
const wavesAreHazard = ({ safety }: BriefingPage): boolean =>
  safety.hazards.some(({ id }) => OF_WIND.test(id) && id !== 'windChill');

/** Sentences of the lake's own places that a mail has room for. */
const MAIL_LAKE = 3;

/** The lake's own places in wind and sun, and the map where it has an outline. */
function lakeSection(doc: BriefingPage, words: Words, detail: Detail): Section {
  const told = [wavesAreHazard(doc) ? '' : (doc.lakeWaves ?? ''), ...(doc.lakeToday ?? [])].filter(
    (line) => line !== '',
  );
  const { map } = doc;
  return {
    id: 'lake',
    heading: words.lake.heading,
    items:
      doc.status === 'nil'
        ? []
        : [
            ...(map === undefined ? [] : [{ kind: 'picture', id: 'map' } as const]),
            ...p((detail === 'mail' ? told.slice(0, MAIL_LAKE) : told).join(' ')),
          ],
  };
}

/** Whose clock the hours are of, on the day it is set; on which banks the wind stands, with its hours. */
function clockWords(doc: BriefingPage, { front: w }: Words): string[] {
  const { zone } = doc.lake;
  const forwardMs = clocksForwardMs(doc.date, zone);
  const set = forwardMs === 0 ? [] : [forwardMs > 0 ? w.clocksForward : w.clocksBack];
  const sides = windSides(doc).map(({ bank, fromMs, toMs }) =>
    w.windSide(clock(fromMs, zone), clock(toMs, zone), w.sides[bank] ?? '', w.sides[(bank + 4) % 8] ?? ''),
  );
  return [...set, ...sides];
}

/** The casts that have a card, in the order of the day; none for who stays ashore. */
export function cardCasts(doc: BriefingPage): readonly PageCast[] {
  if (isKeptIn(doc)) return [];
  const blocks = doc.plan?.blocks ?? [];
  // Half a plan is none: every block has its card, the more so on a day that closes some of its hours.
  return blocks.length > 0
    ? blocks.map(({ cast }) => cast)
    : doc.casts.slice(0, doc.safety.level >= 3 ? 1 : 2);
}

/** The sentences that a section prints as its own paragraphs. */
const saidOf = ({ items }: Section): string[] =>
  items.flatMap((item) => (item.kind === 'p' ? [item.text] : []));

/**
 * @param told reasons and steps told so far, added to
 * @param ofLake what stands above of the lake as a whole: no step of a cast says it again
 */
function cardSection(
  doc: BriefingPage,
  words: Words,
  detail: Detail,
  told: Set<string>,
  ofLake: ReadonlySet<string>,
): Section {
  const m = words.page;
  const blocks = doc.plan?.blocks ?? [];
  const stepsOf = new CardSteps();
  const items = cardCasts(doc).flatMap((cast, i): Item[] => {
    const block = blocks[i];
    const title =
      block === undefined
        ? m.cast.heading(m.cast.choices[i] ?? '', cast.lureClass)
        : m.cast.heading(`${words.front.span(block.from, block.to)}, ${block.title}`, block.lure);
    const why =
      block === undefined
        ? [cast.because]
        : [block.whyChange, ...block.because]
            .filter(Boolean)
            .slice(0, detail === 'mail' ? (block.whyChange ? 2 : 1) : 3);
    const steps = cast.steps.filter((step) => !saidBefore(step, ofLake));
    const reasons = fresh(why, told);
    const kept = stepsOf.next(steps, m);
    return [
      { kind: 'sub', text: title },
      ...p(reasons.join(' ')),
      ...(doc.safety.level < 3 ? [{ kind: 'picture', id: `cast-${i + 1}` } as const] : []),
      ...(kept.length === 1 ? p(kept.join('')) : list(kept, true)),
      ...p(fresh([cast.misfit ?? '', block?.giveUp ?? ''], told).join(' ')),
    ];
  });
  return {
    id: 'cards',
    heading: m.headings.cast,
    items:
      items.length > 0 && doc.nests !== undefined
        ? [...items, ...p(doc.nests)]
        : items.length > 0 || doc.status === 'nil' || !isKeptIn(doc)
          ? items
          : p(ashoreAllDay(doc) ? m.cast.omitted : m.cast.omittedClosed),
  };
}

function safetySection(doc: BriefingPage, words: Words, detail: Detail): Section {
  const m = words.page;
  const { safety } = doc;
  const told = new Set<string>();
  // What is not known and judged as if it were bad stands with its hazard.
  const unchecked = safety.notChecked.filter((line) => safety.hazards[0]?.what.includes(line) !== true);
  // Who stays ashore needs no care afloat: a mail names the milder hazards, the web tells them.
  const isNamed = ({ level }: PageHazard): boolean => detail === 'mail' && ashoreAllDay(doc) && level < GRAVE;
  const full = safety.hazards.filter((hazard) => !isNamed(hazard));
  const named = safety.hazards.filter(isNamed);
  return {
    id: 'safety',
    heading: m.headings.safety,
    items: [
      ...(safety.hazards.length === 0 && safety.level === 1 ? p(m.hazard.none) : []),
      ...full.flatMap((hazard, i) =>
        hazardItems(hazard, doc.lake.zone, m, told, {
          whole: detail === 'web',
          brief: hazard.level < safety.level || i > 0,
        }),
      ),
      ...p(named.length === 0 ? '' : m.hazard.besides(named.map(({ headline }) => headline))),
      ...p(wavesAreHazard(doc) ? (doc.lakeWaves ?? '') : ''),
      ...small(unchecked.length === 0 ? '' : `${m.hazard.notChecked}: ${unchecked.join(' ')}`),
      ...p(detail === 'mail' ? m.deferToShort : safety.deferTo),
    ],
  };
}

/** A mail tells of a milder hazard what it is and what to do, and of one that another outranks only what to do. */
function hazardItems(
  hazard: PageHazard,
  zone: string,
  m: Words['page'],
  told: Set<string>,
  { whole, brief }: { readonly whole: boolean; readonly brief: boolean },
): Item[] {
  const whatLine = { label: m.hazard.what, text: hazard.what };
  const around = [
    { label: m.hazard.where, text: hazard.where },
    { label: m.hazard.when, text: hazard.when },
  ];
  const all = whole || hazard.level >= GRAVE;
  const shown = [
    ...[...(all || !brief ? [whatLine] : []), ...(all ? around : [])].filter(({ text }) => !told.has(text)),
    // One care may meet several hazards.
    { label: m.hazard.doThis, text: whole ? hazard.doThis : freshSentences(hazard.doThis, told) },
  ]
    .filter(({ text }) => text !== '')
    .map((line): Item => ({ kind: 'label', ...line }));
  // Where and when are said once for all hazards that share them.
  for (const { text } of around) told.add(text);
  return [
    { kind: 'sub', text: hazard.headline },
    ...shown,
    ...(hazard.official === undefined
      ? []
      : ([
          { kind: 'p', text: officialWords(hazard.official, zone, m) },
          { kind: 'verbatim', text: hazard.official.text },
        ] as const)),
    ...(hazard.official?.cut === true ? p(m.hazard.cut(hazard.official.url)) : []),
  ];
}

/** In a mail the first change stands on the front: what it moved is told here, with its name. */
function changedSection({ whatChanged }: BriefingPage, { page: m }: Words, detail: Detail): Section {
  const labels: Readonly<Record<string, string>> = m.rows;
  const lines = whatChanged.items
    .map(({ about, sentence, moved }, i) => {
      if (detail === 'web' || i > 0) return `${sentence} ${moved}`.trim();
      const label = labels[about];
      return moved === '' || label === undefined ? moved : `${label}: ${lowerFirst(moved)}`;
    })
    .filter((line) => line !== '');
  const allOnFront = lines.length === 0 && whatChanged.items.length > 0;
  return {
    id: 'changed',
    heading: m.headings.changed,
    items: allOnFront ? [] : [...p(whatChanged.lead), ...list(lines)],
  };
}

const conditionsSection = (doc: BriefingPage, units: UnitSystem, words: Words, detail: Detail): Section => ({
  id: 'conditions',
  heading: words.page.headings.conditions,
  items: [
    { kind: 'rows', rows: mergedRows(doc, units, words, detail) },
    ...small(doc.readingThanks ?? ''),
    { kind: 'picture', id: 'ten-days' },
  ],
});

function reasonsSection(
  doc: BriefingPage,
  units: UnitSystem,
  words: Words,
  detail: Detail,
  told: Set<string>,
): Section {
  const m = words.page;
  const once = (text: string): string => fresh([text], told).join('');
  // In a mail a place that has its hours and its card above is not told again, with other hours and another depth.
  const planned = new Set(detail === 'mail' ? (doc.plan?.blocks ?? []).map(({ place }) => place) : []);
  const places = doc.positions
    .filter(({ place }) => !planned.has(place))
    .map((place) => {
      const named = place.named === undefined ? '' : ` (${place.named})`;
      const depth = rangeWords(place.depthM[0], place.depthM[1], 'depth', units, m);
      const reason = once(place.because.find((line) => !told.has(line)) ?? '');
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
        : isKeptIn(doc) && detail === 'mail'
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

function aheadSection(doc: BriefingPage, { page: m }: Words, detail: Detail): Section {
  const { tendency } = doc;
  const days = daysAhead(doc, m).slice(0, detail === 'mail' ? MAIL_AHEAD : undefined);
  const bestDay = tendency?.bestDay;
  const why = freshSentences(bestDay?.because ?? '', new Set(days));
  return {
    id: 'ahead',
    heading: m.headings.tendency,
    items:
      tendency === null
        ? p(m.tendency.none)
        : [
            ...p(detail === 'mail' ? '' : `${capital(m.tendency[tendency.word])}. ${tendency.because}`),
            ...list(days),
            ...p(detail === 'mail' ? '' : `${m.tendency.changesIt}: ${lowerFirst(tendency.trigger)}`),
            ...p(bestDay === undefined ? '' : `${m.tendency.best(dateWords(bestDay.date, m))} ${why}`.trim()),
          ],
  };
}

function sureSection(doc: BriefingPage, { page: m }: Words, detail: Detail): Section {
  return {
    id: 'sure',
    heading: m.headings.confidence,
    items: [
      // High confidence stands on the front; what speaks for it is for the web.
      ...p(
        detail === 'mail' && doc.confidence.word === 'high'
          ? ''
          : `${m.confidenceLine(m.confidence[doc.confidence.word])} ${doc.confidence.because}`,
      ),
      ...(doc.gaps.length === 0 ? [] : [...p(`${m.gaps.heading}:`), ...list(doc.gaps)]),
      ...(doc.verification === undefined
        ? []
        : [
            { kind: 'sub', text: m.headings.verification } as const,
            ...list(detail === 'mail' ? doc.verification.slice(0, MAIL_SCORES) : doc.verification),
          ]),
    ],
  };
}

function sourcesSection(doc: BriefingPage, { page: m }: Words, detail: Detail): Section {
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
          ...mastheadLines(doc, zone, m)
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
