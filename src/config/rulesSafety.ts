import { z } from 'zod';
import { PLACES, SAFETY_QUANTITY_IDS } from '../vocabulary/index.ts';
import { ruleWords } from './ruleText.ts';

export { SAFETY_QUANTITIES, type SafetyQuantity } from '../vocabulary/index.ts';

const level = z.union([z.literal(1), z.literal(2), z.literal(3), z.literal(4)]);

const LONGEST_SENTENCE = 25;
const RESERVED = /\b(advisory|watch|warning)\b/i;

/** Text we print as our own: short sentences, and none of the words that name official products. */
const statement = ruleWords()
  .min(1)
  .refine(
    (text) => text.split(/[.!?](?:\s|$)/).every((part) => part.trim().split(/\s+/).length < LONGEST_SENTENCE),
    `a sentence has ${LONGEST_SENTENCE} words or more; split it`,
  )
  .refine(
    (text) => !RESERVED.test(text),
    'advisory, watch and warning name official statements; use another word',
  );

const words = {
  headline: statement,
  what: statement,
  do: statement,
};

/** What a hazard means beside its level. */
const behaviour = {
  /** Hazards of one thing: only the severest is told, with the others' numbers. */
  group: z.string().min(1).optional(),
  /**
   * Whether its hours are closed to fishing at a serious level; cold water, ice and fog close none. One that stands all
   * day closes all of it, unless it names the places that it closes.
   */
  closes: z.boolean().optional(),
  /** It keeps boats to sheltered water: while it stands, at whatever level, the wind speaks for no bank. */
  keepsToLee: z.boolean().optional(),
  /** From a serious level on its hours last this much longer than the number stands, minutes: what made it may still be near. */
  clearMin: z.number().min(0).max(180).optional(),
  /** Kinds of place that are closed while it stands at a serious level. */
  closesPlaces: z.array(z.enum(PLACES)).optional(),
  /** Further ones of running water: rivers and tailwaters. */
  closesInRivers: z.array(z.enum(PLACES)).optional(),
};

const hazard = z
  .strictObject({
    id: z.string().min(1),
    quantity: z.enum(SAFETY_QUANTITY_IDS),
    /** A class applies when the number lies below its `at`, or at and above it. */
    direction: z.enum(['below', 'above']),
    label: ruleWords().regex(/^[A-Z ]+$/, 'labels are in capitals'),
    where: statement,
    when: statement,
    source: z.string().min(1),
    ...behaviour,
    /** Its number in a few words, for the block of a severer hazard of its group. */
    brief: statement.optional(),
    /** Another hazard that says no more than this one; it is left out while this one stands at its level or above. */
    covers: z.string().optional(),
    /** Local hours that no place is proposed for from level 3 up, [first, after the last]; `when` in numbers. */
    avoidHours: z.tuple([z.number().min(0).max(24), z.number().min(0).max(24)]).optional(),
    /**
     * What is said when the number is unknown. From level 2 it is a hazard of its own. With `presume` it also counts
     * in combinations: water nobody measured is taken for cold when a strong wind is known to blow.
     */
    unknown: z
      .strictObject({ level, sentence: statement, do: statement.optional(), presume: z.boolean().optional() })
      .optional(),
    classes: z.array(z.strictObject({ name: z.string(), at: z.number(), level, ...words })).min(1),
  })
  .refine(
    ({ direction, classes }) =>
      classes.every((entry, index) => {
        const milder = classes[index + 1];
        if (milder === undefined) return true;
        return (
          (direction === 'below' ? entry.at < milder.at : entry.at > milder.at) && entry.level >= milder.level
        );
      }),
    'classes go from the severest to the mildest, and a milder class may not have a higher level',
  );

const condition = z.union([
  z.strictObject({ hazard: z.string(), level }),
  z.strictObject({ quantity: z.enum(SAFETY_QUANTITY_IDS), above: z.number() }),
  z.strictObject({ quantity: z.enum(SAFETY_QUANTITY_IDS), below: z.number() }),
  /** Holds while the number is not known: for what stands in for it. */
  z.strictObject({ quantity: z.enum(SAFETY_QUANTITY_IDS), unknown: z.literal(true) }),
]);

const combination = z.strictObject({
  id: z.string().min(1),
  /** All must hold. */
  all: z.array(condition).min(2),
  level,
  label: ruleWords().regex(/^[A-Z ]+$/, 'labels are in capitals'),
  where: statement,
  when: statement,
  source: z.string().min(1),
  ...behaviour,
  ...words,
});

const floodWords = z.strictObject({ level, headline: statement, what: statement, do: statement });

export const safetyRulesSchema = z
  .strictObject({
    schema: z.literal('thawline-safety/1'),
    levels: z.strictObject({ 1: ruleWords(), 2: ruleWords(), 3: ruleWords(), 4: ruleWords() }),
    /** Taken for the wind chill when the wind is unknown. */
    assumed: z.strictObject({ windMs: z.number().min(0) }),
    /**
     * Kinds of place on open water. On a day with serious wind or waves none of them is offered beside the plan, in
     * whichever hours those come.
     */
    openWater: z.array(z.enum(PLACES)).default([]),
    hazards: z.array(hazard).min(1),
    combinations: z.array(combination),
    flood: z.strictObject({
      label: ruleWords(),
      where: statement,
      when: statement,
      source: z.string(),
      closes: behaviour.closes,
      closesPlaces: behaviour.closesPlaces,
      closesInRivers: behaviour.closesInRivers,
      unknown: statement,
      categories: z.strictObject({
        action: floodWords,
        minor: floodWords,
        moderate: floodWords,
        major: floodWords,
      }),
    }),
    official: z.strictObject({
      /** Level by the issuer's own severity word; any other word counts as `other`. */
      severities: z.record(z.string(), level),
      other: level,
      where: statement,
      do: statement,
      unchecked: statement,
    }),
    deferTo: ruleWords().min(1),
  })
  .superRefine((table, context) => {
    const known = new Set(table.hazards.map((entry) => entry.id));
    table.hazards.forEach(({ covers }, index) => {
      if (covers !== undefined && !known.has(covers))
        context.addIssue({
          code: 'custom',
          path: ['hazards', index, 'covers'],
          message: `there is no hazard "${covers}"`,
        });
    });
    table.combinations.forEach((entry, index) => {
      for (const part of entry.all) {
        if ('hazard' in part && !known.has(part.hazard)) {
          context.addIssue({
            code: 'custom',
            path: ['combinations', index, 'all'],
            message: `"${part.hazard}" is no hazard of this table; use one of ${[...known].join(', ')}`,
          });
        }
      }
    });
  });

export type SafetyTable = z.infer<typeof safetyRulesSchema>;
export type HazardRow = SafetyTable['hazards'][number];
export type HazardClass = HazardRow['classes'][number];
export type CombinationRow = SafetyTable['combinations'][number];
