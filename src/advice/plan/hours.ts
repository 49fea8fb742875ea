/** An hour of the day as the plan sees it: what is absent is unknown, or stands in the day's own conditions. SI. */
export interface PlanHour {
  /** Start of the hour, epoch ms; its values hold until `toMs`. */
  readonly fromMs: number;
  readonly toMs: number;
  readonly sunAltitudeDeg?: number;
  readonly airC?: number;
  readonly humidityPct?: number;
  readonly cloudPct?: number;
  readonly windMs?: number;
  /** Direction the wind blows from, degrees clockwise from north. */
  readonly windFromDeg?: number;
  readonly gustMs?: number;
  /** Rain that falls within the hour, mm. */
  readonly rainMm?: number;
  readonly thunderPct?: number;
  /** How far the weather model points to thunder, 0 to 1, where no chance is known. */
  readonly stormSign?: number;
  /** 1 where the weather model has fog. */
  readonly fogCode?: number;
  /** Warmest pocket against the main lake, surface, K. */
  readonly pocketMinusMainC?: number;
  /** 0 or 1, graded. */
  readonly generationOn?: number;
  /** A release begins in it: 1 told by the operator, below 1 how often it did on such weekdays. */
  readonly releaseStart?: number;
  readonly currentMs?: number;
}
