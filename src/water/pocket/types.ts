/** Weather and main-lake temperature of the hour that ends at atMs, as services label their hourly means and sums. */
export interface PocketHour {
  readonly atMs: number;
  readonly airC: number;
  readonly humidityPct: number;
  readonly rainMm: number;
  /** Wind at 10 m over open water, m/s. */
  readonly windMs: number;
  readonly shortwaveWm2: number;
  readonly cloudPct: number;
  /** Main lake, daily mean near the surface. */
  readonly lakeC: number;
}

export interface PocketOptions {
  /** `class` widens the interval: watershed and depth are a coarse guess. */
  readonly basis: 'configured' | 'class';
  /** Rain of the five days before the first hour, mm; unknown counts as average moisture. */
  readonly antecedent5dRainMm?: number;
  /** Temperature of the upper soil; unknown is taken as the mean air of the three days before, never below 0. */
  readonly soilC?: number;
  /** Suspended load of the storm inflow, mg/L; unknown is guessed from runoff intensity and land cover. */
  readonly sedimentMgL?: number;
  /**
   * Instant the half-life and the buoyancy are wanted for: they then speak of the storm water of the 72 hours before
   * it, not of rain that is only forecast. Without it they speak of the whole series.
   */
  readonly asOfMs?: number;
  /** The same hours with the sun of open ground, where the surroundings keep some from the pocket: tells what they do. */
  readonly openHours?: readonly PocketHour[];
  /** Steps of the solver per hour, 1 to 3600, default 12. */
  readonly stepsPerHour?: number;
}

/** State at the end of one hour. */
export interface PocketState {
  readonly atMs: number;
  readonly surfaceC: number;
  readonly meanC: number;
  readonly minusMainC: number;
  readonly meanMinusMainC: number;
  /** Storm runoff and base flow, mean of the hour. */
  readonly inflowM3s: number;
  /** Temperature of that inflow; null when nothing flows. */
  readonly inflowC: number | null;
  /** 80 % interval of the surface temperature, judged, not fitted. */
  readonly lowC: number;
  readonly highC: number;
}

/** What went through the pocket, so that anyone can check that nothing was lost. */
export interface PocketBooks {
  readonly heatStartJ: number;
  readonly heatEndJ: number;
  /** Carried by stream and rain. */
  readonly heatInflowJ: number;
  /** From the main lake, net of what left to it. */
  readonly heatLakeJ: number;
  readonly heatSurfaceJ: number;
  readonly volumeM3: number;
  readonly volumeInM3: number;
  readonly volumeOutM3: number;
}

/** What a change of one thing adds to each hour, K. */
export interface Shift {
  readonly surfaceK: readonly number[];
  readonly meanK: readonly number[];
}

/** Each hour with a water minus the same hour without it; null when there is none of it. */
export interface PocketEffects {
  /** Rain that has fallen by `asOfMs`: its runoff, and what fell on the pocket itself. */
  readonly rainFallen: Shift | null;
  /** Rain that is only forecast. */
  readonly rainAhead: Shift | null;
  /** The stream between storms. */
  readonly baseFlow: Shift | null;
  /** Sun that hills and trees keep from it; left out where nothing is known of them. */
  readonly shade?: Shift;
}

/** How the run may be wrong: what its interval is made of, and what a reading in the pocket can correct. */
export interface PocketError {
  /** 80 % half-width that stays when no doubt is left, K. */
  readonly floorK: number;
  /** One thing each that is not known of the pocket, at its lower and upper 80 % bound. */
  readonly doubts: readonly { readonly less: Shift; readonly more: Shift }[];
  /** Share of a misfit of the depth mean that each hour leaves, 0 to 1, by exchange with air, lake and inflow. */
  readonly keep: readonly number[];
  /** Mean depth, m. */
  readonly depthM: number;
}

export interface PocketRun {
  readonly hours: readonly PocketState[];
  /** Storm water (runoff and rain on the pocket) that came between two instants over the pocket's volume, 0 to 1. */
  readonly renewedShare: (fromMs: number, toMs: number) => number;
  /** +1 the storm inflow floats, -1 it plunges; null when less than a twentieth of the pocket came in. */
  readonly buoyancy: number | null;
  /** Hours from its peak until the storm's effect on the depth mean has halved; null when it never mattered. */
  readonly halfLifeH: number | null;
  /** Runoff of all storms in the hours, mm over the watershed. */
  readonly runoffMm: number;
  /** Runoff that the rain between two instants sheds, mm over the watershed. */
  readonly runoffBetweenMm: (fromMs: number, toMs: number) => number;
  /** Rain (not snow) between two instants, mm. */
  readonly rainBetweenMm: (fromMs: number, toMs: number) => number;
  /** What the waters that ran in did to the temperatures; sun, air and the lake did the rest. */
  readonly effects: PocketEffects;
  readonly books: PocketBooks;
  readonly error: PocketError;
}
