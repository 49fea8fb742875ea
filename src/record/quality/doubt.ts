import { z } from 'zod';

/** Why a value is not believed: a code with the numbers that its sentence needs, SI. */
export const doubtSchema = z.discriminatedUnion('code', [
  /** The service itself marked the value, in its own words. */
  z.object({ code: z.literal('doubt.stated'), text: z.string() }),
  /** Outside what any instrument in working order gives, in the variable's own unit. */
  z.object({ code: z.literal('doubt.impossible'), low: z.number(), high: z.number() }),
  /** So many values of a model's series are impossible that none of it counts; their share, 0 to 1. */
  z.object({ code: z.literal('doubt.wrongSeries'), share: z.number() }),
  /** The gauge stamps values later than now: the ages of all that it sent with them are not known. */
  z.object({ code: z.literal('doubt.clock'), aheadMs: z.number() }),
  /** The service gave two values for the instant, this far apart in the variable's own unit. */
  z.object({ code: z.literal('doubt.twoValues'), apart: z.number() }),
  z.object({ code: z.literal('doubt.twoDepths') }),
  z.object({ code: z.literal('doubt.spike') }),
  /** A newest value that jumped: the only doubt that the next value can lift. */
  z.object({ code: z.literal('doubt.unconfirmed') }),
  z.object({ code: z.literal('doubt.stuck'), hours: z.number() }),
  z.object({ code: z.literal('doubt.duplicateDay') }),
  z.object({ code: z.literal('doubt.dryRange'), rangeK: z.number() }),
  z.object({ code: z.literal('doubt.tracksAir') }),
  /** A level after a step that no water makes: another unit, or another zero that has not lasted yet. */
  z.object({ code: z.literal('doubt.levelStep'), stepM: z.number() }),
  /** The zero of the gauge was moved afterwards; the step is null for a day's mean. */
  z.object({ code: z.literal('doubt.datumJump'), stepM: z.number().nullable() }),
]);
export type Doubt = Readonly<z.infer<typeof doubtSchema>>;

/** Doubts that are the same finding, whatever number each value has in it. */
export function sameDoubt(a: Doubt | undefined, b: Doubt | undefined): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}
