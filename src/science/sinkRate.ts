import { GRAVITY_MS2 } from './gravity.ts';

/** Fresh water near 20 degC; over the range of lakes its density and viscosity change a fall by under 3 %. */
const WATER = { densityKgM3: 998, viscosityPaS: 1e-3 };
/** Drag coefficient of the sphere that has the volume of the lure's mass. */
const SPHERE = 0.5;
const NU = WATER.viscosityPaS / WATER.densityKgM3;

export interface SinkingBody {
  /** Mass, kg, above 0. */
  readonly massKg: number;
  /** Volume, m3: what the water carries of it. */
  readonly volumeM3: number;
  /** Drag coefficient times area of all that is not the head, m2. */
  readonly dragM2: number;
}

/** Line that hangs above a falling lure. */
export interface HangingLine {
  readonly lengthM: number;
  readonly diameterM: number;
  /** Weight in water, N/m. */
  readonly weightNPerM: number;
}

/** Line along itself: a long thin cylinder (Glauert-Lighthill far field, from memory). */
function lineDragN(line: HangingLine, speedMs: number): number {
  const slender = (4 * NU * line.lengthM) / (speedMs * (line.diameterM / 2) ** 2);
  return slender <= Math.E
    ? 0
    : (4 * Math.PI * WATER.viscosityPaS * speedMs * line.lengthM) / Math.log(slender);
}

const STEPS = 60;

/**
 * Steady fall of a lure on a slack line: weight in water plus half the line's equals drag of head, body and line.
 *
 * @returns m/s, 0 for what floats. Drag areas of lures are guesses from their size (+-40 %), so a fall is known to
 *   about +-20 %, with trailer and line to +-30 %.
 * @see force balance of a falling body; no measured table of bass-lure sink rates was found
 * @example // 10.6 g jig head with skirt and trailer, 10 cm2: 0.43 m/s (1.4 ft/s)
 */
export function sinkRateMs(body: SinkingBody, line: HangingLine): number {
  const pullN =
    GRAVITY_MS2 * (body.massKg - WATER.densityKgM3 * body.volumeM3) + (line.weightNPerM * line.lengthM) / 2;
  if (pullN <= 0) return 0;
  const radiusM = ((3 * body.volumeM3) / (4 * Math.PI)) ** (1 / 3);
  const dragM2 = body.dragM2 + SPHERE * Math.PI * radiusM ** 2;
  let speedMs = Math.sqrt((2 * pullN) / (WATER.densityKgM3 * dragM2));
  for (let step = 0; step < STEPS; step++) {
    const left = Math.max(0.05 * pullN, pullN - lineDragN(line, speedMs));
    speedMs = (speedMs + Math.sqrt((2 * left) / (WATER.densityKgM3 * dragM2))) / 2;
  }
  return speedMs;
}
