export { SI_UNIT, type QuantityKind, type UnitSystem } from './quantity.ts';
export { displayUnit, formatNumber, formatQuantity, type DisplayUnit } from './display.ts';
export { EXIT, ThawlineError, type ErrorCode } from './errors.ts';
export { expandQuantities, quantity, quantityRange } from './placeholder.ts';
