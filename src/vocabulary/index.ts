/** The vocabulary: one table each, from which types, schemas and lists derive. A new word is one row. */
export { idsOf, isIdOf } from './ids.ts';
export { isPlaceList, misdeclared, type DeclaredPlaces } from './declared.ts';
export { GRADES, type Grade } from './grades.ts';
export { SAFETY_QUANTITIES, SAFETY_QUANTITY_IDS, type SafetyQuantity } from './hazards.ts';
export { LURE, LURE_FAMILIES, LURES, type LureFamily } from './lures.ts';
export { PHASES, type PhaseId } from './phases.ts';
export {
  PLACE,
  PLACES,
  POCKET_WATER,
  hasPocket,
  type CoverWords,
  type PlaceId,
  type PlaceRow,
  type Presence,
} from './places.ts';
export { SI_UNIT, type QuantityKind, type UnitSystem } from './quantities.ts';
export {
  ALERT_SERVICES,
  BASE_IDS,
  BASES,
  GAUGE_SERVICES,
  SERVICE_IDS,
  serviceRow,
  SERVICES,
  WEATHER_SERVICES,
  type AlertService,
  type BaseId,
  type GaugeService,
  type ServiceId,
  type ServiceRow,
  type WeatherService,
} from './services.ts';
export type { GaugeName } from './series.ts';
export { CLOCKS, LANGUAGES, MAIN_LAKE, type ClockStyle, type Language } from './reading.ts';
export { SIGNAL_IDS, SIGNALS, type SignalId } from './signals.ts';
export { SPECIES, type Species } from './species.ts';
export { GAUGE_VARIABLES, VARIABLE, VARIABLES, type GaugeVariable, type Variable } from './variables.ts';
export { RIVER_KINDS, WATER_BODIES, type RiverKind, type WaterBody } from './waters.ts';
