/** The conditions table: a fixed order of figures, each with its change, its ten days and what is ahead. */
import type { DayPoint, Figure, SignalId, SignalReport, SignalStatement } from '../signals/index.ts';
import { SIGNALS } from '../vocabulary/index.ts';
import { SI_UNIT, type QuantityKind } from '../units/index.ts';
import { notesFor } from './notes.ts';
import type { BriefingFigure, ConditionFacts } from './document/fact.ts';

type DayField = 'waterC' | 'airMeanC' | 'rainMm' | 'levelM' | 'windMs' | 'cloudPct';

interface RowPlan {
  readonly signal: SignalId;
  readonly change?: SignalId;
  readonly days?: DayField;
  readonly next?: 'days' | 'sum' | SignalId;
}

/** Always in this order, so that a reader finds a figure where it stood yesterday. */
const PLAN: readonly RowPlan[] = [
  { signal: 'waterC', change: 'waterChange1dC', days: 'waterC', next: 'days' },
  { signal: 'pocketC' },
  { signal: 'pocketMinusMainC' },
  { signal: 'levelM', days: 'levelM' },
  { signal: 'level24hM', next: 'levelNext24hM' },
  { signal: 'dischargeM3s' },
  { signal: 'rain24Mm', days: 'rainMm', next: 'sum' },
  { signal: 'rain72Mm' },
  { signal: 'airMean3dC', change: 'airTrend3dCPerDay', days: 'airMeanC', next: 'days' },
  { signal: 'airMean7dC', change: 'airTrend7dCPerDay' },
  { signal: 'windMs', days: 'windMs', next: 'days' },
  { signal: 'cloudPct', days: 'cloudPct', next: 'days' },
  { signal: 'clarityM' },
];

const SIGNED: readonly QuantityKind[] = [
  'temperatureDifference',
  'levelChange',
  'temperatureRate',
  'levelRate',
];

const sourceOf = ({ source }: Figure): Extract<SignalStatement, { code: 'signals.source' }> => ({
  code: 'signals.source',
  source,
});

/** A figure as the document carries it: SI, with quantity, unit and age at issue. */
function documentFigure(figure: Figure, quantity: QuantityKind, issuedMs: number): BriefingFigure {
  return {
    value: figure.value,
    ...(figure.low === undefined ? {} : { low: figure.low }),
    ...(figure.high === undefined ? {} : { high: figure.high }),
    quantity,
    unit: SI_UNIT[quantity],
    kind: figure.kind,
    asOfMs: figure.asOfMs,
    // A forecast for later today has no age yet.
    ageMinutes: Math.max(0, Math.round((issuedMs - figure.asOfMs) / 60_000)),
    freshness: figure.freshness,
    source: sourceOf(figure),
  };
}

/** The level stands above its change; a lake without a gauge says once that the level is not known, not twice. */
const OPTIONAL: readonly SignalId[] = ['levelM'];

/** Rows of the table; a figure that is stale or absent keeps its row and says so. */
export function conditionRows(report: SignalReport, issuedMs: number): ConditionFacts[] {
  const { signals } = report.conditions;
  const lastOf = new Map(report.conditions.gaps.map((gap) => [gap.id, gap.last]));
  const { waterBody } = report.conditions;
  const runs = waterBody === 'tailwater' || waterBody === 'run-of-river';
  const rows = PLAN.map((plan): ConditionFacts => {
    const quantity = SIGNALS[plan.signal];
    const figure = signals[plan.signal];
    const usable = figure !== undefined && figure.freshness !== 'stale';
    const stale = usable ? undefined : (figure ?? lastOf.get(plan.signal));
    const change = plan.change === undefined ? undefined : signals[plan.change];
    const { clarity } = report;
    const isGuess = usable && plan.signal === 'clarityM' && clarity?.measured === false;
    return {
      id: plan.signal,
      signed: SIGNED.includes(quantity),
      now: usable ? documentFigure(figure, quantity, issuedMs) : null,
      last: stale === undefined ? null : documentFigure(stale, quantity, issuedMs),
      change24h:
        plan.change === undefined || change === undefined || change.freshness === 'stale' || !usable
          ? null
          : { value: change.value, quantity: SIGNALS[plan.change] },
      tenDays: plan.days === undefined ? null : tenDays(report, plan.days),
      next48h: next48h(report, plan, quantity),
      ...(isGuess ? { guess: clarity.class } : {}),
      ...(plan.signal === 'dischargeM3s' && runs ? { river: true as const } : {}),
      notes: usable ? notesFor(plan.signal, report) : [],
    };
  });
  return rows.filter(({ id, now, last }) => !OPTIONAL.includes(id) || now !== null || last !== null);
}

const valueOf = (day: DayPoint, field: DayField): number | undefined => day[field];

function tenDays(report: SignalReport, field: DayField): ConditionFacts['tenDays'] {
  const past = report.days.filter((day) => day.date <= report.conditions.date).slice(-10);
  const values = past.map((day) => valueOf(day, field) ?? null);
  const known = values.filter((value) => value !== null);
  if (known.length < 2) return null;
  return { low: Math.min(...known), high: Math.max(...known), values };
}

function next48h(report: SignalReport, plan: RowPlan, quantity: QuantityKind): ConditionFacts['next48h'] {
  if (plan.next === undefined) return null;
  if (plan.next !== 'days' && plan.next !== 'sum') {
    const figure = report.conditions.signals[plan.next];
    if (figure === undefined || figure.freshness === 'stale') return null;
    return {
      low: figure.low ?? figure.value,
      high: figure.high ?? figure.value,
      quantity: SIGNALS[plan.next],
      hours: 24,
    };
  }
  const { days: field } = plan;
  if (field === undefined) return null;
  const ahead = report.days.filter((day) => day.date > report.conditions.date).slice(0, 2);
  const values = ahead.map((day) => valueOf(day, field)).filter((value) => value !== undefined);
  if (values.length < 2) return null;
  const likely = field === 'waterC' ? likelyWater(ahead) : {};
  const sum = values.reduce((total, value) => total + value, 0);
  return plan.next === 'sum'
    ? { low: sum, high: sum, quantity, hours: 48 }
    : { low: Math.min(...values), high: Math.max(...values), quantity, hours: 48, ...likely };
}

/** What the water likely stays within over these days; nothing where a day has no interval. */
function likelyWater(days: readonly DayPoint[]): { likelyLow?: number; likelyHigh?: number } {
  const lows = days.flatMap(({ waterLowC }) => (waterLowC === undefined ? [] : [waterLowC]));
  const highs = days.flatMap(({ waterHighC }) => (waterHighC === undefined ? [] : [waterHighC]));
  if (lows.length < days.length || highs.length < days.length) return {};
  return { likelyLow: Math.min(...lows), likelyHigh: Math.max(...highs) };
}
