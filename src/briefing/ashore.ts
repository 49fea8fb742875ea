import { z } from 'zod';
import type { PlanFacts } from './document/plan.ts';

interface Day {
  readonly safety: { readonly level: number };
  readonly plan?:
    { readonly blocks: readonly unknown[]; readonly closedDay?: boolean | undefined } | null | undefined;
}

/**
 * Whether nobody goes out at all: the highest level of danger, and no hours outside the hazard's own. Thunder from two
 * to six leaves the morning.
 */
export const ashoreAllDay = ({ safety, plan }: Day): boolean =>
  safety.level === 4 && (plan?.blocks.length ?? 0) === 0;

/** Whether no hours are left to fish, for hazards or because they are over: then no place and no lure is told of as if to go. */
export const isKeptIn = (day: Day): boolean =>
  ashoreAllDay(day) || (day.plan?.closedDay === true && day.plan.blocks.length === 0);

const NO_HOURS = z.object({
  code: z.literal('plan.notPlanned'),
  of: z.object({ code: z.enum(['ashore', 'closed', 'over']) }),
});

/** Whether a plan is empty because too little of the day is left, or open. */
export const isClosedDay = ({ notPlanned }: Pick<PlanFacts, 'notPlanned'>): boolean =>
  NO_HOURS.safeParse(notPlanned).success;
