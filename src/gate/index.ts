export { disagreements, type Claim } from './claims.ts';
export { gatePlan, type Gated } from './plan.ts';
export { CHECKS, type Check, type Fault, type World } from './types.ts';
export { worldOf } from './world.ts';
export { gatePlaces, type GatedPlaces } from './places.ts';
