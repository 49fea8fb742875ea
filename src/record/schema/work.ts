/** Tables of what processes must tell each other: reports of bounces, what failed, who asked the pages how often. */
import type { Generated } from 'kysely';
import type { BouncesTable } from './delivery.ts';
import type { TableDescription } from './description.ts';

/** The step of the schema that these came with. */
export const WORK_STEP = 6;

/** A report of the mail provider, kept until it is handled and then for as long as it may be sent again. */
export interface BounceReportsTable {
  /** Digest of the provider's own id, or random. */
  id: string;
  reader_id: string;
  kind: BouncesTable['kind'];
  at_ms: number;
  attempts: number;
  /** When it is to be handled; of one that could not be, when again. */
  next_ms: number;
  problem: string | null;
  handled_ms: number | null;
}

/** Work that failed and has not succeeded since, by what it was. */
export interface FailuresTable {
  id: Generated<number>;
  queue: string;
  key: string;
  attempts: number;
  first_ms: number;
  last_ms: number;
  /** Before this instant it is not tried again. */
  next_ms: number;
  problem: string;
}

/** Requests of one visitor to all web processes together; on a server only. */
export interface WebRequestsTable {
  /** Keyed digest of the address: who looks at the table learns nobody's. */
  visitor: string;
  kind: string;
  slot_ms: number;
  requests: number;
}

export interface WorkTables {
  bounce_reports: BounceReportsTable;
  failures: FailuresTable;
  web_requests: WebRequestsTable;
}

export const WORK_TABLES = {
  bounce_reports: {
    columns: {
      id: 'text',
      reader_id: 'text',
      kind: 'text',
      at_ms: 'whole',
      attempts: 'whole',
      next_ms: 'whole',
      problem: 'text?',
      handled_ms: 'whole?',
    },
    key: ['id'],
    indexes: {
      bounce_reports_open: { on: ['next_ms'], where: 'handled_ms is null' },
      bounce_reports_reader: { on: ['reader_id'] },
    },
    belongsTo: { reader_id: 'readers' },
    since: WORK_STEP,
  },
  failures: {
    columns: {
      id: 'id',
      queue: 'text',
      key: 'text',
      attempts: 'whole',
      first_ms: 'whole',
      last_ms: 'whole',
      next_ms: 'whole',
      problem: 'text',
    },
    key: ['id'],
    unique: [['queue', 'key']],
    since: WORK_STEP,
  },
  web_requests: {
    columns: { visitor: 'text', kind: 'text', slot_ms: 'whole', requests: 'whole' },
    key: ['visitor', 'kind', 'slot_ms'],
    indexes: { web_requests_old: { on: ['slot_ms'] } },
    since: WORK_STEP,
    shared: true,
  },
} as const satisfies Readonly<Record<string, TableDescription>>;
