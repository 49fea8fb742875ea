import type { SignalId } from '../signals/index.ts';

/** Signals that are changes or differences, with the size, SI, below which they print as none. */
export const STEADY_BELOW: Readonly<Partial<Record<SignalId, number>>> = {
  level24hM: 0.0152,
  level72hM: 0.0152,
  waterChange3dC: 0.28,
  waterChange7dC: 0.28,
  airDrop24hC: 0.28,
  airTrend3dCPerDay: 0.028,
  pocketMinusMainC: 0.28,
};
