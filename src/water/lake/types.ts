import type { Refusal } from '../refusal.ts';

/** What the lake model needs to know of a lake. */
export interface LakeSite {
  /** Latitude, degrees, south negative. */
  readonly latDeg: number;
  /** Mean depth (volume over area), m, 0.5 to 200. */
  readonly meanDepthM: number;
  /** Surface area, km2, 0.01 to 100000. */
  readonly areaKm2: number;
}

/** One local calendar day of weather; everything but the air temperature may be absent. */
export interface WeatherDay {
  /** Local date, `YYYY-MM-DD`. */
  readonly date: string;
  /** Daily mean air temperature, degC; null when missing. */
  readonly airC: number | null;
  readonly airMinC?: number;
  readonly airMaxC?: number;
  /** Daily mean global radiation, W/m2. */
  readonly solarWm2?: number;
  /** Daily mean dew point, degC. */
  readonly dewPointC?: number;
  /** Daily mean wind speed, m/s. */
  readonly windMs?: number;
  readonly rainMm?: number;
}

export interface WaterReading {
  /** Local date, `YYYY-MM-DD`. */
  readonly date: string;
  /** Local decimal hour, 0 to 24; absent when the value is a daily mean. */
  readonly hour?: number;
  readonly waterC: number;
  /** Depth of the thermometer, m. */
  readonly depthM: number;
  /** Standard error of the thermometer, K. */
  readonly sdC: number;
  readonly source: 'gauge' | 'angler' | 'logger';
}

/** Estimate of one day: daily mean at about 1 m in the open lake. */
export interface LakeDay {
  readonly date: string;
  readonly waterC: number;
  /** Lower and upper end of the 80 % interval, degC. */
  readonly lowC: number;
  readonly highC: number;
  /** Days since the last reading that counted; null without one. */
  readonly readingAgeDays: number | null;
  /** What the weather alone gives, degC. */
  readonly freeC: number;
  /** The same day as it looks with the readings that came after it; only where `hindsightDays` asks for it. */
  readonly hindsight?: { readonly waterC: number; readonly halfC: number };
  /** 0 for a day with observed weather, 1 for the first day of forecast weather, and so on. */
  readonly leadDays: number;
}

export interface RefusedReading {
  readonly reading: WaterReading;
  readonly reason: Refusal;
  /** Set when it is not this reading alone that is refused but the dates of its series, from this one on. */
  readonly dating?: Dating;
}

export interface NowcastOptions {
  /** First date whose weather is a forecast. */
  readonly firstForecastDate?: string;
  /** Days a reading needs to arrive; 0 lets a reading count on its own day. */
  readonly readingLagDays?: number;
  /** Days before the newest with known weather that are looked at again with all readings, 0 to 60; default 0. */
  readonly hindsightDays?: number;
}

/** A daily series is dated right, or stamped a day late or early. */
export type Dating = 'right' | 'late' | 'early';

/** A day's mean of the water as its readings gave it, put right for hour and depth. */
export interface SeenDay {
  readonly date: string;
  readonly waterC: number;
}

export interface LakeNowcast {
  readonly days: LakeDay[];
  /** Days whose readings counted, oldest first. */
  readonly seen: SeenDay[];
  readonly refused: RefusedReading[];
  /** Whether the newest daily readings carry the dates of their own days; absent where nobody looked. */
  readonly dating?: Dating;
}
