/** What one invented morning is told by: its days of weather, what was done to the lake, who was silent. */
import type { LakeConfig } from '../../../src/config/types.ts';
import type { FloodCategory, OfficialAlert } from '../../../src/record/types.ts';
import type { UnitSystem } from '../../../src/units/index.ts';

/** One local day; what is left out is as usual for the season. */
export interface DayPlan {
  /** Mean of the air, degC. */
  readonly mean?: number;
  /** Half of the day's range under a clear sky, K. */
  readonly half?: number;
  readonly cloudPct?: number;
  readonly windMs?: number;
  /** Gusts over mean wind. */
  readonly gustRatio?: number;
  readonly dewC?: number;
  readonly thunderPct?: number;
  /** Rain of the day: mm, first local hour, hours. */
  readonly rain?: readonly [mm: number, fromHour: number, hours: number];
}

export interface ReadingPlan {
  readonly daysAgo: number;
  readonly hour: number;
  readonly waterC?: number;
  readonly clarityM?: number;
  readonly where: string;
  readonly pocket?: string;
}

/** A source that has sent nothing for some time. */
export interface Silence {
  readonly service: 'open-meteo' | 'usgs';
  readonly hours: number;
  /** Only this series of the service. */
  readonly variable?: 'level';
  readonly problem: string;
}

export interface MorningPlan {
  readonly name: string;
  /** Local date of the issue; the hour is the lake's own. */
  readonly date: string;
  readonly units?: UnitSystem;
  readonly status?: 'amended' | 'corrected';
  readonly preview?: boolean;
  /** By days from the morning: -1 yesterday, 0 today, 1 tomorrow. */
  readonly days?: Readonly<Record<number, DayPlan>>;
  /** Water let out at the dam beyond what keeps the pool, m3/s, by hours before the issue. */
  readonly extraReleaseM3s?: (hoursBefore: number) => number;
  readonly readings?: readonly ReadingPlan[];
  readonly silences?: readonly Silence[];
  readonly alerts?: readonly Omit<OfficialAlert, 'lake' | 'onsetMs' | 'endsMs' | 'expiresMs'>[];
  readonly flood?: FloodCategory;
  /** Days of weather behind the morning; enough for the lake model to forget its start unless told. */
  readonly weatherDays?: number;
  /** Issues of the days before that are kept, 0 unless told. */
  readonly issuesBefore?: number;
  /** A station measures air and wind beside the model, and forecasts miss: what scoring needs. */
  readonly measured?: boolean;
  readonly lake?: (lake: LakeConfig) => LakeConfig;
}
