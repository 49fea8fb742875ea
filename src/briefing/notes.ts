/** What the figures of the table mean, as facts: what is told beside a number, and what is not worth telling. */
import type { SignalId, SignalReport, SignalStatement } from '../signals/index.ts';
import { formatQuantity } from '../units/index.ts';

/** A change of the water over some days, K; clear where its 80 % interval leaves out zero. */
export interface WaterSpan {
  readonly days: number;
  readonly changeK: number;
  readonly clear: boolean;
}

/** Change of the level over some hours; null where wind and sensor explain what there is. */
export interface LevelSpan {
  readonly hours: number;
  readonly changeM: number | null;
  readonly rateMPerH?: number;
}

export type NoteFact =
  | { readonly code: 'water.noChange'; readonly days: readonly number[] }
  | { readonly code: 'water.change'; readonly spans: readonly WaterSpan[] }
  | {
      readonly code: 'pocket.row';
      readonly name: string;
      readonly warmestMs: number;
      readonly zone: string;
      readonly warmer?: string;
    }
  | {
      readonly code: 'level.stand';
      /** Above normal pool; 0 at it. */
      readonly offPoolM?: number;
      readonly band?: {
        readonly lowM: number;
        readonly highM: number;
        /** null for a whole year. */
        readonly days: number | null;
        readonly stands: 'held' | 'above' | 'below' | 'lower' | 'middle' | 'upper';
      };
    }
  | { readonly code: 'level.pace'; readonly spans: readonly LevelSpan[] }
  | { readonly code: 'rain.snow'; readonly airC: number }
  | { readonly code: 'rain.check'; readonly measuredMm: number; readonly modelMm: number }
  | {
      readonly code: 'clarity.class';
      readonly class: 'clear' | 'stained' | 'muddy' | 'very-muddy';
      readonly confidence: 'high' | 'medium' | 'low';
      readonly measured: boolean;
      readonly because: Extract<SignalStatement, { code: 'clarity.reason' }>;
    };

const WATER_SPANS: readonly (readonly [SignalId, number])[] = [
  ['waterChange3dC', 3],
  ['waterChange7dC', 7],
  ['waterChange30dC', 30],
];

/** A pocket this much warmer than the leading one is named beside it, K. */
const WARMER_K = 0.5;
/** Nearer to normal pool than this no reader sees a difference, m. */
const AT_POOL_M = 0.03;
/** The range is of daily means: a value this little outside it is a gust, not a record, m. */
const OUTSIDE_M = 0.03;
/** A smaller change prints as nothing in tenths of a foot, m. */
const SHOWS_M = 0.016;
/** A range this small is a pool held steady; thirds of it say nothing, m. */
const HELD_M = 0.15;
/** With fewer days the range is not called the year's. */
const WHOLE_YEAR_DAYS = 330;

/** A change that prints as nothing in one of the unit systems is none to a reader. */
const printsAsZero = (changeK: number): boolean =>
  (['us', 'metric'] as const).some(
    (units) => !/[1-9]/.test(formatQuantity(changeK, 'temperatureDifference', units)),
  );

/** How the lake has warmed or cooled, each span with how sure that is; nothing where no span is known. */
function waterNote({ conditions }: SignalReport): NoteFact[] {
  const known = WATER_SPANS.flatMap(([id, days]) => {
    const change = conditions.signals[id];
    return change === undefined || change.freshness === 'stale' ? [] : [{ change, days }];
  });
  if (known.length === 0) return [];
  const told = known.filter(({ change }) => !printsAsZero(change.value));
  if (told.length === 0) return [{ code: 'water.noChange', days: known.map(({ days }) => days) }];
  const spans = told.map(({ change: { value, low, high }, days }) => ({
    days,
    changeK: value,
    clear: low !== undefined && high !== undefined && (low > 0 || high < 0),
  }));
  return [{ code: 'water.change', spans }];
}

/** Which pocket the figure belongs to, and its hour; nothing where the figure is not that of the leading pocket. */
function pocketNote({ conditions, pockets }: SignalReport): NoteFact[] {
  const figure = conditions.signals.pocketC;
  const [lead, ...others] = pockets;
  if (figure === undefined || lead?.warmestHourMs == null || lead.surfaceC.value !== figure.value) return [];
  const warmer = others.find(({ surfaceC }) => surfaceC.value > lead.surfaceC.value + WARMER_K);
  return [
    {
      code: 'pocket.row',
      name: lead.name,
      warmestMs: lead.warmestHourMs,
      zone: conditions.zone,
      ...(warmer === undefined ? {} : { warmer: warmer.name }),
    },
  ];
}

/** The level against normal pool and in the range of the year; nothing when neither is known. */
function levelStandNote(report: SignalReport): NoteFact[] {
  const { levelM, levelVsNormalM, levelBandShare } = report.conditions.signals;
  const band = report.levelBand;
  const off = levelVsNormalM?.value;
  const pool = off === undefined ? {} : { offPoolM: Math.abs(off) < AT_POOL_M ? 0 : off };
  if (levelM === undefined || levelBandShare === undefined || band === undefined)
    return off === undefined ? [] : [{ code: 'level.stand', ...pool }];
  const { lowM, highM, days } = band;
  const third = Math.min(2, Math.max(0, Math.floor(levelBandShare.value * 3)));
  const stands =
    highM - lowM < HELD_M
      ? 'held'
      : levelM.value > highM + OUTSIDE_M
        ? 'above'
        : levelM.value < lowM - OUTSIDE_M
          ? 'below'
          : third === 0
            ? 'lower'
            : third === 1
              ? 'middle'
              : 'upper';
  return [
    {
      code: 'level.stand',
      ...pool,
      band: { lowM, highM, days: days >= WHOLE_YEAR_DAYS ? null : days, stands },
    },
  ];
}

/** How fast the level moves over six hours and over three days; nothing when neither span is known. */
function levelPaceNote({ conditions: { signals } }: SignalReport): NoteFact[] {
  const span = (id: SignalId, hours: number, rate?: number): LevelSpan[] => {
    const change = signals[id];
    if (change === undefined) return [];
    if (Math.abs(change.value) < SHOWS_M) return [{ hours, changeM: null }];
    return [{ hours, changeM: change.value, ...(rate === undefined ? {} : { rateMPerH: rate }) }];
  };
  const spans = [...span('level6hM', 6, signals.levelRateMPerH?.value), ...span('level72hM', 72)];
  return spans.length === 0 ? [] : [{ code: 'level.pace', spans }];
}

/** A rain gauge and a weather model that do not agree are both told: the reader can look which is right. */
const rainNote = ({ rainCheck }: SignalReport): NoteFact[] =>
  rainCheck === undefined ? [] : [{ code: 'rain.check', ...rainCheck }];

/**
 * Air at or below this while it fell makes snow of it, degC (half falls as snow near 1 degC: Jennings et al. 2018, Nature
 * Communications 9:1148, from memory).
 */
const SNOW_C = 1;
/** Less than this is neither, mm. */
const WET_MM = 0.5;

/** What is counted as rain, melted, and fell as snow: it runs nowhere before it melts. */
const snowNote = ({ conditions: { signals } }: SignalReport): NoteFact[] => {
  const { rain24Mm, rainAirC } = signals;
  return rain24Mm !== undefined &&
    rain24Mm.value >= WET_MM &&
    rainAirC !== undefined &&
    rainAirC.value <= SNOW_C
    ? [{ code: 'rain.snow', airC: rainAirC.value }]
    : [];
};

/** The class of the clarity, its confidence, and what both rest on. */
const clarityNote = ({ clarity }: SignalReport): NoteFact[] =>
  clarity === undefined
    ? []
    : [
        {
          code: 'clarity.class',
          class: clarity.class,
          confidence: clarity.confidence,
          measured: clarity.measured,
          because: { code: 'clarity.reason', reason: clarity.because },
        },
      ];

const NOTES: Partial<Record<SignalId, (report: SignalReport) => NoteFact[]>> = {
  waterC: waterNote,
  pocketC: pocketNote,
  levelM: levelStandNote,
  level24hM: levelPaceNote,
  rain24Mm: snowNote,
  rain72Mm: rainNote,
  clarityM: clarityNote,
};

/** Notes that stand under the figure of a signal. */
export const notesFor = (id: SignalId, report: SignalReport): NoteFact[] => NOTES[id]?.(report) ?? [];
