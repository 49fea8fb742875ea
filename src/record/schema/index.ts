import type { DeliveryTables } from './delivery.ts';
import type { ObservationTables } from './observations.ts';
import type { OutingTables } from './outings.ts';

export interface RecordVersionTable {
  version: number;
  applied_ms: number;
}

/** Every table of the record. */
export type Database = ObservationTables &
  DeliveryTables &
  OutingTables & { record_version: RecordVersionTable };
