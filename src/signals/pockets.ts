/** The inflow pockets of a lake, hour by hour, and what the day is judged on in them. */
import type { LakeConfig, PocketConfig } from '../config/types.ts';
import { classPocket, simulatePocket, type PocketHour, type PocketShape } from '../water/pocket/index.ts';
import { DAY_MS, HOUR_MS, localDate } from './calendar.ts';
import { figure, sum, type Provenance } from './figure.ts';
import { hoursWithin } from './hourly.ts';
import type { LakeTable } from './lake.ts';
import type { Figure, PocketReport, SignalId } from './types.ts';
import type { WeatherTable } from './weather.ts';

export type PocketRun = ReturnType<typeof simulatePocket>;

export interface SimulatedPocket {
  readonly id: string;
  readonly name: string;
  readonly basis: 'configured' | 'class';
  readonly run: PocketRun;
}

/** Days before `nowMs` from which a pocket is simulated: three half-lives of the widest pocket and more. */
const SPIN_UP_DAYS = 8;

function shapeOf(
  pocket: PocketConfig,
  lake: LakeConfig,
): { shape: PocketShape; basis: 'configured' | 'class' } {
  const coarse = classPocket(
    (pocket.areaM2 ?? 0) > 20_000 ? 'medium' : 'small',
    pocket.meanDepthM,
    pocket.bankDeg ?? lake.bankDeg,
  );
  const known =
    pocket.areaM2 !== undefined && pocket.meanDepthM !== undefined && pocket.watershedKm2 !== undefined;
  return {
    basis: known ? 'configured' : 'class',
    shape: {
      ...coarse,
      latDeg: lake.latDeg,
      landCover: pocket.landCover,
      ...(pocket.areaM2 === undefined ? {} : { areaM2: pocket.areaM2 }),
      ...(pocket.meanDepthM === undefined ? {} : { meanDepthM: pocket.meanDepthM }),
      ...(pocket.watershedKm2 === undefined ? {} : { watershedKm2: pocket.watershedKm2 }),
      // Curve numbers of TR-55 table 2-2, good condition, soil group B to C.
      curveNumber: pocket.curveNumber ?? { wooded: 63, mixed: 70, pasture: 72, urban: 83 }[pocket.landCover],
      ...(pocket.mouthWidthM === undefined ? {} : { mouthWidthM: pocket.mouthWidthM }),
      ...(pocket.channelLengthM === undefined ? {} : { channelLengthM: pocket.channelLengthM }),
      ...(pocket.slope === undefined ? {} : { slope: pocket.slope }),
    },
  };
}

/** Hours without a gap that the pocket model can run on: air, humidity, wind, sun, cloud and rain must all be known. */
function pocketHours(
  table: WeatherTable,
  lake: LakeConfig,
  waters: LakeTable,
  fromMs: number,
  toMs: number,
): PocketHour[] {
  const hours: PocketHour[] = [];
  for (let atMs = Math.ceil(fromMs / HOUR_MS) * HOUR_MS; atMs <= toMs; atMs += HOUR_MS) {
    const air = table.air.get(atMs)?.value;
    const water = waters.byDate.get(localDate(atMs - 1, lake.zone))?.waterC;
    const rain = table.rain.get(atMs)?.value;
    const sun = table.shortwave.get(atMs)?.value;
    const humidity = table.humidity.get(atMs)?.value;
    const wind = table.wind.get(atMs)?.value;
    const cloud = table.cloud.get(atMs)?.value;
    if ([air, water, rain, sun, humidity, wind, cloud].some((value) => value === undefined)) {
      // A gap in the past restarts the run after it; a gap ahead ends it.
      if (atMs <= toMs - 3 * DAY_MS) hours.length = 0;
      else break;
      continue;
    }
    hours.push({
      atMs,
      airC: air ?? 0,
      humidityPct: Math.min(100, Math.max(0, humidity ?? 0)),
      rainMm: Math.max(0, rain ?? 0),
      windMs: wind ?? 0,
      shortwaveWm2: sun ?? 0,
      cloudPct: Math.min(100, Math.max(0, cloud ?? 0)),
      lakeC: water ?? 0,
    });
  }
  return hours;
}

export function simulatePockets(
  table: WeatherTable,
  lake: LakeConfig,
  waters: LakeTable,
  asOfMs: number,
  aheadDays: number,
): SimulatedPocket[] {
  const fromMs = asOfMs - SPIN_UP_DAYS * DAY_MS;
  const hours = pocketHours(table, lake, waters, fromMs, asOfMs + aheadDays * DAY_MS);
  const first = hours[0];
  if (!first || first.atMs > asOfMs - 2 * DAY_MS) return [];
  const before = hoursWithin(table.rain, first.atMs - 5 * DAY_MS, first.atMs);
  const antecedent5dRainMm = before.length >= 100 ? sum(before.map((hour) => hour.value)) : undefined;
  // A pond-like soil temperature: the mean air of the two weeks before, which the top soil follows.
  const fortnight = hoursWithin(table.air, asOfMs - 14 * DAY_MS, asOfMs).map((hour) => hour.value);
  const soilC = fortnight.length > 48 ? Math.max(1, sum(fortnight) / fortnight.length) : undefined;
  const pockets: readonly PocketConfig[] =
    lake.pockets.length > 0
      ? lake.pockets
      : [{ id: 'typical', name: 'A typical small inflow pocket', landCover: 'mixed' }];
  return pockets.map((pocket) => {
    const { shape, basis } = shapeOf(pocket, lake);
    const run = simulatePocket(shape, hours, {
      basis,
      asOfMs,
      ...(antecedent5dRainMm === undefined ? {} : { antecedent5dRainMm }),
      ...(soilC === undefined ? {} : { soilC }),
    });
    return { id: pocket.id, name: pocket.name, basis, run };
  });
}

type Hour = PocketRun['hours'][number];

/** The hours of the fishing day that are left: what a reader can still meet. */
function hoursLeft(pocket: SimulatedPocket, fromMs: number, toMs: number): Hour[] {
  return pocket.run.hours.filter((hour) => hour.atMs > fromMs && hour.atMs <= toMs);
}

function warmest(hours: readonly Hour[]): Hour | undefined {
  return hours.reduce<Hour | undefined>(
    (best, hour) => (!best || hour.minusMainC > best.minusMainC ? hour : best),
    undefined,
  );
}

/** Kelvin of warmth that a wholly renewed pocket counts for beside its temperature: running water draws fish that sun alone does not. */
const RENEWAL_K = 2;

function standingOut(minusMainC: number, renewedShare: number): number {
  return minusMainC + (minusMainC > 0 ? RENEWAL_K * Math.min(1, renewedShare) : 0);
}

/** The pocket that stands out most from the lake today: by its warmest hour, and by how much of it ran in. */
export function leadingPocket(
  pockets: readonly SimulatedPocket[],
  nowMs: number,
  fromMs: number,
  toMs: number,
): { pocket: SimulatedPocket; hour: Hour } | null {
  let best: { pocket: SimulatedPocket; hour: Hour; score: number } | null = null;
  for (const pocket of pockets) {
    const hour = warmest(hoursLeft(pocket, fromMs, toMs));
    if (!hour) continue;
    const score = standingOut(hour.minusMainC, pocket.run.renewedShare(nowMs - 72 * HOUR_MS, nowMs));
    if (!best || score > best.score) best = { pocket, hour, score };
  }
  return best;
}

export function pocketSignals(
  pockets: readonly SimulatedPocket[],
  nowMs: number,
  dawnMs: number,
  duskMs: number,
  from: Provenance,
): Partial<Record<SignalId, Figure>> {
  const lead = leadingPocket(pockets, nowMs, Math.max(nowMs, dawnMs), duskMs);
  if (!lead) return {};
  const { pocket, hour } = lead;
  const provenance: Provenance = {
    ...from,
    source: `pocket model, ${pocket.name}${pocket.basis === 'class' ? ' (coarse class)' : ''}`,
  };
  const signals: Partial<Record<SignalId, Figure>> = {};
  const put = (id: SignalId, value: number | null | undefined, low?: number, high?: number): void => {
    const made = figure(value, provenance, low, high);
    if (made) signals[id] = made;
  };
  const shift = (bound: number): number => hour.minusMainC + (bound - hour.surfaceC);
  put('pocketC', hour.surfaceC, hour.lowC, hour.highC);
  put('pocketMinusMainC', hour.minusMainC, shift(hour.lowC), shift(hour.highC));
  put('pocketMeanMinusMainC', hour.meanMinusMainC);
  put('pocketDawnMinusMainC', pocket.run.hours.find((candidate) => candidate.atMs >= nowMs)?.minusMainC);
  put('pocketRenewedShare', Math.min(1, pocket.run.renewedShare(nowMs - 72 * HOUR_MS, nowMs)));
  put('pocketBuoyancy', pocket.run.buoyancy);
  put('pocketHalfLifeH', pocket.run.halfLifeH);
  const inflow = pocket.run.hours.filter(
    (past) => past.atMs > nowMs - 72 * HOUR_MS && past.atMs <= nowMs && past.inflowC !== null,
  );
  const volume = sum(inflow.map((past) => past.inflowM3s));
  if (volume > 0 && pocket.run.runoffMm > 0.5)
    put('runoffC', sum(inflow.map((past) => past.inflowM3s * (past.inflowC ?? 0))) / volume);
  return signals;
}

function sentenceOf(pocket: SimulatedPocket, hour: Hour, renewed: number): string {
  const size = Math.abs(hour.minusMainC);
  const coarse = pocket.basis === 'class' ? ' Coarse class: its watershed or depth is not configured.' : '';
  const why =
    renewed >= 0.15
      ? `runoff of the last three days renewed about {{share:${(Math.max(5, Math.round((Math.min(1, renewed) * 100) / 5) * 5) / 100).toFixed(2)}}} of its water`
      : hour.minusMainC > 0
        ? 'sun on shallow water; hardly any runoff reached it'
        : 'shallow water that cools at night; hardly any runoff reached it';
  if (size < 0.4) return `About the temperature of the main lake.${coarse}`;
  return `{{temperatureDifference:${size.toFixed(2)}}} ${hour.minusMainC > 0 ? 'warmer' : 'colder'} than the main lake at its warmest hour: ${why}.${coarse}`;
}

/** One report a pocket, the one that stands out most first. */
export function pocketReports(
  pockets: readonly SimulatedPocket[],
  nowMs: number,
  duskMs: number,
  from: Provenance,
): PocketReport[] {
  const reports = pockets.flatMap((pocket) => {
    const hour = warmest(hoursLeft(pocket, nowMs, duskMs));
    if (!hour) return [];
    const renewed = pocket.run.renewedShare(nowMs - 72 * HOUR_MS, nowMs);
    const provenance: Provenance = {
      ...from,
      source: `pocket model${pocket.basis === 'class' ? ' (coarse class)' : ''}`,
    };
    const shift = (bound: number): number => hour.minusMainC + (bound - hour.surfaceC);
    const surfaceC = figure(hour.surfaceC, provenance, hour.lowC, hour.highC);
    const minusMainC = figure(hour.minusMainC, provenance, shift(hour.lowC), shift(hour.highC));
    if (!surfaceC || !minusMainC) return [];
    return [
      {
        id: pocket.id,
        name: pocket.name,
        basis: pocket.basis,
        surfaceC,
        minusMainC,
        renewedShare: Math.min(1, renewed),
        buoyant: pocket.run.buoyancy === null ? null : pocket.run.buoyancy > 0,
        halfLifeH: pocket.run.halfLifeH,
        warmestHourMs: hour.atMs,
        sentence: sentenceOf(pocket, hour, renewed),
      },
    ];
  });
  return reports.sort(
    (a, b) =>
      standingOut(b.minusMainC.value, b.renewedShare) - standingOut(a.minusMainC.value, a.renewedShare),
  );
}
