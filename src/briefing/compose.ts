/** Composes the briefing: order, words, what changed, gaps. Pure: the same input gives the same document. */
import type { Advice, PositionAdvice, PresentationCard } from '../advice/types.ts';
import type { LakeConfig } from '../config/types.ts';
import type { PocketReport, SignalReport } from '../signals/types.ts';
import { whatChanged } from './changes.ts';
import { conditionRows } from './conditions.ts';
import { bottomLine, inert, sentenceOf, subjectLine } from './headline.ts';
import { en } from '../words/en/page.ts';
import type { Messages } from '../words/index.ts';
import type {
  BriefingCast,
  BriefingDocument,
  BriefingPosition,
  BriefingStatus,
  ConditionRow,
} from './schema.ts';
import { DAY_MS } from '../units/calendar.ts';
import { quantity } from '../units/index.ts';
import { clock, dateWordsAt, hourWords } from './when.ts';
import { without } from './without.ts';

/** One attempt to read a source, as far as the reader should know of it. */
export interface RetrievalNote {
  readonly source: string;
  /** What a reader knows the source by; its id when left out. */
  readonly name?: string;
  readonly ok: boolean;
  /** One sentence for a person; '' when all was well. */
  readonly problem: string;
  readonly atMs: number;
}

export interface BriefingInput {
  readonly lake: LakeConfig;
  readonly report: SignalReport;
  readonly advice: Advice;
  readonly issuedMs: number;
  readonly validUntilMs: number;
  readonly nextIssueMs: number;
  readonly status: BriefingStatus;
  readonly previous?: BriefingDocument;
  readonly retrievals?: readonly RetrievalNote[];
  readonly demo: boolean;
  readonly preview?: boolean;
  /** How past issues have done, in sentences; leave out until there is something honest to say. */
  readonly verification?: { readonly issues: number; readonly sentences: readonly string[] };
  /** Words; English when left out. */
  readonly messages?: Messages;
}

/**
 * The document of one lake and one morning. Figures stay SI; sentences keep their quantities as placeholders.
 * Where no signal is fresh the status becomes `nil` and nothing is ranked, whatever was asked for.
 *
 * @returns a document that satisfies `briefingSchema`
 */
export function composeBriefing(input: BriefingInput): BriefingDocument {
  const { lake, report, advice, issuedMs } = input;
  const m = input.messages ?? en;
  const { conditions } = report;
  const rows = conditionRows(report, issuedMs, m);
  // Constants of the configuration are always fresh: only what the table shows counts.
  const nil = input.status === 'nil' || rows.every(({ now }) => now === null);
  const ashore = advice.safety.level === 4;
  const positions = nil ? [] : advice.positions.slice(0, 3).map((place) => positionRow(place, ashore, m));
  const status: BriefingStatus = nil ? 'nil' : input.status;
  return {
    schema: 'thawline-briefing/1',
    id: `${lake.id}/${conditions.date}/${status}`,
    language: m.language,
    status,
    demo: input.demo,
    preview: input.preview ?? false,
    marks: [...(input.demo ? [m.marks.demo] : []), ...(input.preview === true ? [m.marks.preview] : [])],
    lake: {
      id: lake.id,
      name: lake.name,
      ...(lake.arm === undefined ? {} : { arm: lake.arm }),
      zone: lake.zone,
    },
    date: conditions.date,
    issuedMs,
    validUntilMs: input.validUntilMs,
    nextIssueMs: input.nextIssueMs,
    subject: subjectLine(lake, advice, conditions, nil, m),
    bottomLine: bottomLine(advice, report, nil, m),
    oldest: oldestInUse(rows),
    safety: safetyPart(advice, m),
    whatChanged: whatChanged(
      {
        level: advice.safety.level,
        hazards: advice.safety.hazards.map(({ id }) => id),
        conditions: rows,
        positions,
      },
      input.previous,
      m,
    ),
    conditions: rows,
    ...(nil ? {} : thanksPart(report, m)),
    pockets: report.pockets.map((pocket) => ({
      name: pocket.name,
      basis: pocket.basis,
      sentence: [
        m.positions.pocket(inert(pocket.name), sentenceOf(pocket.sentence)),
        ...pocketThanks(pocket, conditions.zone, m),
      ].join(' '),
      ...pocketFigures(pocket),
    })),
    phase: nil
      ? null
      : {
          leading: advice.phase.leading,
          name: m.phases[advice.phase.leading],
          because: sentenceOf(advice.phase.because),
        },
    positions,
    close: nil || !advice.close ? null : sentenceOf(advice.closeWords),
    swap: nil || ashore ? null : (advice.swap?.sentence ?? null),
    searchPlan:
      nil || ashore
        ? []
        : advice.searchPlan.map(({ step, moveOn, ...rest }) => ({
            ...rest,
            step: sentenceOf(step),
            moveOn: sentenceOf(moveOn),
          })),
    casts: nil || ashore ? [] : advice.presentations.slice(0, 2).map((card) => castCard(card, advice)),
    tendency: nil || advice.tendency === null ? null : tendencyPart(advice.tendency, advice, ashore),
    confidence: nil
      ? { word: 'low', because: m.gaps.nil }
      : { word: advice.confidence.word, because: sentenceOf(advice.confidence.because) },
    gaps: gapSentences(input, m),
    ...verificationPart(input),
    sources: report.sources.map(({ name, attribution, url, licence, lastMs }) => ({
      name,
      attribution,
      url,
      licence,
      lastMs,
    })),
    limits: [...m.limits],
    cautions: [...m.cautions],
    series: seriesPart(report),
  };
}

function safetyPart(advice: Advice, m: Messages): BriefingDocument['safety'] {
  const { safety } = advice;
  return {
    level: safety.level,
    levelWords: m.levelWords[safety.level],
    hazards: safety.hazards.map(({ official, ...hazard }) => ({
      ...hazard,
      levelWords: m.levelWords[hazard.level],
      ...(official === undefined ? {} : { official: { ...official } }),
    })),
    notChecked: [...safety.notChecked],
    deferTo: safety.deferTo === '' ? m.deferTo : safety.deferTo,
  };
}

function periodWords({ period, bound, hours }: PositionAdvice, m: Messages): string {
  const { positions } = m;
  const usual = positions.period[period];
  const words =
    bound === undefined ? usual : bound === 'cool' ? positions.bound.cool(usual) : positions.bound[bound];
  return hours === undefined ? words : positions.hours(words, hourWords(hours[0]), hourWords(hours[1]));
}

/** Whoever is told to stay ashore is given no hours to start at. */
function positionRow(place: PositionAdvice, ashore: boolean, m: Messages): BriefingPosition {
  const contributions: Record<string, number> = {};
  for (const part of place.evidence) {
    contributions[part.signal] = (contributions[part.signal] ?? 0) + part.contribution;
  }
  return {
    place: place.place,
    name: place.name,
    ...(place.named === undefined ? {} : { named: place.named }),
    rank: place.rank,
    choice: m.positions.choice[place.rank - 1] ?? '',
    depthM: [place.depthM[0], place.depthM[1]],
    period: place.period,
    periodWords: ashore ? m.positions.notToday : periodWords(place, m),
    ...(place.hours === undefined || ashore ? {} : { hours: [place.hours[0], place.hours[1]] }),
    because: place.because.slice(0, 2).map(sentenceOf),
    limitedBy: sentenceOf(place.limitedBy),
    total: place.total,
    contributions,
  };
}

function castCard(card: PresentationCard, advice: Advice): BriefingCast {
  const { steps, misfit, because, ...rest } = card;
  return {
    ...rest,
    placeName: advice.positions.find(({ place }) => place === card.place)?.name ?? card.place,
    because: sentenceOf(because),
    steps: steps.map(sentenceOf),
    ...(misfit === undefined ? {} : { misfit: sentenceOf(misfit) }),
  };
}

function tendencyPart(
  tendency: NonNullable<Advice['tendency']>,
  advice: Advice,
  ashore: boolean,
): NonNullable<BriefingDocument['tendency']> {
  const nameOf = (place: string): string =>
    advice.positions.find((one) => one.place === place)?.name ?? place;
  return {
    word: tendency.word,
    because: sentenceOf(tendency.because),
    trigger: sentenceOf(tendency.trigger),
    days: tendency.days.map((day) => ({
      ...day,
      firstPlace: nameOf(day.firstPlace),
      because: sentenceOf(day.because),
    })),
    ...(tendency.bestDay === undefined || ashore
      ? {}
      : { bestDay: { date: tendency.bestDay.date, because: sentenceOf(tendency.bestDay.because) } }),
  };
}

/** The oldest figure that the table shows as known: what the reader should trust least. */
function oldestInUse(rows: readonly ConditionRow[]): BriefingDocument['oldest'] {
  let oldest: BriefingDocument['oldest'] = null;
  for (const { label, now } of rows) {
    if (now === null || now.ageMinutes <= (oldest?.ageMinutes ?? 0)) continue;
    oldest = { label, ageMinutes: now.ageMinutes };
  }
  return oldest;
}

function gapSentences(input: BriefingInput, m: Messages): string[] {
  const failed = stillFailing(input.retrievals ?? [], input.issuedMs).map(({ source, name, atMs, problem }) =>
    m.gaps.notRead(inert(name ?? source), clock(atMs, input.lake.zone), inert(problem)).trim(),
  );
  const named = [...input.report.conditions.gaps, ...input.advice.gaps].map(({ sentence }) => sentence);
  return [...new Set([...named, ...failed])];
}

/** Failures of the last day that no later success of the source has mended: of each source those of its last attempt. */
function stillFailing(retrievals: readonly RetrievalNote[], issuedMs: number): RetrievalNote[] {
  const lastMs = new Map<string, number>();
  for (const { source, atMs } of retrievals) lastMs.set(source, Math.max(lastMs.get(source) ?? atMs, atMs));
  return retrievals.filter(
    ({ source, ok, atMs }) => !ok && atMs === lastMs.get(source) && atMs > issuedMs - DAY_MS,
  );
}

function verificationPart({ verification }: BriefingInput): Pick<BriefingDocument, 'verification'> {
  if (verification === undefined || verification.issues === 0 || verification.sentences.length === 0)
    return {};
  return { verification: [...verification.sentences] };
}

/** A reading is thanked for by showing what it did. */
function thanksPart(report: SignalReport, m: Messages): Pick<BriefingDocument, 'readingThanks'> {
  const last = report.readingsUsed.at(-1);
  const now = report.conditions.signals.waterC;
  const before = report.estimateBeforeReadingC;
  if (last === undefined || now === undefined || before === null) return {};
  const where = inert(last.where);
  const when = dateWordsAt(last.atMs, report.conditions.zone, m);
  return {
    readingThanks:
      Math.abs(now.value - before) < PRINTS_APART_K
        ? m.readingThanksSmall(where, when, quantity('temperature', now.value))
        : m.readingThanks(where, when, quantity('temperature', before), quantity('temperature', now.value)),
  };
}

/** Two temperatures this far apart print as different ones in either unit, K. */
const PRINTS_APART_K = 5 / 9;

/** What the pocket's sentence is made from, for programs. */
function pocketFigures(pocket: PocketReport): Partial<BriefingDocument['pockets'][number]> {
  const { surfaceC, minusMainC, warmestHourMs, coldest, renewedShare, buoyant, halfLifeH } = pocket;
  return {
    ...(warmestHourMs === null
      ? {}
      : {
          warmest: {
            atMs: warmestHourMs,
            surfaceC: surfaceC.value,
            minusMainC: minusMainC.value,
            ...(surfaceC.low === undefined ? {} : { lowC: surfaceC.low }),
            ...(surfaceC.high === undefined ? {} : { highC: surfaceC.high }),
          },
        }),
    ...(coldest === undefined ? {} : { coldest: { ...coldest } }),
    renewedShare,
    buoyant,
    halfLifeH,
  };
}

/** A reading in a pocket is thanked for in the pocket's own line. */
function pocketThanks({ lastReading, surfaceC }: PocketReport, zone: string, m: Messages): string[] {
  if (lastReading === undefined) return [];
  const { atMs, beforeC } = lastReading;
  const when = dateWordsAt(atMs, zone, m);
  const now = quantity('temperature', surfaceC.value);
  return [
    Math.abs(surfaceC.value - beforeC) < PRINTS_APART_K
      ? m.pocketThanksSmall(when, now)
      : m.pocketThanks(when, quantity('temperature', beforeC), now),
  ];
}

function seriesPart(report: SignalReport): BriefingDocument['series'] {
  return {
    days: report.days.map((day) => without(day, 'windMs', 'cloudPct')),
    hours: report.hours.map((hour) => without(hour, 'windDirDeg', 'cloudPct', 'rainMm')),
    readings: report.readingsUsed.map((reading) => ({ ...reading })),
    sun: { riseMs: report.sun.riseMs, setMs: report.sun.setMs },
  };
}
