/** The plan of a morning: from the signals' hours to facts that have passed the gate. */
import { type Advice, depthLimitM } from '../advice/index.ts';
import { kindsOfPoint } from '../advice/positions/index.ts';
import { CIVIL_TWILIGHT_DEG } from '../science/index.ts';
import { addDays, HOUR_MS, instantOf, startOfDayMs } from '../units/time/index.ts';
import type { Fishing, PlanHour } from '../advice/plan/index.ts';
import { layerFact, planFacts, type PlanFacts } from '../briefing/index.ts';
import type { LakeConfig, RuleBook } from '../config/index.ts';
import { gatePlaces, gatePlan, worldOf, type Fault } from '../gate/index.ts';
import type { SignalReport, SignalStatement } from '../signals/index.ts';

/**
 * When people fish: the lake's own hours, else civil light. In northern summers there is a night, or an end of one,
 * without civil dusk: then the day itself is the bound. No lake lies where civil light stays away all day.
 */
function fishingOf(report: SignalReport, lake: LakeConfig): LakeDay['fishing'] {
  const { dawnMs, duskMs } = report.sun;
  const { date } = report.conditions;
  if (lake.fishing !== undefined) {
    const { from, to } = lake.fishing;
    return { fromMs: instantOf(date, from, lake.zone), toMs: instantOf(date, to, lake.zone), own: true };
  }
  const [startMs, endMs] = [date, addDays(date, 1)].map((day) => startOfDayMs(day, lake.zone));
  const allNight =
    dawnMs === null &&
    duskMs === null &&
    report.hours.every(({ sunAltitudeDeg }) => sunAltitudeDeg > CIVIL_TWILIGHT_DEG);
  return {
    fromMs: dawnMs ?? startMs ?? 0,
    toMs: duskMs ?? endMs ?? 0,
    own: false,
    ...(allNight ? { lightAllNight: true } : {}),
  };
}

/** The layer stands between two days of the year, or over the turn of the year. */
function standsOn(date: string, { from = '01-01', to = '12-31' }: NonNullable<LakeConfig['layer']>): boolean {
  const day = date.slice(5);
  return from <= to ? day >= from && day <= to : day >= from || day <= to;
}

interface LakeDay {
  readonly hours: readonly PlanHour[];
  readonly fishing: Fishing;
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

export interface PlannedDay {
  readonly plan: PlanFacts;
  /** The ranked places as the gate let them through. */
  readonly positions: Advice['positions'];
  /** Statements that the gate held back. */
  readonly dropped: readonly Fault[];
}

/** The plan's facts for the document, and the statements that the gate held back; null where nothing was planned. */
export function plannedDay(
  advice: Advice,
  report: SignalReport,
  lake: LakeConfig,
  rules: RuleBook,
): PlannedDay | null {
  if (advice.plan === null) return null;
  const day = dayOf(report, lake);
  const world = worldOf(report.conditions, advice.phase, rules, day, {
    limitM: day.limitM,
    places: lake.places,
    named: lake.points.flatMap(kindsOfPoint),
    faces: facesOf(advice, report),
    safety: advice.safety,
  });
  const { plan, faults } = gatePlan(advice.plan, world);
  const places = gatePlaces(advice.positions, plan);
  return {
    plan: withLayer(planFacts(plan), report),
    positions: places.positions,
    dropped: [...faults, ...places.faults],
  };
}

/** Which way the places of the plan are open that stand for one with a name, degrees. */
function facesOf({ plan }: Advice, { lake }: SignalReport): ReadonlyMap<string, number> {
  const sides = new Map(lake?.places.map(({ name, facesDeg }) => [name, facesDeg]));
  return new Map(
    (plan?.blocks ?? []).flatMap(({ place, named }) => {
      const side = named === undefined ? undefined : sides.get(named);
      return side === undefined ? [] : [[place, side] as const];
    }),
  );
}

/** A block that reaches down to where the layer may stand says so, with how far it is known. */
function withLayer(plan: PlanFacts, { layer }: SignalReport): PlanFacts {
  if (layer === undefined) return plan;
  const told: SignalStatement = { code: 'lake.today', told: layerFact(layer) };
  const blocks = plan.blocks.map((block) =>
    block.depthM[1] < layer.lowM ? block : { ...block, layer: { ...told } },
  );
  return { ...plan, blocks };
}
