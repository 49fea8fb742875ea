import { readFileSync } from 'node:fs';
import { parse, stringify } from 'yaml';
import { advise } from '../../../src/advice/index.ts';
import type { DayPlan } from '../../../src/advice/plan/types.ts';
import type { Advice } from '../../../src/advice/types.ts';
import { understand, whatIfSchema } from '../../../src/advice/whatIf/index.ts';
import { parseYaml } from '../../../src/config/index.ts';
import { rules, TACKLE, type Form } from '../support.ts';

type Kind = 'place' | 'lure';
type Wanted = Partial<Record<Kind, readonly string[]>>;

/** A whole day with what must and must not be in each part of it. */
export interface Day {
  readonly id: string;
  readonly why: string;
  readonly form: Form;
  readonly parts?: readonly {
    readonly from: string;
    readonly to: string;
    readonly must?: Wanted;
    readonly never?: Wanted;
  }[];
  readonly closed?: { readonly hazard: readonly string[]; readonly from: string; readonly to: string };
  readonly open?: { readonly from: string; readonly to: string };
  readonly blocks?: readonly [number, number];
  readonly none?: string | readonly string[];
  readonly second?: boolean;
  readonly big?: readonly string[];
  readonly beInBy?: string;
  readonly deepest?: string;
}

const file = new URL('../../../fixtures/plan/days.yaml', import.meta.url);
export const days = (parse(readFileSync(file, 'utf8')) as { days: Day[] }).days;

/** Advice with its plan for a form as a reader would write it. */
export function planned(form: Form): Advice {
  const read = parseYaml(stringify(form), 'test', whatIfSchema);
  const { conditions, day } = understand(read);
  const { places } = read;
  return advise(conditions, rules, { tackle: TACKLE, day, ...(places === undefined ? {} : { places }) });
}

export function planOf(form: Form): DayPlan {
  const { plan } = planned(form);
  if (plan === null) throw new Error('no plan');
  return plan;
}

export const minutes = (time: string): number => {
  const [hours, mins] = time.split(':');
  return Number(hours) * 60 + Number(mins);
};

/** Minutes that two stretches of the clock share. */
export const shared = (
  a: { readonly from: string; readonly to: string },
  b: { readonly from: string; readonly to: string },
): number => Math.min(minutes(a.to), minutes(b.to)) - Math.max(minutes(a.from), minutes(b.from));

/** What a plan does that its day does not allow, in words for whoever reads the failure. */
export function faultsOf(day: Day, plan: DayPlan): string[] {
  const faults: string[] = [];
  const count = plan.blocks.length;
  const [least, most] = day.blocks ?? [1, 4];
  if (count < least || count > most) faults.push(`${count} blocks, not ${least} to ${most}`);
  for (const part of day.parts ?? []) {
    const blocks = plan.blocks.filter((block) => shared(block, part) >= 30);
    const told = `${part.from}-${part.to}`;
    for (const kind of ['place', 'lure'] as const) {
      const has = blocks.map((block) => (kind === 'place' ? block.place : block.lure.lureClass));
      const must = part.must?.[kind];
      if (must && !has.some((one) => must.includes(one)))
        faults.push(`${told}: ${has.join(', ')}, none of ${must.join(', ')}`);
      for (const one of has) if (part.never?.[kind]?.includes(one)) faults.push(`${told}: ${one}`);
    }
  }
  const { closed, open } = day;
  if (closed) {
    const over = plan.closed.filter(({ hazard }) => closed.hazard.includes(hazard));
    for (let at = minutes(closed.from); at < minutes(closed.to); at += 15) {
      if (!over.some(({ from, to }) => minutes(from) <= at && at < minutes(to)))
        faults.push(`open at ${Math.floor(at / 60)}:${at % 60}`);
    }
  }
  if (open)
    for (const one of plan.closed)
      if (shared(one, open) > 0) faults.push(`closed ${one.from} by ${one.hazard}`);
  for (const block of plan.blocks)
    for (const one of plan.closed)
      if (shared(block, one) > 0) faults.push(`block ${block.from}-${block.to} in closed hours`);
  if (day.none !== undefined && ![day.none].flat().includes(plan.notPlanned?.code ?? ''))
    faults.push(`not planned: ${plan.notPlanned?.code ?? 'planned'}`);
  if (day.second === true && 'none' in plan.second) faults.push(`no second: ${plan.second.none.code}`);
  if (day.big) {
    const place = 'none' in plan.bigFish ? plan.bigFish.none.code : plan.bigFish.place;
    if (!day.big.includes(place)) faults.push(`big fish: ${place}`);
  }
  if (day.beInBy !== undefined && minutes(plan.beInBy?.at ?? '24:00') > minutes(day.beInBy))
    faults.push(`be in by ${plan.beInBy?.at ?? 'never'}`);
  if (day.deepest !== undefined) {
    const metres = Number.parseFloat(day.deepest) * 0.3048;
    for (const { depthM, place } of plan.blocks)
      if (depthM[1] > metres + 0.01) faults.push(`${place} to ${depthM[1]} m`);
  }
  return faults;
}
