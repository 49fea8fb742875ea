/** The plan of a morning: from the signals' hours to facts that have passed the gate. */
import type { PlanHour } from '../advice/plan/index.ts';
import type { NotOffered, OtherPattern, PlanBlock } from '../advice/plan/types.ts';
import type { Advice } from '../advice/types.ts';
import { castFacts, said, type PlanFacts, type Statement } from '../briefing/index.ts';
import type { LakeConfig } from '../config/index.ts';
import type { RuleBook } from '../config/rules.ts';
import { gatePlan, worldOf, type Fault } from '../gate/index.ts';
import type { SignalReport } from '../signals/index.ts';
import { HOUR_MS } from '../units/calendar.ts';
import { wordsFor } from '../words/index.ts';

const { plan: words } = wordsFor('en');

/** The day by the hour, and civil light for the fishing hours. */
export function dayOf(report: SignalReport): {
  readonly hours: readonly PlanHour[];
  readonly fishing: { readonly fromMs: number; readonly toMs: number; readonly own: false } | null;
} {
  const { dawnMs, duskMs } = report.sun;
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
      ...(hour.pocketMinusMainC === undefined ? {} : { pocketMinusMainC: hour.pocketMinusMainC }),
    })),
    fishing: dawnMs === null || duskMs === null ? null : { fromMs: dawnMs, toMs: duskMs, own: false },
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
  const world = worldOf(report.conditions, advice.phase, rules, dayOf(report), {
    named: lake.points.map(({ place }) => place),
  });
  const { plan, faults } = gatePlan(advice.plan, world);
  const nameOf = (place: string): Statement => said(rules.text[`place.${place}.name`] ?? place);
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
    whyChange: one.whyChange === null ? null : said(words.change(rules.text, one.whyChange)),
    cast: castFacts(one.cast),
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
