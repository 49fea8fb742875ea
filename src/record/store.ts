import type { Kysely } from 'kysely';
import { putAlerts } from './observations/alerts.ts';
import type { Upkeep } from './dialect/index.ts';
import { coverageOf, type SeriesCoverage } from './observations/coverage.ts';
import { exportCsv } from './observations/exportCsv.ts';
import { putFloods } from './observations/floods.ts';
import { putObservations, type PutResult } from './observations/putObservations.ts';
import { putReading, readings, removeReading } from './readings/readings.ts';
import { changeReleases, releasesKnown } from './readings/releases.ts';
import type { MorningClock } from './observations/forecastThinning.ts';
import { compact, type Compacted } from './retention.ts';
import { lastRefreshMs, putRetrievals } from './observations/retrievals.ts';
import { spanOf, type Span } from './observations/span.ts';
import type { Database } from './schema/index.ts';
import type {
  FloodStatus,
  Observation,
  ObservationKind,
  OfficialAlert,
  Reading,
  RecordView,
  Release,
  Retrieval,
  ToldRelease,
  Variable,
} from './types.ts';
import { validatorStore, type ValidatorStore } from './observations/validators.ts';
import { openWindow, type RecordWindow } from './observations/window.ts';
import { viewOf, type ViewOptions } from './observations/view.ts';

/** The one door to what is known. Every call is atomic; a killed process loses at most the call in flight. */
export class RecordStore {
  readonly db: Kysely<Database>;
  readonly validators: ValidatorStore;
  readonly upkeep: Upkeep;

  constructor(db: Kysely<Database>, upkeep: Upkeep) {
    this.db = db;
    this.upkeep = upkeep;
    this.validators = validatorStore(db);
  }

  /** @param knownMs when the rows were asked for, epoch ms; left out, each counts as known at its own instant */
  putObservations(rows: readonly Observation[], knownMs?: number): Promise<PutResult> {
    return putObservations(this.db, rows, knownMs);
  }

  /** @param knownMs when it was given, epoch ms; left out, at its own instant */
  putReading(reading: Reading, knownMs: number = reading.atMs): Promise<void> {
    return putReading(this.db, reading, knownMs);
  }

  readings(lake: string): Promise<Reading[]> {
    return readings(this.db, lake);
  }

  removeReading(id: string): Promise<boolean> {
    return removeReading(this.db, id);
  }

  /** Hours of release that end after an instant, as they were told by another; epoch ms. */
  releases(lake: string, afterMs: number, knownByMs: number): Promise<ToldRelease[]> {
    return releasesKnown(this.db, lake, afterMs, knownByMs);
  }

  /** Takes back and adds hours of release in one step; what stands already keeps its day of telling. */
  changeReleases(
    change: { readonly add: readonly Release[]; readonly takeBack: readonly string[] },
    knownMs: number,
  ): Promise<void> {
    return changeReleases(this.db, change, knownMs);
  }

  putAlerts(lake: string, alerts: readonly OfficialAlert[], checkedMs: number): Promise<void> {
    return putAlerts(this.db, lake, alerts, checkedMs);
  }

  /** @param knownMs when they were asked for, epoch ms; left out, each counts as known at its own instant */
  putFloods(floods: readonly FloodStatus[], knownMs?: number): Promise<void> {
    return putFloods(this.db, floods, knownMs);
  }

  putRetrievals(retrievals: readonly Retrieval[]): Promise<void> {
    return putRetrievals(this.db, retrievals);
  }

  view(lake: string, asOfMs: number, options: ViewOptions = {}): Promise<RecordView> {
    return viewOf(this.db, lake, asOfMs, options);
  }

  /**
   * The measured rows of a lake in (fromMs, toMs] held in memory, for views of many instants in them: a season of mornings.
   */
  window(lake: string, fromMs: number, toMs: number): Promise<RecordWindow> {
    return openWindow(this.db, lake, fromMs, toMs);
  }

  lastRefreshMs(lake: string): Promise<number | null> {
    return lastRefreshMs(this.db, lake);
  }

  /** First and last stored instant of the lake's measured series, quick however old the file is. */
  span(lake: string, only: { variable?: Variable; kind?: ObservationKind } = {}): Promise<Span | null> {
    return spanOf(this, lake, only);
  }

  /** Per series of the lake: newest believed value, age, source, and the gaps of the days behind. */
  async coverage(lake: string, asOfMs: number, days = 30): Promise<SeriesCoverage[]> {
    return coverageOf(await this.view(lake, asOfMs, { days }), days);
  }

  /** Stored values of a lake in (fromMs, toMs] as CSV lines, header first. */
  exportCsv(lake: string, fromMs: number, toMs: number): AsyncGenerator<string> {
    return exportCsv(this.db, lake, fromMs, toMs);
  }

  /** Applies the retention rules, in small steps beside everything else; the space is used again, not given back. */
  compact(nowMs: number, mornings: ReadonlyMap<string, MorningClock> = new Map()): Promise<Compacted> {
    return compact(this.db, nowMs, mornings);
  }

  close(): Promise<void> {
    return this.db.destroy();
  }
}
