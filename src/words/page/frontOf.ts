/** The first screen from the said parts of the page: at most 110 words, the least needed left out first. */
import { ashoreAllDay, type Briefing } from '../../briefing/index.ts';
import { expandQuantities, quantity } from '../../units/index.ts';
import { addDays } from '../../units/time/index.ts';
import type { Words } from '../languages.ts';
import { hazardHours, levelHours, toldOf, type ClosedSpan } from './closedHours.ts';
import type { BriefingPage, Front, PageRow } from './schema.ts';
import { inert, lowerFirst, unended } from './sentence.ts';
import { clock, dateWords, dateWordsAt, hourWords, momentWords } from './when.ts';
import { capital } from '../letters.ts';

/** Longest first screen, in words of either unit system. */
export const FRONT_WORDS = 110;

type Parts = Omit<BriefingPage, 'front'>;

const wordCount = (text: string): number =>
  expandQuantities(text, 'us')
    // A time of the 12-hour clock is two words.
    .replace(/\b\d{2}:\d{2}\b/g, '12 am')
    .split(/\s+/)
    .filter((word) => /[\p{L}\p{N}]/u.test(word)).length;

/** Every word of a front as one text. */
export const frontText = (lake: string, front: Front): string =>
  [
    lake,
    front.date,
    front.danger,
    ...front.hazards,
    ...front.plan.flatMap(({ when, place, what }) => [when, place, what]),
    front.beIn,
    ...front.water.flatMap(({ value, what }) => [value, what]),
    front.sure,
    front.changed,
  ].join(' ');

export function frontOf(page: Parts, facts: Briefing | null, words: Words): Front {
  const w = words.front;
  const { safety, lake } = page;
  const whole: Front = {
    date:
      page.status === 'evening'
        ? w.eveningBefore(dateWords(page.date, words.page), clock(page.issuedMs, lake.zone))
        : `${dateWords(page.date, words.page)}, ${clock(page.issuedMs, lake.zone)}`,
    danger: w.danger(dangerWord(page, facts, words), safety.level),
    hazards: hazardLines(page, facts, words),
    plan: planLines(page, words),
    beIn: beInLine(page, words),
    water: waterLines(page, facts, words),
    sure: sureLine(page, words),
    changed: changedLine(page, facts, words),
  };
  const shorter: readonly ((front: Front) => Front)[] = [
    (front) => ({ ...front, water: front.water.slice(0, 3) }),
    (front) => ({ ...front, sure: w.sure[page.status === 'nil' ? 'nil' : page.confidence.word] }),
    // What a hazard closes stays.
    (front) => ({
      ...front,
      beIn: page.plan?.blocks.length && page.plan.leftOut === undefined ? page.plan.beIn : front.beIn,
    }),
    (front) => ({ ...front, water: front.water.slice(0, 2) }),
    // A second danger outranks another pattern and a third figure of the water.
    (front) => ({ ...front, hazards: front.hazards.slice(0, 1) }),
    // Four blocks are many words: the lake stays, and what tomorrow brings.
    (front) => ({ ...front, water: front.water.slice(0, 1) }),
    (front) => ({ ...front, changed: changedLine(page, facts, words, false) }),
  ];
  let front = whole;
  for (const cut of shorter) {
    if (wordCount(frontText(inert([lake.name, lake.arm ?? ''].join(' ')), front)) <= FRONT_WORDS) break;
    front = cut(front);
  }
  return front;
}

/** The word of the level; where the worst of it has hours and leaves others, with them. */
function dangerWord(page: Parts, facts: Briefing | null, words: Words): string {
  const { level } = page.safety;
  const blocks = page.plan?.blocks.length ?? 0;
  return levelHours(words.front.dangerWords[level], { level, blocks, closed: closedOf(facts) }, words);
}

const closedOf = (facts: Briefing | null): readonly ClosedSpan[] =>
  facts === null || facts.status === 'nil' ? [] : (facts.plan?.closed ?? []);

/** The two worst hazards in one line each, with their hours where the plan knows them. */
function hazardLines(page: Parts, facts: Briefing | null, words: Words): string[] {
  return page.safety.hazards.slice(0, 2).map(({ id, headline, official }) => {
    const line = official === undefined ? unended(headline) : inert(unended(headline));
    const fact = facts?.safety.hazards.find((one) => one.id === id);
    const hours = hazardHours(closedOf(facts), toldOf(fact ?? { id }), words);
    return `${hours === '' ? line : words.front.hazardHours(line, hours)}.`;
  });
}

function planLines(page: Parts, words: Words): Front['plan'] {
  const w = words.front;
  if (ashoreAllDay(page)) return [];
  if (page.plan != null)
    return page.plan.blocks.map(({ from, to, placeWords, depthM, lure }) => ({
      when: w.span(from, to),
      place: placeWords,
      what: w.what(depthRange(depthM), lure),
    }));
  // No plan by the hour: the first two places with their hours, and the lure of each.
  return page.positions.slice(0, 2).map((place) => {
    const lure = page.casts.find((cast) => cast.place === place.place)?.lureClass;
    const depth = depthRange(place.depthM);
    return {
      when:
        place.hours === undefined
          ? place.periodWords
          : w.span(hourWords(place.hours[0]), hourWords(place.hours[1])),
      place:
        place.named === undefined
          ? capital(place.name)
          : w.placeNamed(inert(place.named), lowerFirst(place.name)),
      what: lure === undefined ? depth : w.what(depth, lure),
    };
  });
}

const depthRange = ([low, high]: readonly [number, number]): string => `{{depth:${low}..${high}}}`;

function beInLine(page: Parts, words: Words): string {
  const w = words.front;
  if (ashoreAllDay(page)) return w.ashore;
  if (page.plan != null)
    return page.plan.blocks.length > 0
      ? [page.plan.beIn, page.plan.leftOut ?? page.plan.others[0]].filter(Boolean).join(' ')
      : page.plan.none;
  if (page.positions.length === 0) return w.noPlan;
  const duskMs = page.series.sun.duskMs ?? page.series.sun.setMs;
  return duskMs === null ? '' : w.beIn(clock(duskMs, page.lake.zone));
}

const row = (page: Parts, id: PageRow['id']): PageRow | undefined =>
  page.conditions.find((one) => one.id === id);

/** A change that prints as none in either unit: 0.05 ft, half a degree Fahrenheit. */
const STEADY_M = 0.015;
const prints = (differenceK: number): boolean => Math.abs(differenceK) >= 0.28;

function waterLines(page: Parts, facts: Briefing | null, words: Words): Front['water'] {
  const w = words.front.water;
  const lines: { value: string; what: string }[] = [];
  const lake = row(page, 'waterC')?.now;
  if (lake != null) {
    const value = quantity('temperature', lake.value);
    const week = weekChange(facts);
    lines.push({ value, what: w.lake(week === null ? '' : quantity('temperatureDifference', week, true)) });
  }
  const level = row(page, 'level24hM')?.now;
  const moves = level != null && Math.abs(level.value) >= STEADY_M;
  // What stands last is what a long day leaves out: never a level that moves.
  if (moves) lines.push({ value: quantity('levelChange', level.value, true), what: w.level });
  const [pocket] = page.pockets;
  // A pocket that is as warm as the lake is no news.
  if (pocket?.warmest !== undefined && page.status !== 'nil' && prints(pocket.warmest.minusMainC))
    lines.push({
      value: quantity('temperatureDifference', pocket.warmest.minusMainC, true),
      what: w.pocket(
        pocket.basis === 'class' ? w.typicalPocket : inert(pocket.name),
        clock(pocket.warmest.atMs, page.lake.zone),
      ),
    });
  if (level != null && !moves) lines.push({ value: '', what: w.steady });
  const clarity = row(page, 'clarityM');
  if (clarity?.now != null)
    lines.push(
      clarity.words === undefined
        ? { value: quantity('clarity', clarity.now.value), what: w.clarity }
        : { value: '', what: w.clarityWords(clarity.words) },
    );
  return lines.length === 0 ? [{ value: '', what: w.unknown }] : lines;
}

/** The lake's change over a week where one is told, K. */
function weekChange(facts: Briefing | null): number | null {
  const notes = facts?.conditions.find(({ id }) => id === 'waterC')?.notes ?? [];
  for (const note of notes) {
    if (note.code !== 'water.change' || !('spans' in note) || !Array.isArray(note.spans)) continue;
    const spans = note.spans as readonly { readonly days: number; readonly changeK: number }[];
    return spans.find(({ days }) => days === 7)?.changeK ?? null;
  }
  return null;
}

function sureLine(page: Parts, words: Words): string {
  const w = words.front.sure;
  if (page.status === 'nil') return w.nil;
  const last = page.series.readings.at(-1);
  const estimated = row(page, 'waterC')?.now?.kind === 'estimated';
  const rest =
    last !== undefined
      ? w.reading(words.page.age(Math.max(0, Math.round((page.issuedMs - last.atMs) / 60_000))))
      : estimated
        ? w.estimated
        : '';
  return `${w[page.confidence.word]} ${rest}`.trim();
}

/** When the issue before was made, where that was not yesterday: then "new" and "nothing new" say so. */
function sinceWords(page: Parts, facts: Briefing | null, { page: m }: Words): string {
  const since = facts?.whatChanged.since;
  if (since == null || dateWordsAt(since.atMs, since.zone, m) === dateWords(addDays(page.date, -1), m))
    return '';
  return momentWords(since.atMs, since.zone, m);
}

function changedLine(page: Parts, facts: Briefing | null, words: Words, ahead = true): string {
  const w = words.front.changed;
  const since = sinceWords(page, facts, words);
  const [first] = page.whatChanged.items;
  // Beside "stay ashore" nothing is said of how the fishing will be.
  const tomorrow = !ahead || ashoreAllDay(page) ? undefined : page.tendency?.days[0]?.word;
  return [
    first !== undefined
      ? w.one(first.sentence, since)
      : page.whatChanged.lead === words.page.changed.first
        ? w.first
        : w.nothing(since),
    tomorrow === undefined ? '' : words.front.tomorrow(words.page.tendency[tomorrow]),
  ]
    .filter(Boolean)
    .join(' ');
}
