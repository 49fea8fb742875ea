import type { Kalman } from './kalman.ts';

/** The misfit of a free run as a Kalman filter sees it: what lakes and rivers ask of theirs alike. */
export class Misfit {
  /** @param forcingState state that holds the error of missing or forecast weather */
  constructor(
    protected readonly kalman: Kalman,
    private readonly forcingState: number,
  ) {}

  get misfitC(): number {
    return this.kalman.expected;
  }

  /** Variance of the misfit, K2, before the adaptive scale. */
  get misfitVar(): number {
    return this.kalman.variance;
  }

  /** The part of it that a start, bridged days or a forecast have left, K2. */
  get forcingVar(): number {
    return this.kalman.varianceOf(this.forcingState);
  }

  /** Keeps today's misfit in a place, to be corrected by what is read later. */
  remember(place: number): void {
    this.kalman.remember(place);
  }

  /** A kept misfit as it is thought of now, K, and its variance, K2. */
  remembered(place: number): { readonly value: number; readonly variance: number } {
    return this.kalman.remembered(place);
  }
}
