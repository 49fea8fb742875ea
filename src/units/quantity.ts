/** The kinds of quantity stand in the vocabulary; this room knows how they are written and read. */
export { SI_UNIT, type QuantityKind, type UnitSystem } from '../vocabulary/index.ts';
