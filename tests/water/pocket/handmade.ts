import type { PocketError, PocketRun } from '../../../src/water/pocket/index.ts';
import { HOUR } from './weather.ts';

/** Books of heat and water in which nothing has happened yet, of a pocket of one cubic metre. */
export const emptyBooks = () => ({
  heatStartJ: 0,
  heatEndJ: 0,
  heatInflowJ: 0,
  heatLakeJ: 0,
  heatSurfaceJ: 0,
  volumeM3: 1,
  volumeInM3: 0,
  volumeOutM3: 0,
});

export const START_MS = Date.UTC(2026, 2, 4);
/** Standard deviations in the half-width of an 80 % interval of the normal distribution (tables: 1.2816). */
export const Z80 = 1.2816;

/** A run whose errors are known exactly: 10 degC in both layers at every hour, beside a lake of 10. */
export function handmade(
  count: number,
  error: Partial<PocketError> & { readonly keepEach?: number } = {},
): PocketRun {
  const { keepEach = 1, ...given } = error;
  const whole: PocketError = {
    floorK: 1,
    doubts: [],
    keep: new Array<number>(count).fill(keepEach),
    depthM: 1.5,
    ...given,
  };
  return {
    hours: Array.from({ length: count }, (_, i) => ({
      atMs: START_MS + (i + 1) * HOUR,
      surfaceC: 10,
      meanC: 10,
      minusMainC: 0,
      meanMinusMainC: 0,
      inflowM3s: 0,
      inflowC: null,
      lowC: 10 - whole.floorK,
      highC: 10 + whole.floorK,
    })),
    renewedShare: () => 0,
    buoyancy: null,
    halfLifeH: null,
    runoffMm: 0,
    runoffBetweenMm: () => 0,
    rainBetweenMm: () => 0,
    effects: { rainFallen: null, rainAhead: null, baseFlow: null },
    books: emptyBooks(),
    error: whole,
  };
}
