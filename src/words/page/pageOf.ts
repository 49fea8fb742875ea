/** Facts to page: everything that a reader is told, in one language. Quantities stay placeholders, numbers SI. */
import { z } from 'zod';
import {
  isKeptIn,
  type Briefing,
  type GapFact,
  type HazardFacts,
  type IssuedBriefing,
  type PositionFacts,
} from '../../briefing/index.ts';
import type { RuleText } from '../../config/index.ts';
import { quantity } from '../../units/index.ts';
import { MAIN_LAKE } from '../../vocabulary/index.ts';
import type { Messages } from '../en/page.ts';
import { wordsFor, type Words } from '../languages.ts';
import { changedPart } from './changed.ts';
import { hazardHours, levelHours, toldOf } from './closedHours.ts';
import { frontOf } from './frontOf.ts';
import { bottomLine, subjectLine } from './headline.ts';
import { saidCast, saidPlan } from './plan.ts';
import { rowLabel, saidRow } from './rows.ts';
import type { BriefingPage, PageHazard, PagePosition } from './schema.ts';
import { toldLine } from './outings.ts';
import { lessonWords, scoreWords } from './scores.ts';
import { inert, sentenceOf } from './sentence.ts';
import { tellerOf, type Teller } from './teller.ts';
import { clock, dateWordsAt, hourWords } from './when.ts';

/** Reasons told of a place, each once: several rules may say one sentence. */
const REASONS = 2;

/** Two temperatures this far apart print as different ones in either unit, K. */
const PRINTS_APART_K = 5 / 9;

/**
 * The document with the rules' own words that its page names, in each language they have. So an issue is read back as
 * it was told, whatever the rules say by then.
 *
 * @param tables the rules' words by language (`RuleBook.texts`)
 */
export function withRulesWords(facts: Briefing, tables: Readonly<Record<string, RuleText>>): Briefing {
  const rulesWords = Object.fromEntries(
    Object.entries(tables).map(([language, table]) => [language, namedBy(facts, language, table)]),
  );
  return { ...facts, rulesWords };
}

/** Those entries of a table that the page asks for. */
function namedBy(facts: Briefing, language: string, table: RuleText): RuleText {
  const asked = new Set<string>();
  const watched = new Proxy(table, {
    get: (target, key) => {
      if (typeof key !== 'string') return undefined;
      asked.add(key);
      return target[key];
    },
  });
  pageOf({ ...facts, rulesWords: { [language]: watched } }, wordsFor(language));
  return Object.fromEntries(
    [...asked].sort().flatMap((key) => (table[key] === undefined ? [] : [[key, table[key]]])),
  );
}

/** The page of a briefing in one language. Pure: the same facts and words give the same page. */
export function pageOf(facts: Briefing, words: Words): BriefingPage {
  const parts = partsOf(facts, words);
  return { ...parts, front: frontOf(parts, facts, words) };
}

function partsOf(facts: Briefing, words: Words): BriefingPage {
  const m = words.page;
  const tell = tellerOf(words, words.ofRules(facts.rulesWords ?? {}));
  const issued = facts.status === 'nil' ? null : facts;
  const { lake, safety, conditions } = facts;
  const plan = issued?.plan == null ? null : saidPlan(issued.plan, safety.hazards, words, tell);
  const hazards = safety.hazards.map((hazard) => saidHazard(hazard, hoursOf(hazard, issued, words), m, tell));
  const keptIn = isKeptIn({ safety, plan });
  const levelWords = levelHours(
    m.levelWords[safety.level],
    { level: safety.level, blocks: plan?.blocks.length ?? 0, closed: issued?.plan?.closed ?? [] },
    words,
  );
  return {
    schema: 'thawline-page/2',
    id: facts.id,
    language: m.language,
    status: facts.status,
    demo: facts.demo,
    preview: facts.preview,
    marks: [...(facts.demo ? [m.marks.demo] : []), ...(facts.preview ? [m.marks.preview] : [])],
    lake,
    date: facts.date,
    issuedMs: facts.issuedMs,
    validUntilMs: facts.validUntilMs,
    nextIssueMs: facts.nextIssueMs,
    ...(facts.notices === undefined ? {} : { notices: facts.notices }),
    subject: subjectLine(facts, levelWords, m, tell),
    bottomLine: bottomLine(facts, m, tell),
    oldest:
      facts.oldest === null
        ? null
        : { label: rowLabel(facts.oldest.signal, m), ageMinutes: facts.oldest.ageMinutes },
    safety: {
      level: safety.level,
      levelWords,
      hazards,
      // What is a danger for not being known is told with the dangers.
      notChecked: safety.notChecked.map(tell).filter((gap) => !hazards.some(({ what }) => what === gap)),
      deferTo: safety.deferTo === undefined ? m.deferTo : tell(safety.deferTo),
    },
    whatChanged: changedPart(facts, m, tell),
    conditions: conditions.map((row) => saidRow(row, m, tell)),
    ...readingThanks(facts, m),
    pockets: facts.pockets.map((pocket) => saidPocket(pocket, lake.zone, m, tell)),
    ...(facts.lakeWaves === undefined ? {} : { lakeWaves: sentenceOf(tell(facts.lakeWaves)) }),
    ...(facts.lakeToday === undefined
      ? {}
      : {
          lakeToday: facts.lakeToday.map((fact) => sentenceOf(tell(fact))),
          lakeKept: facts.lakeToday.filter(isOfWater).map((fact) => sentenceOf(tell(fact))),
        }),
    ...(facts.map === undefined ? {} : { map: facts.map }),
    phase:
      issued === null
        ? null
        : {
            leading: issued.phase.leading,
            name: phaseName(issued.phase.leading, m),
            because: sentenceOf(tell(issued.phase.because)),
          },
    positions: issued?.positions.map((place) => saidPosition(place, keptIn, m, tell)) ?? [],
    close: issued?.close == null ? null : sentenceOf(tell(issued.close)),
    swap: issued?.swap == null ? null : tell(issued.swap),
    plan,
    searchPlan:
      issued?.searchPlan.map(({ step, moveOn, ...rest }) => ({
        ...rest,
        step: sentenceOf(tell(step)),
        moveOn: sentenceOf(tell(moveOn)),
      })) ?? [],
    casts:
      issued?.casts.map((cast) => {
        const place = issued.positions.find((one) => one.place === cast.place);
        return saidCast(cast, place === undefined ? cast.place : tell(place.name), tell);
      }) ?? [],
    tendency: issued?.tendency == null ? null : saidTendency(issued.tendency, tell),
    confidence:
      issued === null ? { word: 'low', because: m.gaps.nil } : saidConfidence(issued.confidence, tell),
    gaps: facts.gaps.filter(isNotOfSafety).map((gap) => gapWords(gap, lake.zone, m, tell)),
    ...evidenceOf(facts, words),
    sources: facts.sources,
    limits: [...m.limits],
    cautions: [...m.cautions, ...(isWarm(facts) ? [] : [m.coldCaution])],
    ...(issued?.phase.leading === 'spawn' ? { nests: m.nestCaution } : {}),
    series: facts.series,
  };
}

/** Wind, waves and sun at places, which a page may leave out where it is long; the rest is of the water itself. */
const OF_PLACES = z.object({ told: z.object({ code: z.enum(['waves', 'windOn', 'ramp', 'setUp', 'sun']) }) });
const isOfWater = (fact: unknown): boolean => !OF_PLACES.safeParse(fact).success;

/** How past issues have done, and what readers told; nothing where there is too little of both. */
function evidenceOf(facts: Briefing, words: Words): Pick<BriefingPage, 'verification'> {
  const told = facts.outings === undefined ? [] : [toldLine(facts.outings, words)];
  const learned = facts.outlook === undefined ? [] : [lessonWords(facts.outlook, words.page)];
  const lines = [...facts.scores.map((score) => scoreWords(score, words.page)), ...learned, ...told];
  return lines.length === 0 ? {} : { verification: lines };
}

/** From here water takes nobody's breath, degC (70 degF); water that is not known is not warm. */
const WARM_WATER_C = 21.11;

function isWarm({ conditions }: Briefing): boolean {
  const now = conditions.find(({ id }) => id === 'waterC')?.now;
  return now != null && (now.low ?? now.value) > WARM_WATER_C;
}

/** The hours that a hazard's block closes, `09:00 to 18:30`; '' where it closes none. */
const hoursOf = (hazard: HazardFacts, issued: IssuedBriefing | null, words: Words): string =>
  hazardHours(issued?.plan?.closed ?? [], toldOf(hazard), words);

function saidHazard(hazard: HazardFacts, hours: string, m: Messages, tell: Teller): PageHazard {
  const { label, headline, what, where, when, doThis } = tell.hazard(hazard);
  const { id, level, source, official } = hazard;
  return {
    id,
    level,
    source,
    ...(official === undefined ? {} : { official }),
    levelWords: m.levelWords[level],
    ...(label === '' ? {} : { label }),
    headline,
    what,
    where,
    when: hours === '' || official !== undefined ? when : sentenceOf(hours),
    doThis,
  };
}

function phaseName(id: string, m: Messages): string {
  const names: Readonly<Record<string, string>> = m.phases;
  return names[id] ?? id;
}

function periodWords({ period, bound, hours }: PositionFacts, m: Messages): string {
  const { positions } = m;
  const usual = positions.period[period];
  const words =
    bound === undefined
      ? usual
      : bound === 'cool' || bound === 'open'
        ? positions.bound[bound](usual)
        : positions.bound[bound];
  return hours === undefined ? words : positions.hours(words, hourWords(hours[0]), hourWords(hours[1]));
}

function saidPosition(place: PositionFacts, ashore: boolean, m: Messages, tell: Teller): PagePosition {
  return {
    place: place.place,
    name: tell(place.name),
    ...(place.named === undefined ? {} : { named: place.named }),
    rank: place.rank,
    choice: m.positions.choice[place.rank - 1] ?? '',
    depthM: place.depthM,
    period: place.period,
    ...(place.bound === 'closed' ? { closedHours: true as const } : {}),
    periodWords: ashore ? m.positions.notToday : periodWords(place, m),
    ...(place.hours === undefined ? {} : { hours: place.hours }),
    because: [...new Set(place.because.map((fact) => sentenceOf(tell(fact))))].slice(0, REASONS),
    limitedBy: place.limitedBy === null ? '' : sentenceOf(tell(place.limitedBy)),
    total: place.total,
    contributions: place.contributions,
  };
}

/** A day ahead of which nothing is told but that it is like today. */
const UNCHANGED = z.object({
  code: z.literal('advice.day'),
  because: z.object({ code: z.literal('noChange') }),
  turns: z.array(z.unknown()).length(0),
  danger: z.undefined().optional(),
});

/** What speaks for a confidence; the rest lowers it. */
const FOR_IT: ReadonlySet<string> = new Set(['seasonClear', 'placeClear', 'allKnown']);
const CONFIDENCE = z.object({
  code: z.literal('advice.confidence'),
  of: z.array(z.looseObject({ code: z.string() })),
});

function saidConfidence(
  { word, because }: IssuedBriefing['confidence'],
  tell: Teller,
): BriefingPage['confidence'] {
  const parts = CONFIDENCE.safeParse(because);
  const against = parts.data?.of.filter(({ code }) => !FOR_IT.has(code)) ?? [];
  const lowered = { ...parts.data, code: because.code, of: against };
  return {
    word,
    because: sentenceOf(tell(because)),
    ...(parts.success ? { against: against.length === 0 ? '' : sentenceOf(tell(lowered)) } : {}),
  };
}

function saidTendency(
  tendency: NonNullable<Extract<Briefing, { positions: unknown }>['tendency']>,
  tell: Teller,
): NonNullable<BriefingPage['tendency']> {
  const { word, because, trigger, days, bestDay } = tendency;
  return {
    word,
    because: sentenceOf(tell(because)),
    trigger: sentenceOf(tell(trigger)),
    days: days.map((day) => ({
      date: day.date,
      word: day.word,
      firstPlace: tell(day.name),
      // "About as today" has said it.
      because: UNCHANGED.safeParse(day.because).success ? '' : sentenceOf(tell(day.because)),
    })),
    ...(bestDay === undefined
      ? {}
      : { bestDay: { date: bestDay.date, because: sentenceOf(tell(bestDay.because)) } }),
  };
}

function gapWords(gap: GapFact, zone: string, m: Messages, tell: Teller): string {
  if (!isNotRead(gap)) return tell(gap);
  const say = gap.inPart === true ? m.gaps.readInPart : m.gaps.notRead;
  return say(inert(gap.source), clock(gap.atMs, zone), inert(gap.problem)).trim();
}

/** What was not checked of dangers is told with the dangers. */
const OF_SAFETY = z.object({
  code: z.literal('signals.gap'),
  gap: z.object({ code: z.enum(['alertsNotChecked', 'floodNotChecked']) }),
});
const isNotOfSafety = (gap: GapFact): boolean => !OF_SAFETY.safeParse(gap).success;

const isNotRead = (gap: GapFact): gap is Extract<GapFact, { code: 'notRead' }> => gap.code === 'notRead';

/** A reading is thanked for by showing what it did. */
function readingThanks(facts: Briefing, m: Messages): Pick<BriefingPage, 'readingThanks'> {
  if (facts.status === 'nil' || facts.reading === undefined) return {};
  const { beforeC, nowC, atMs } = facts.reading;
  const where = facts.reading.where === MAIN_LAKE ? m.mainLake : inert(facts.reading.where);
  const when = dateWordsAt(atMs, facts.lake.zone, m);
  const now = quantity('temperature', nowC);
  return {
    readingThanks:
      Math.abs(nowC - beforeC) < PRINTS_APART_K
        ? m.readingThanksSmall(where, when, now)
        : m.readingThanks(where, when, quantity('temperature', beforeC), now),
  };
}

/** A reading in a pocket is thanked for in the pocket's own line. */
function saidPocket(
  pocket: Briefing['pockets'][number],
  zone: string,
  m: Messages,
  tell: Teller,
): BriefingPage['pockets'][number] {
  const { sentence, reading, ...figures } = pocket;
  return {
    ...figures,
    sentence: [
      m.positions.pocket(inert(pocket.name), sentenceOf(tell(sentence))),
      ...(reading === undefined ? [] : [pocketThanks(reading, zone, m)]),
    ].join(' '),
  };
}

function pocketThanks(
  { atMs, beforeC, nowC }: NonNullable<Briefing['pockets'][number]['reading']>,
  zone: string,
  m: Messages,
): string {
  const when = dateWordsAt(atMs, zone, m);
  const now = quantity('temperature', nowC);
  return Math.abs(nowC - beforeC) < PRINTS_APART_K
    ? m.pocketThanksSmall(when, now)
    : m.pocketThanks(when, quantity('temperature', beforeC), now);
}
