export { directionDeg as directionOf } from './clock.ts';
export { type WrittenKind } from './quantity.ts';
export type { Assumption, FormFault, UnderstoodFigure, UnwrittenSignal } from './facts.ts';
export { faultOf, unitsOfAnswer, whatIfSchema, type WhatIfForm } from './schema.ts';
export { whatIfTemplate } from './template.ts';
export { UNDATED, understand, type Understood } from './understand.ts';
export { varied, type VariedStep } from './vary.ts';
