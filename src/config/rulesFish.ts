import { z } from 'zod';
import { SPECIES } from '../vocabulary/index.ts';

/** Below 1 the catch falls where the rule gives more; the interval is 5 to 95 %. */
const verdict = z.strictObject({
  rule: z.string().min(1),
  species: z.enum(SPECIES),
  /** Events in which it spoke. */
  n: z.number().int().positive(),
  ratio: z.number().min(0),
  low: z.number().min(0),
  high: z.number().min(0),
  /** Share of pairs in order without it. */
  without: z.number().min(0).max(1),
});

/** What sampled fish say of the rules: `fish.yaml`, made by `bench/fish-score.ts --verdicts`. */
export const fishVerdictsSchema = z.strictObject({
  schema: z.literal('thawline-fish/1'),
  /** Key of the sources. */
  source: z.string().min(1),
  events: z.number().int().positive(),
  /** Share of pairs in order with all rules, with those of the trade alone, and on years left out. */
  whole: z.partialRecord(z.enum(SPECIES), z.number().min(0).max(1)),
  trade: z.partialRecord(z.enum(SPECIES), z.number().min(0).max(1)).optional(),
  unseen: z.partialRecord(z.enum(SPECIES), z.number().min(0).max(1)),
  verdicts: z.array(verdict),
});

export type FishVerdicts = z.infer<typeof fishVerdictsSchema>;
export type FishVerdict = FishVerdicts['verdicts'][number];

/** Whether fish agree with a rule: its whole interval lies on one side of "no difference", or it does not. */
export const agreement = ({ low, high }: Pick<FishVerdict, 'low' | 'high'>): 'agrees' | 'against' | 'open' =>
  low > 1 ? 'agrees' : high < 1 ? 'against' : 'open';
