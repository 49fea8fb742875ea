export { SI_UNIT, type QuantityKind, type UnitSystem } from './quantity.ts';
export { displayUnit, formatNumber, formatQuantity, type DisplayUnit } from './display.ts';
export { EXIT, ThawlineError, type ErrorCode } from './errors.ts';
export { expandQuantities, inert, quantity, quantityRange } from './placeholder.ts';
export { outsideLine, outsideText, type Outside } from './outside.ts';
export { trimEndOf, trimOf } from './trim.ts';
export { mailAddress } from './mailAddress.ts';
export { betweenDeg, eighthOf, meanBearingDeg } from './compass.ts';
