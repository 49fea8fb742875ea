import type { DeliveryTables } from './delivery.ts';
import type { ObservationTables } from './observations.ts';

export interface RecordVersionTable {
  version: number;
  applied_ms: number;
}

/** Every table of the record. */
export type Database = ObservationTables & DeliveryTables & { record_version: RecordVersionTable };
