export type * from './types.ts';
export { lakeById, loadConfig } from './load.ts';
export { configSchema } from './schema.ts';
export { FIELD_WORDS } from './fieldWords.ts';
export { jsonSchemaOf } from './jsonSchema.ts';
export { nearest } from './nearest.ts';
export { parseYaml } from './yaml.ts';
export { shown } from './letters.ts';
export { MOST_LAT } from './place.ts';
export { problemWords } from './problemWords.ts';
export type { RuleText } from './ruleText.ts';
export { type RuleBook, loadRules } from './rules.ts';
export { type FishVerdict, agreement } from './rulesFish.ts';
export { HOUR_REASONS, type HourReason, type HourRules, type HourSignal } from './rulesHours.ts';
export {
  COLOURS,
  FORMS,
  type CoverKind,
  type LureBook,
  type LureClass,
  type LurePlace,
  type LureSettings,
} from './rulesLures.ts';
export {
  type ComparedTruth,
  type Curve,
  HOUR_NUMBERS,
  type PhaseRules,
  type PlaceRule,
  type PositionRules,
  type Truth,
  type WhenRule,
} from './rulesPlaces.ts';
export {
  type CombinationRow,
  type HazardClass,
  type HazardRow,
  SAFETY_QUANTITIES,
  type SafetyQuantity,
  type SafetyTable,
} from './rulesSafety.ts';
export { textIn } from './text.ts';
export { goneWords, movedWords, sortedThresholds, tunableNumbers, tuneRules } from './tune.ts';
