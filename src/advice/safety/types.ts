/** An hour of the day with what it adds to the day's own numbers, SI; what is absent is as the day has it. */
export interface SafetyHour {
  readonly fromMs: number;
  readonly toMs: number;
  readonly sunAltitudeDeg?: number;
  readonly airC?: number;
  readonly humidityPct?: number;
  readonly windMs?: number;
  /** Where it blows from, degrees clockwise from north. */
  readonly windFromDeg?: number;
  readonly gustMs?: number;
  readonly thunderPct?: number;
  /** How far the weather model points to thunder, 0 to 1, where no chance is known. */
  readonly stormSign?: number;
  /** 1 where the weather model has fog. */
  readonly fogCode?: number;
  readonly generationOn?: number;
  /** A release begins in it: 1 told by the operator, below 1 how often it did on such weekdays. */
  readonly releaseStart?: number;
  readonly currentMs?: number;
}

/** An official statement as this room needs it; the record's alerts fit. */
export interface LakeAlert {
  readonly issuer: string;
  readonly event: string;
  readonly severity: string;
  readonly headline: string;
  readonly description: string;
  readonly instruction: string;
  readonly endsMs: number | null;
  readonly expiresMs: number | null;
  /** Where the issuer keeps the whole text. */
  readonly url?: string;
}

export type FloodWord = 'none' | 'action' | 'minor' | 'moderate' | 'major' | 'unknown';

/** What safety needs besides the day's signals. */
export interface SafetyExtras {
  readonly alerts: readonly LakeAlert[];
  /** Whether the service was asked with success lately: no alerts and not asked are different things. */
  readonly alertsChecked: boolean;
  /** Category of the flood gauge; leave out where the water has none. */
  readonly floodCategory?: FloodWord;
  readonly belowDam: boolean;
  /** Open water along the wind, m; leave out when unknown. */
  readonly fetchM?: number;
  /** Speed of the boat under way, m/s, for the wind chill while running. */
  readonly runningBoatMs?: number;
  /** Today's hours, from which hazards get theirs; leave out when unknown. */
  readonly hours?: readonly SafetyHour[];
  /** Whether turbines run at the instant of the issue, 0 to 1; left out: as the day's own signal says. */
  readonly generationNow?: number;
  /** Hours of the reader's fishing day that lie outside civil light. */
  readonly darkHours?: number;
  /** Relative humidity at the hottest hour, percent, for the heat index. */
  readonly humidityPct?: number;
}
