/** The inflow pockets of a lake: what the day is judged on in them, and a report each. */
import { DAY_MS, HOUR_MS, localDayAt } from '../../units/time/index.ts';
import { figure, signalsFrom, sum, type Provenance } from '../figure.ts';
import type { SourceFact } from '../facts.ts';
import type { PocketReport, Signals } from '../types.ts';
import type { SimulatedPocket } from './runs.ts';
import { pocketStory } from './story.ts';

/** Time in which a storm still makes a pulse that the day is judged on, as in the pocket model. */
const PULSE_MS = 72 * HOUR_MS;

type Hour = SimulatedPocket['run']['hours'][number];

/**
 * The hours of the fishing day that are left: what a reader can still meet. None where the forecast ends before them: the
 * warmest of the hours that are known would not be the day's.
 */
function hoursLeft({ run }: SimulatedPocket, fromMs: number, toMs: number): Hour[] {
  const isWhole = run.hours.some(({ atMs }) => atMs > toMs - HOUR_MS);
  return isWhole ? run.hours.filter(({ atMs }) => atMs > fromMs && atMs <= toMs) : [];
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
    const score = standingOut(hour.minusMainC, pocket.run.renewedShare(nowMs - PULSE_MS, nowMs));
    if (!best || score > best.score) best = { pocket, hour, score };
  }
  return best;
}

/** Days in which runoff above this still makes what runs in worth a temperature of its own, mm. */
const RUNOFF_DAYS = 8;
const RUNOFF_MATTERS_MM = 0.5;

/** What the estimate of a pocket rests on besides the weather. */
function sourceOf(
  { basis, used }: SimulatedPocket,
  pocket: string | null,
  nowMs: number,
  zone: string,
): SourceFact {
  const last = used.at(-1);
  const readingAgeDays = last === undefined ? null : localDayAt(nowMs, zone) - localDayAt(last.atMs, zone);
  return { code: 'pocketModel', pocket, coarse: basis === 'class', readingAgeDays };
}

/**
 * Signals of the pocket that stands out most, at its warmest hour between now and dusk.
 *
 * @param from how the weather is known
 */
export function pocketSignals(
  pockets: readonly SimulatedPocket[],
  nowMs: number,
  dawnMs: number,
  duskMs: number,
  from: Provenance,
  zone: string,
): Signals {
  const lead = leadingPocket(pockets, nowMs, Math.max(nowMs, dawnMs), duskMs);
  if (!lead) return {};
  const { pocket, hour } = lead;
  const { signals, put } = signalsFrom({ ...from, source: sourceOf(pocket, pocket.name, nowMs, zone) });
  const shift = (bound: number): number => hour.minusMainC + (bound - hour.surfaceC);
  put('pocketC', hour.surfaceC, hour.lowC, hour.highC);
  put('pocketMinusMainC', hour.minusMainC, shift(hour.lowC), shift(hour.highC));
  put('pocketMeanMinusMainC', hour.meanMinusMainC);
  put('pocketDawnMinusMainC', pocket.run.hours.find((candidate) => candidate.atMs >= nowMs)?.minusMainC);
  put('pocketRenewedShare', Math.min(1, pocket.run.renewedShare(nowMs - PULSE_MS, nowMs)));
  put('pocketBuoyancy', pocket.run.buoyancy);
  put('pocketHalfLifeH', pocket.run.halfLifeH);
  const inflow = pocket.run.hours.flatMap(({ atMs, inflowM3s, inflowC }) =>
    atMs > nowMs - PULSE_MS && atMs <= nowMs && inflowC !== null ? [{ inflowM3s, inflowC }] : [],
  );
  const volume = sum(inflow.map((past) => past.inflowM3s));
  if (volume > 0 && pocket.run.runoffBetweenMm(nowMs - RUNOFF_DAYS * DAY_MS, nowMs) > RUNOFF_MATTERS_MM)
    put('runoffC', sum(inflow.map((past) => past.inflowM3s * past.inflowC)) / volume);
  return signals;
}

/** Days for which a pocket's line says what its last reading moved. */
const THANKS_DAYS = 7;

/**
 * One report a pocket, the one that stands out most first.
 *
 * @param fromMs first hour that a reader can still meet
 */
export function pocketReports(
  pockets: readonly SimulatedPocket[],
  nowMs: number,
  fromMs: number,
  duskMs: number,
  from: Provenance,
  zone: string,
): PocketReport[] {
  const reports = pockets.flatMap((pocket) => {
    const left = hoursLeft(pocket, fromMs, duskMs);
    const hour = warmest(left);
    if (!hour) return [];
    const coldest = left.reduce((worst, one) => (one.minusMainC < worst.minusMainC ? one : worst), hour);
    const sinceMs = nowMs - PULSE_MS;
    const renewed = pocket.run.renewedShare(sinceMs, nowMs);
    const provenance: Provenance = { ...from, source: sourceOf(pocket, null, nowMs, zone) };
    const shift = (bound: number): number => hour.minusMainC + (bound - hour.surfaceC);
    const surfaceC = figure(hour.surfaceC, provenance, hour.lowC, hour.highC);
    const minusMainC = figure(hour.minusMainC, provenance, shift(hour.lowC), shift(hour.highC));
    if (!surfaceC || !minusMainC) return [];
    const lastReadMs = pocket.used.at(-1)?.atMs ?? -Infinity;
    const before =
      lastReadMs > nowMs - THANKS_DAYS * DAY_MS
        ? pocket.runBefore?.hours.find(({ atMs }) => atMs === hour.atMs)
        : undefined;
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
        coldest: { atMs: coldest.atMs, surfaceC: coldest.surfaceC, minusMainC: coldest.minusMainC },
        ...(before ? { lastReading: { atMs: lastReadMs, beforeC: before.surfaceC } } : {}),
        story: pocketStory({ pocket, left, warmest: hour, coldest, sinceMs, nowMs, zone }),
      },
    ];
  });
  return reports.sort(
    (a, b) =>
      standingOut(b.minusMainC.value, b.renewedShare) - standingOut(a.minusMainC.value, a.renewedShare),
  );
}
