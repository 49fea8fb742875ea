import { saysWhenNoonIs } from './sunlight.ts';
import type { PlanHour } from '../plan/hours.ts';
import type { AskedSignal, Conditions, Figure, Gap, SignalId } from '../../signals/index.ts';
import type { Thermocline } from '../../science/index.ts';
import { depthLimitM } from '../depthLimit.ts';
import { writtenDay, type WrittenDay } from './day.ts';
import { likelyLayer } from './layer.ts';
import {
  deriveAir,
  deriveClarity,
  deriveCurrent,
  deriveInflow,
  deriveLight,
  deriveRain,
  type Derived,
  type Section,
  type Values,
} from './derive.ts';
import { UNWRITTEN, type Assumption, type UnderstoodFigure, type UnwrittenSignal } from './facts.ts';
import { withPocketCurve } from './pocketCurve.ts';
import { readWritten } from './quantity.ts';
import { FIELD_KINDS, fieldOf, type WhatIfForm } from './schema.ts';

/** Fields that are a signal as they stand. */
const SIGNAL_OF: Readonly<Record<string, SignalId>> = {
  thunder: 'thunderPct',
  bank: 'bankDeg',
  sky: 'cloudPct',
  'air.mean24h': 'airMean24hC',
  'air.mean3d': 'airMean3dC',
  'air.mean7d': 'airMean7dC',
  'air.trend3d': 'airTrend3dCPerDay',
  'air.trend7d': 'airTrend7dCPerDay',
  'air.warmingDays': 'warmingDays',
  'air.drop24h': 'airDrop24hC',
  'air.overnightLow': 'airMinLastNightC',
  'air.now': 'airNowC',
  'air.highToday': 'airMaxTodayC',
  'rain.last24h': 'rain24Mm',
  'rain.last72h': 'rain72Mm',
  'rain.last7d': 'rain7dMm',
  'rain.temperature': 'rainAirC',
  'rain.hoursSince': 'hoursSinceRain',
  'rain.next24h': 'rainNext24Mm',
  'level.change6h': 'level6hM',
  'level.change24h': 'level24hM',
  'level.change72h': 'level72hM',
  'level.aboveNormal': 'levelVsNormalM',
  'wind.speed': 'windMs',
  'wind.gust': 'gustMs',
  'wind.fetch': 'fetchM',
  'water.main': 'waterC',
  'water.change3d': 'waterChange3dC',
  'water.change7d': 'waterChange7dC',
  'water.pocket': 'pocketC',
  'water.clarity': 'clarityM',
  'water.bottomOxygen': 'bottomOxygenMgL',
  'flow.current': 'currentMs',
  'flow.dischargeRatio': 'dischargeRatio',
};

/** SI value and range that a word stands for. */
const WORDS: Readonly<Record<string, Readonly<Record<string, readonly [number, number, number]>>>> = {
  bank: { gentle: [8, 4, 14], medium: [18, 12, 28], steep: [35, 27, 50] },
  sky: { clear: [10, 0, 20], partly: [45, 30, 65], overcast: [92, 85, 100] },
  'water.clarity': { clear: [2.4, 1.8, 4], stained: [0.75, 0.45, 1.1], muddy: [0.2, 0.08, 0.35] },
};

/** How low the light is at a time of day. */
const LOW_LIGHT = {
  dawn: 1,
  morning: 0.45,
  midday: 0,
  afternoon: 0.05,
  evening: 1,
  dusk: 1,
  night: 0.8,
} as const;
const LOCAL_HOUR = {
  dawn: 6,
  morning: 9,
  midday: 12,
  afternoon: 15,
  evening: 19,
  dusk: 19,
  night: 22,
} as const;

/** What advice leans on and how the form names it; what is absent after all else becomes a gap. */
const ASKED: readonly { id: AskedSignal; field: string }[] = [
  { id: 'dayLengthH', field: 'date' },
  { id: 'waterC', field: 'water.main' },
  { id: 'waterChange7dC', field: 'water.change7d' },
  { id: 'airMean24hC', field: 'air.mean24h' },
  { id: 'airTrend3dCPerDay', field: 'air.mean3d' },
  { id: 'warmingDays', field: 'air.warmingDays' },
  { id: 'airDrop24hC', field: 'air.drop24h' },
  { id: 'airMinLastNightC', field: 'air.overnightLow' },
  { id: 'rain72Mm', field: 'rain.last72h' },
  { id: 'pocketMinusMainC', field: 'water.pocket' },
  { id: 'level24hM', field: 'level.change24h' },
  { id: 'clarityM', field: 'water.clarity' },
  { id: 'windMs', field: 'wind.speed' },
  { id: 'cloudPct', field: 'sky' },
  { id: 'lowLightShare', field: 'time' },
  { id: 'bankDeg', field: 'bank' },
  { id: 'currentMs', field: 'flow.current' },
];

export interface Understood {
  readonly conditions: Conditions;
  /** The day by the hour, and when the reader fishes. */
  readonly day: WrittenDay;
  /** Where warm and cold water likely meet, m, where the form does not say it. */
  readonly layer?: Thermocline;
  /** What was worked out, guessed or taken for granted. */
  readonly assumptions: readonly Assumption[];
  /** Every number as understood. */
  readonly understood: readonly UnderstoodFigure[];
}

/** Fields in quantities and words, as figures of signals. */
function givenFigures(form: WhatIfForm, asOfMs: number): Map<SignalId, Figure> {
  const figures = new Map<SignalId, Figure>();
  const common = { asOfMs, freshness: 'fresh', source: { code: 'given' } } as const;
  for (const [field, kind] of FIELD_KINDS) {
    const value = fieldOf(form, field);
    const id = SIGNAL_OF[field];
    if (id === undefined || (typeof value !== 'string' && typeof value !== 'number')) continue;
    const word = WORDS[field]?.[String(value)];
    if (word) {
      const [middle, low, high] = word;
      figures.set(id, {
        ...common,
        value: middle,
        low,
        high,
        kind: 'estimated',
        source: { code: 'given', as: String(value) },
      });
      continue;
    }
    const read = readWritten(value, kind, form.units);
    if ('si' in read) figures.set(id, { ...common, value: read.si, kind: 'observed' });
  }
  return figures;
}

/** What the hours of a day say of it as a whole: means and extremes of the fishing hours, of all hours where those are unknown. */
function wholeDay({ hours, fishing }: WrittenDay): readonly [SignalId, number][] {
  const within = hours.filter(
    ({ fromMs, toMs }) => fishing === null || (toMs > fishing.fromMs && fromMs < fishing.toMs),
  );
  const list = (pick: (hour: PlanHour) => number | undefined, from: readonly PlanHour[] = within): number[] =>
    from.flatMap((hour) => pick(hour) ?? []);
  const found: [SignalId, number][] = [];
  const put = (id: SignalId, values: readonly number[], of: (values: readonly number[]) => number): void => {
    if (values.length > 0) found.push([id, of(values)]);
  };
  const most = (values: readonly number[]): number => Math.max(...values);
  const mean = (values: readonly number[]): number =>
    values.reduce((sum, value) => sum + value, 0) / values.length;
  const wind = list(({ windMs }) => windMs);
  const cloud = list(({ cloudPct }) => cloudPct);
  const air = list(({ airC }) => airC, hours);
  const light = list(({ sunAltitudeDeg }) => sunAltitudeDeg);
  put('windMs', wind, mean);
  put('windMaxMs', wind, most);
  put(
    'gustMs',
    list(({ gustMs }) => gustMs),
    most,
  );
  put('cloudPct', cloud, mean);
  put('airMaxTodayC', air, most);
  put('airMinTodayC', air, (values) => Math.min(...values));
  put(
    'thunderPct',
    list(({ thunderPct }) => thunderPct),
    most,
  );
  put(
    'rainNext24Mm',
    list(({ rainMm }) => rainMm, hours),
    (values) => values.reduce((sum, mm) => sum + mm, 0),
  );
  put(
    'generationOn',
    list(({ generationOn }) => generationOn),
    mean,
  );
  if (fishing !== null && cloud.length > 0) {
    const low = within.filter(
      ({ sunAltitudeDeg = 90, cloudPct = 0 }) => sunAltitudeDeg < LOW_SUN_DEG || cloudPct >= DULL_PCT,
    );
    put('lowLightShare', light, () => low.length / within.length);
  }
  const pocket = list(({ pocketMinusMainC }) => pocketMinusMainC);
  put('pocketMinusMainC', pocket, most);
  return found;
}

/** Share of the fishing hours with the sun low or down; undefined where the sun is not known. */
function lowShare({ hours, fishing }: WrittenDay): number | undefined {
  if (fishing === null) return undefined;
  let [low, all] = [0, 0];
  for (const { fromMs, toMs, sunAltitudeDeg } of hours) {
    const spent = Math.min(toMs, fishing.toMs) - Math.max(fromMs, fishing.fromMs);
    if (spent <= 0) continue;
    if (sunAltitudeDeg === undefined) return undefined;
    all += spent;
    if (sunAltitudeDeg < LOW_SUN_DEG) low += spent;
  }
  return all === 0 ? undefined : low / all;
}

/** What is taken where the form names none. */
const USUAL_SPECIES = 'mixed';
const USUAL_WATER = 'highland-reservoir';

/** Low light as the signals have it: the sun under this, or cloud of at least that. */
const LOW_SUN_DEG = 6;
const DULL_PCT = 85;

/**
 * The day as the form describes it: signals with what follows from them, gaps named, nothing invented.
 *
 * @param form   a form that `whatIfSchema` has checked
 * @param asOfMs instant the figures are stamped with; default: noon UTC of the form's date, or 0 without one
 * @returns conditions for `advise`, the assumptions made, and the numbers as understood
 */
export function understand(form: WhatIfForm, asOfMs?: number): Understood {
  const hour = form.time === undefined ? 12 : LOCAL_HOUR[form.time];
  const stamp =
    asOfMs ?? (form.date === undefined ? 0 : Date.parse(`${form.date}T00:00:00Z`) + hour * 3_600_000);
  const figures = givenFigures(form, stamp);
  const put = (id: SignalId, value: number): void => {
    figures.set(id, {
      value,
      kind: 'observed',
      asOfMs: stamp,
      freshness: 'fresh',
      source: { code: 'given' },
    });
  };
  const { generation } = form.flow ?? {};
  if (generation !== undefined) put('generationOn', generation === 'on' || generation === true ? 1 : 0);
  const night = form.rain?.clearColdNightSince;
  if (night !== undefined) put('clearColdNightSinceRain', night ? 1 : 0);
  if (form.time !== undefined) put('lowLightShare', LOW_LIGHT[form.time]);
  const [pocket, main] = [figures.get('pocketC')?.value, figures.get('waterC')?.value];
  if (pocket !== undefined && main !== undefined) put('pocketMinusMainC', pocket - main);
  const latDeg = writtenNumber(form, 'latitude');
  if (latDeg !== undefined) put('latitudeDeg', latDeg);
  const day = writtenDay(form, dayStart(form), latDeg, main);
  // Who names hours of their own is told of their light, and not of noon.
  const low = form.time === undefined && form.fishing !== undefined ? lowShare(day) : undefined;
  if (low !== undefined) put('lowLightShare', low);
  if (form.hours !== undefined) {
    for (const [id, value] of wholeDay(day)) {
      const given = figures.get(id)?.value;
      // The hours that are given may leave out the warmest one, or the coldest.
      const extreme = id === 'airMaxTodayC' ? Math.max : id === 'airMinTodayC' ? Math.min : undefined;
      put(id, extreme === undefined || given === undefined ? value : extreme(value, given));
    }
    const difference = figures.get('pocketMinusMainC')?.value;
    if (difference !== undefined && main !== undefined) put('pocketC', main + difference);
  }

  const assumptions: Assumption[] = [];
  const add = (derived: readonly Derived[]): void => {
    for (const { id, value, low, high, assumed } of derived) {
      figures.set(id, {
        value,
        ...(low === undefined ? {} : { low }),
        ...(high === undefined ? {} : { high }),
        kind: 'estimated',
        asOfMs: stamp,
        freshness: 'fresh',
        source: { code: 'workedOut' },
      });
      if (assumed !== undefined) assumptions.push(assumed);
    }
  };
  const values = (): Values => Object.fromEntries([...figures].map(([id, figure]) => [id, figure.value]));
  const yesterdayC = writtenNumber(form, 'air.yesterday');
  add(deriveLight(form.date, latDeg));
  add(deriveAir({ ...values(), ...(yesterdayC === undefined ? {} : { yesterdayC }) }));
  add(deriveClarity(values()));
  add(deriveRain(values()));
  add(deriveCurrent(values(), sectionOf(form)));
  add(deriveInflow(values()));
  if (form.species === undefined) assumptions.push({ code: 'species', taken: USUAL_SPECIES });
  if (form.date !== undefined && !saysWhenNoonIs(form)) assumptions.push({ code: 'sunTime' });
  if (form.places === undefined) assumptions.push({ code: 'usualPlaces' });
  if (form.waterBody === undefined) assumptions.push({ code: 'waterBody', taken: USUAL_WATER });

  const gaps: Gap[] = ASKED.filter(({ id }) => !figures.has(id)).map(({ id, field }) => ({
    id,
    fact: { code: 'notGiven' as const, signal: id, field },
  }));
  const conditions: Conditions = {
    asOfMs: stamp,
    date: form.date ?? UNDATED,
    zone: 'UTC',
    ...(latDeg === undefined ? {} : { latDeg }),
    species: form.species ?? USUAL_SPECIES,
    waterBody: form.waterBody ?? USUAL_WATER,
    signals: Object.fromEntries(figures),
    gaps,
  };
  const curved = withCurve(day, form, values());
  if (curved !== null) assumptions.push({ code: 'pocketByHour' });
  const layer = day.limitM === undefined ? likelyLayer(conditions) : null;
  if (layer !== null)
    assumptions.push({ code: 'layer', ...layer, of: figures.has('fetchM') ? 'openWater' : 'kind' });
  return {
    conditions,
    // Of a layer that nobody has seen nothing below it is told.
    day: layer === null ? (curved ?? day) : withLimit(curved ?? day, depthLimitM({ oxygenM: layer.depthM })),
    ...(layer === null ? {} : { layer }),
    assumptions,
    understood: understoodOf(figures),
  };
}

/** The day with the pocket by the hour, where one figure of a warmer one is written; null where it is not. */
function withCurve(day: WrittenDay, form: WhatIfForm, values: Values): WrittenDay | null {
  const { pocketMinusMainC: bestK = 0, waterC, airMinLastNightC, cloudPct, ...others } = values;
  const written =
    form.water?.pocket !== undefined && form.hours?.some(({ pocket }) => pocket !== undefined) !== true;
  if (!written || waterC === undefined || bestK <= 0) return null;
  const rain = deriveInflow({
    ...others,
    waterC,
    ...(airMinLastNightC === undefined ? {} : { airMinLastNightC }),
    ...(cloudPct === undefined ? {} : { cloudPct }),
  }).find(({ id }) => id === 'pocketMinusMainC');
  const hours = withPocketCurve(day.hours, {
    bestK,
    rainK: rain?.value ?? 0,
    cloudPct,
    nightMinusWaterK: airMinLastNightC === undefined ? undefined : airMinLastNightC - waterC,
  });
  return { ...day, hours };
}

const withLimit = (day: WrittenDay, limitM: number | undefined): WrittenDay =>
  limitM === undefined ? day : { ...day, limitM };

/** Stands for the date of a form without one; no answer may tell it. */
export const UNDATED = '1970-01-01';

/** Midnight of the form's date, its local time taken as UTC; 0 without a date. */
const dayStart = ({ date }: WhatIfForm): number => (date === undefined ? 0 : Date.parse(`${date}T00:00:00Z`));

/** Flow and section of a river as the form has them, SI. */
const sectionOf = (form: WhatIfForm): Section => ({
  flowM3s: writtenNumber(form, 'flow.discharge'),
  widthM: writtenNumber(form, 'flow.width'),
  depthM: writtenNumber(form, 'flow.depth'),
});

/** SI value of a quantity field; undefined where it is not given. */
function writtenNumber(form: WhatIfForm, field: string): number | undefined {
  const value = fieldOf(form, field);
  const kind = FIELD_KINDS.get(field);
  if (kind === undefined || (typeof value !== 'string' && typeof value !== 'number')) return undefined;
  const read = readWritten(value, kind, form.units);
  return 'si' in read ? read.si : undefined;
}

const isUnwritten = (id: SignalId): id is UnwrittenSignal => UNWRITTEN.some((one) => one === id);

/** @returns those that a reader can be told: the latitude and the turn of the day's length stay unsaid */
function understoodOf(figures: ReadonlyMap<SignalId, Figure>): UnderstoodFigure[] {
  const fieldBySignal = new Map(Object.entries(SIGNAL_OF).map(([field, id]) => [id, field]));
  return [...figures].flatMap(([signal, { value, source }]): UnderstoodFigure[] => {
    if (signal === 'dayLengthChangeHPerWeek') return [];
    const workedOut = source.code === 'workedOut';
    const field = workedOut ? undefined : fieldBySignal.get(signal);
    if (field !== undefined) return [{ field, signal, value }];
    return isUnwritten(signal) ? [{ field: null, signal, workedOut, value }] : [];
  });
}
