/** What a season book says of a morning: a handful of facts of its document. */
import type { Briefing, CastFacts } from '../../briefing/index.ts';
import type { ForecastBasis, ReplayedMorning } from './season.ts';

export interface SeasonDay {
  readonly date: string;
  readonly forecast: ForecastBasis;
  readonly status: Briefing['status'];
  readonly waterC: number | null;
  readonly waterLowC: number | null;
  readonly waterHighC: number | null;
  readonly levelM: number | null;
  readonly danger: number;
  /** Hazards with their levels, `cold-water:2`. */
  readonly hazards: readonly string[];
  readonly phase: string;
  readonly first: string;
  readonly second: string;
  readonly lure: string;
  /** Local hours of the first place, `07-11`; '' where the day has none. */
  readonly hours: string;
  /** Points of the first place by signal. */
  readonly points: Readonly<Record<string, number>>;
}

/** Class of lure of a cast; issues of before kept it as a sentence. */
function lureOf(cast: CastFacts | undefined): string {
  const told = cast?.lureClass ?? { code: '' };
  for (const key of ['lure', 'text'] as const) {
    const name: unknown = Object.entries(told).find(([field]) => field === key)?.[1];
    if (typeof name === 'string') return name;
  }
  return '';
}

const hourText = (hour: number): string => String(Math.round(hour)).padStart(2, '0');

export function seasonDay(morning: ReplayedMorning, document: Briefing): SeasonDay {
  const figure = (id: string) => document.conditions.find((row) => row.id === id)?.now ?? null;
  const water = figure('waterC');
  const issued = document.status === 'nil' ? null : document;
  const [first, second] = issued?.positions ?? [];
  return {
    date: morning.date,
    forecast: morning.forecast,
    status: document.status,
    waterC: water?.value ?? null,
    waterLowC: water?.low ?? null,
    waterHighC: water?.high ?? null,
    levelM: figure('levelM')?.value ?? null,
    danger: document.safety.level,
    hazards: document.safety.hazards.map(({ id, level }) => `${id}:${level}`),
    phase: issued?.phase.leading ?? '',
    first: first?.place ?? '',
    second: second?.place ?? '',
    lure: lureOf(issued?.casts[0]),
    hours: first?.hours === undefined ? '' : first.hours.map(hourText).join('-'),
    points: first?.contributions ?? {},
  };
}
