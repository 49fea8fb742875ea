import type { DeliveryTables } from './delivery.ts';
import type { ObservationTables } from './observations.ts';
import type { OutingTables } from './outings.ts';
import type { OutlookTables } from './outlook.ts';
import type { ReleaseTables } from './releases.ts';
import type { ShapeTables } from './shapes.ts';
import type { WorkTables } from './work.ts';

export interface RecordVersionTable {
  version: number;
  applied_ms: number;
}

/** Every table of the record. */
export type Database = ObservationTables &
  DeliveryTables &
  OutingTables &
  OutlookTables &
  ReleaseTables &
  ShapeTables &
  WorkTables & { record_version: RecordVersionTable };
export type { AwayKind, Edition, OutboxKind, ReaderOrigin, ReaderState, RunState } from './delivery.ts';
