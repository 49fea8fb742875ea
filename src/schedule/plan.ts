/** The plan of a morning: from the signals' hours to facts that have passed the gate. */
import { depthLimitM } from '../advice/depthLimit.ts';
import type { PlanHour } from '../advice/plan/index.ts';
import type { NotOffered, OtherPattern, PlanBlock } from '../advice/plan/types.ts';
import type { Advice } from '../advice/types.ts';
import { castFacts, layerFact, said, type PlanFacts, type Statement } from '../briefing/index.ts';
import type { LakeConfig } from '../config/index.ts';
import type { RuleBook } from '../config/rules.ts';
import { gatePlan, worldOf, type Fault } from '../gate/index.ts';
import type { SignalReport, SignalStatement } from '../signals/index.ts';
import { HOUR_MS } from '../units/calendar.ts';
import { instantOf } from '../units/localTime.ts';
import { wordsFor } from '../words/index.ts';

const { plan: words } = wordsFor('en');

/** When people fish: the lake's own hours, else civil light; null where neither is known. */
function fishingOf(report: SignalReport, lake: LakeConfig): LakeDay['fishing'] {
  const { dawnMs, duskMs } = report.sun;
  const { date } = report.conditions;
  if (lake.fishing !== undefined) {
    const { from, to } = lake.fishing;
    return { fromMs: instantOf(date, from, lake.zone), toMs: instantOf(date, to, lake.zone), own: true };
  }
  return dawnMs === null || duskMs === null ? null : { fromMs: dawnMs, toMs: duskMs, own: false };
}

/** The layer stands between two days of the year, or over the turn of the year. */
function standsOn(date: string, { from = '01-01', to = '12-31' }: NonNullable<LakeConfig['layer']>): boolean {
  const day = date.slice(5);
  return from <= to ? day >= from && day <= to : day >= from || day <= to;
}

interface LakeDay {
  readonly hours: readonly PlanHour[];
  readonly fishing: { readonly fromMs: number; readonly toMs: number; readonly own: boolean } | null;
  /** Depth that nothing is told below, m. */
  readonly limitM?: number;
}

/** The day by the hour, when people fish, and how deep they may be told to. */
export function dayOf(report: SignalReport, lake: LakeConfig): LakeDay {
  const layer =
    lake.layer !== undefined && standsOn(report.conditions.date, lake.layer) ? lake.layer : undefined;
  // Fish are met a little into a layer that somebody has seen; of one that is only estimated nothing below it is told.
  const limitM = depthLimitM({
    oxygenM: lake.oxygenDepthM ?? report.layer?.depthM,
    layerM: layer?.depthM,
  });
  return {
    hours: report.hours.map(({ atMs, windDirDeg, sunAltitudeDeg, ...hour }) => ({
      fromMs: atMs,
      toMs: atMs + HOUR_MS,
      sunAltitudeDeg,
      ...(windDirDeg === undefined ? {} : { windFromDeg: windDirDeg }),
      ...(hour.airC === undefined ? {} : { airC: hour.airC }),
      ...(hour.humidityPct === undefined ? {} : { humidityPct: hour.humidityPct }),
      ...(hour.windMs === undefined ? {} : { windMs: hour.windMs }),
      ...(hour.gustMs === undefined ? {} : { gustMs: hour.gustMs }),
      ...(hour.cloudPct === undefined ? {} : { cloudPct: hour.cloudPct }),
      ...(hour.rainMm === undefined ? {} : { rainMm: hour.rainMm }),
      ...(hour.thunderPct === undefined ? {} : { thunderPct: hour.thunderPct }),
      ...(hour.stormSign === undefined ? {} : { stormSign: hour.stormSign }),
      ...(hour.fogCode === undefined ? {} : { fogCode: hour.fogCode }),
      ...(hour.generationOn === undefined ? {} : { generationOn: hour.generationOn }),
      ...(hour.releaseStart === undefined ? {} : { releaseStart: hour.releaseStart }),
      ...(hour.pocketMinusMainC === undefined ? {} : { pocketMinusMainC: hour.pocketMinusMainC }),
    })),
    fishing: fishingOf(report, lake),
    ...(limitM === undefined ? {} : { limitM }),
  };
}

/** The plan's facts for the document, and the statements that the gate held back; null where nothing was planned. */
export function planFacts(
  advice: Advice,
  report: SignalReport,
  lake: LakeConfig,
  rules: RuleBook,
): { readonly plan: PlanFacts; readonly dropped: readonly Fault[] } | null {
  if (advice.plan === null) return null;
  const day = dayOf(report, lake);
  const world = worldOf(report.conditions, advice.phase, rules, day, {
    limitM: day.limitM,
    places: lake.places,
    named: lake.points.map(({ place }) => place),
  });
  const { plan, faults } = gatePlan(advice.plan, world);
  const nameOf = (place: string): Statement => said(rules.text[`place.${place}.name`] ?? place);
  /** A place that reaches down to where the layer may stand says so, with how far it is known. */
  const castOf = (one: PlanBlock): PlanFacts['blocks'][number]['cast'] => {
    const cast = castFacts(one.cast);
    const { layer } = report;
    if (layer === undefined || one.depthM[1] < layer.lowM) return cast;
    const told: SignalStatement = { code: 'lake.today', told: layerFact(layer) };
    return { ...cast, steps: [...cast.steps, told] };
  };
  const block = (one: PlanBlock): PlanFacts['blocks'][number] => ({
    fromMs: one.fromMs,
    toMs: one.toMs,
    from: one.from,
    to: one.to,
    place: one.place,
    name: nameOf(one.place),
    ...(one.named === undefined ? {} : { named: one.named }),
    depthM: [one.depthM[0], one.depthM[1]],
    lureClass: said(one.lure.lureClass),
    weightG: one.lure.weightG,
    because: one.because.map((reason) => said(words.reason(rules.text, reason))),
    giveUp: said(words.giveUp(one.giveUp)),
    ...(one.wayM === undefined ? {} : { wayM: Math.round(one.wayM) }),
    whyChange: one.whyChange === null ? null : said(words.change(rules.text, one.whyChange)),
    cast: castOf(one),
  });
  const pattern = (one: OtherPattern | NotOffered): PlanFacts['second'] =>
    'none' in one
      ? { none: said(words.noPattern(one.none)) }
      : {
          place: one.place,
          name: nameOf(one.place),
          ...(one.named === undefined ? {} : { named: one.named }),
          depthM: [one.depthM[0], one.depthM[1]],
          lureClass: said(one.lureClass),
          because: one.because.map((reason) => said(words.reason(rules.text, reason))),
        };
  return {
    plan: {
      fishing: plan.fishing,
      blocks: plan.blocks.map(block),
      second: pattern(plan.second),
      manyFish: pattern(plan.manyFish),
      bigFish: pattern(plan.bigFish),
      closed: plan.closed.map((closed) => ({ ...closed })),
      beInBy: plan.beInBy === null ? null : { atMs: plan.beInBy.atMs, at: plan.beInBy.at, because: said('') },
      notPlanned: plan.notPlanned === null ? null : said(words.notPlanned(rules.text, plan.notPlanned)),
    },
    dropped: faults,
  };
}
