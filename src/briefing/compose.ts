/** Composes the briefing as facts: order, what changed, gaps. Pure: the same input gives the same document. */
import { isClosedDay, isKeptIn } from './ashore.ts';
import type { LakeConfig } from '../config/index.ts';
import type { PocketReport, SignalReport, SignalStatement } from '../signals/index.ts';
import { DAY_MS } from '../units/time/index.ts';
import { placeName, type AdviceFacts, type RankedPlace } from './adviceFacts.ts';
import { whatChanged } from './changes.ts';
import { lakePart } from './lakePart.ts';
import { conditionRows } from './conditions.ts';
import type { Briefing, BriefingStatus, IssuedBriefing, NilBriefing } from './document/briefing.ts';
import type { ComparableIssue } from './document/comparable.ts';
import type { ConditionFacts, Statement } from './document/fact.ts';
import type { GapFact, LessonFacts, OutingFacts, ScoreFacts } from './document/known.ts';
import type { PositionFacts } from './document/place.ts';
import type { PlanFacts } from './document/plan.ts';
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

/** A line of the operator, with its dates at the lake. */
export interface Notice {
  readonly text: string;
  readonly from: string;
  readonly until: string | null;
}

export interface BriefingInput {
  readonly lake: LakeConfig;
  readonly report: SignalReport;
  readonly advice: AdviceFacts;
  /** What the water is now, where the report is of a day to come; the report itself where it is of today. */
  readonly now?: SignalReport;
  /** The day on one clock, as it passed the gate; left out where nobody planned it. */
  readonly plan?: PlanFacts;
  readonly issuedMs: number;
  readonly validUntilMs: number;
  readonly nextIssueMs: number;
  readonly status: BriefingStatus;
  readonly previous?: ComparableIssue;
  readonly retrievals?: readonly RetrievalNote[];
  readonly demo: boolean;
  readonly preview?: boolean;
  /** What the operator tells of the lake on this day, as written. */
  readonly notices?: readonly Notice[];
  /** How past issues have done; leave out until there is something honest to say. */
  readonly scores?: readonly ScoreFacts[];
  /** What past outlooks taught; leave out while too few could be compared. */
  readonly outlook?: readonly LessonFacts[];
  /** What readers told of their days; leave out where they are too few. */
  readonly outings?: OutingFacts;
}

/**
 * The document of one lake and one morning: ids, SI numbers and codes. Where no signal is fresh it is `nil`, and
 * nothing is ranked, whatever was asked for.
 *
 * @returns a document that satisfies `briefingSchema`
 */
export function composeBriefing(input: BriefingInput): Briefing {
  const { lake, report, advice, issuedMs } = input;
  const { conditions } = report;
  const rows = conditionRows(input.now ?? report, issuedMs);
  // Constants of the configuration are always fresh: only what the table shows counts.
  const nil = input.status === 'nil' || rows.every(({ now }) => now === null);
  const status: BriefingStatus = nil ? 'nil' : input.status;
  const ashore = isKeptIn({
    safety: advice.safety,
    plan: input.plan == null ? null : { ...input.plan, closedDay: isClosedDay(input.plan) },
  });
  const positions = nil ? [] : advice.positions.slice(0, 3).map((place) => positionRow(place, ashore));
  const series = seriesPart(report);
  const nameOf = (place: string): Statement =>
    advice.positions.find((one) => one.place === place)?.name ?? placeName(place);
  const base: Omit<NilBriefing, 'status'> = {
    schema: 'thawline-briefing/2',
    id: `${lake.id}/${conditions.date}/${status}`,
    demo: input.demo,
    preview: input.preview ?? false,
    lake: {
      id: lake.id,
      name: lake.name,
      ...(lake.arm === undefined ? {} : { arm: lake.arm }),
      ...(lake.language === undefined ? {} : { language: lake.language }),
      ...(lake.clock === undefined ? {} : { clock: lake.clock }),
      zone: lake.zone,
    },
    date: conditions.date,
    issuedMs,
    validUntilMs: input.validUntilMs,
    nextIssueMs: input.nextIssueMs,
    ...(input.notices === undefined || input.notices.length === 0 ? {} : { notices: [...input.notices] }),
    oldest: oldestInUse(rows),
    safety: advice.safety,
    whatChanged: whatChanged(
      {
        level: advice.safety.level,
        hazards: advice.safety.hazards.map(({ id }) => id),
        conditions: rows,
        positions,
        airDays: series.days,
        date: conditions.date,
        nameOf,
      },
      input.previous,
    ),
    conditions: rows,
    // Their best hour of today is over when the evening looks ahead.
    pockets: (input.now === undefined ? report.pockets : []).map((pocket) => ({
      name: pocket.name,
      basis: pocket.basis,
      sentence: told({ code: 'pocket.story', told: pocket.story }),
      ...(pocket.lastReading === undefined
        ? {}
        : { reading: { ...pocket.lastReading, nowC: pocket.surfaceC.value } }),
      ...pocketFigures(pocket),
    })),
    ...lakePart(lake, report),
    gaps: gapFacts(input),
    scores: [...(input.scores ?? [])],
    ...(input.outlook === undefined ? {} : { outlook: [...input.outlook] }),
    ...(input.outings === undefined ? {} : { outings: input.outings }),
    sources: report.sources.map(({ name, attribution, url, licence, lastMs }) => ({
      name,
      attribution,
      url,
      licence,
      lastMs,
    })),
    series,
  };
  if (status === 'nil') return { ...base, status };
  return {
    ...base,
    status,
    ...readingPart(report),
    phase: advice.phase,
    positions,
    close: advice.close,
    swap: ashore ? null : advice.swap,
    searchPlan: ashore ? [] : [...advice.searchPlan],
    casts: ashore ? [] : advice.casts.slice(0, 2),
    plan: input.plan ?? null,
    // Its words compare with today, which an evening has behind it.
    tendency:
      advice.tendency === null || input.now !== undefined
        ? null
        : ashore
          ? without(advice.tendency, 'bestDay')
          : advice.tendency,
    confidence: advice.confidence,
  };
}

/** Whoever is told to stay ashore is given no hours to start at. */
function positionRow(place: RankedPlace, ashore: boolean): PositionFacts {
  const contributions: Record<string, number> = {};
  for (const part of place.evidence) {
    contributions[part.signal] = (contributions[part.signal] ?? 0) + part.contribution;
  }
  const reasons = place.evidence
    .filter(({ contribution }) => contribution > 0)
    .sort((a, b) => b.contribution - a.contribution);
  return {
    place: place.place,
    name: place.name,
    ...(place.named === undefined ? {} : { named: place.named }),
    rank: place.rank,
    depthM: [place.depthM[0], place.depthM[1]],
    period: place.period,
    ...(place.bound === undefined ? {} : { bound: place.bound }),
    ...(place.hours === undefined || ashore ? {} : { hours: [place.hours[0], place.hours[1]] }),
    because: [...place.because],
    limitedBy: place.limitedBy,
    total: place.total,
    contributions,
    reasons: reasons.map(({ signal, value, sentence }) => ({ signal, value, sentence })),
  };
}

/** The oldest figure that the table shows as known: what the reader should trust least. */
function oldestInUse(rows: readonly ConditionFacts[]): Briefing['oldest'] {
  let oldest: Briefing['oldest'] = null;
  for (const { id, now } of rows) {
    if (now === null || now.ageMinutes <= (oldest?.ageMinutes ?? 0)) continue;
    oldest = { signal: id, ageMinutes: now.ageMinutes };
  }
  return oldest;
}

const told = (statement: SignalStatement): Statement => statement;

function gapFacts(input: BriefingInput): GapFact[] {
  const named = [...input.report.conditions.gaps, ...input.advice.gaps].map(({ fact }) =>
    told({ code: 'signals.gap', gap: fact }),
  );
  const retrievals = input.retrievals ?? [];
  const failed = stillFailing(retrievals, input.issuedMs).map(({ source, name, atMs, problem }) => ({
    code: 'notRead' as const,
    source: name ?? source,
    atMs,
    problem,
    ...(retrievals.some((one) => one.ok && one.source === source && one.atMs === atMs)
      ? { inPart: true }
      : {}),
  }));
  return [...new Map([...named, ...failed].map((gap) => [JSON.stringify(gap), gap])).values()];
}

/** Failures of the last day that no later success of the source has mended: of each source those of its last attempt. */
function stillFailing(retrievals: readonly RetrievalNote[], issuedMs: number): RetrievalNote[] {
  const lastMs = new Map<string, number>();
  for (const { source, atMs } of retrievals) lastMs.set(source, Math.max(lastMs.get(source) ?? atMs, atMs));
  return retrievals.filter(
    ({ source, ok, atMs }) => !ok && atMs === lastMs.get(source) && atMs > issuedMs - DAY_MS,
  );
}

/** A reading is thanked for by showing what it did. */
function readingPart(report: SignalReport): Pick<IssuedBriefing, 'reading'> {
  const last = report.readingsUsed.at(-1);
  const now = report.conditions.signals.waterC;
  const beforeC = report.estimateBeforeReadingC;
  if (last === undefined || now === undefined || beforeC === null) return {};
  return { reading: { atMs: last.atMs, where: last.where, beforeC, nowC: now.value } };
}

/** What the pocket's sentence is made from, for programs. */
function pocketFigures(pocket: PocketReport): Partial<Briefing['pockets'][number]> {
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

function seriesPart(report: SignalReport): Briefing['series'] {
  return {
    days: report.days.map((day) => without(day, 'windMs', 'cloudPct')),
    hours: report.hours.map((hour) =>
      without(hour, 'cloudPct', 'humidityPct', 'thunderPct', 'releaseStart', 'stormSign', 'fogCode'),
    ),
    readings: report.readingsUsed.map((reading) => ({ ...reading })),
    sun: { ...report.sun },
  };
}
