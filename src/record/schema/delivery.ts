/** Tables of readers, outbox, runs and issued briefings. Booleans are 0 or 1, instants epoch milliseconds UTC. */
import type { ColumnType, Generated } from 'kysely';
import type { Language } from '../../vocabulary/index.ts';

export type ReaderState = 'pending' | 'active' | 'left' | 'bounced' | 'complained';
/** How a reader can have ended it; `bounced`: their address did. */
export type GoneState = 'left' | 'bounced' | 'complained';
/** What is remembered of an address whose row is erased. */
export type AwayKind = GoneState | 'erased';
export type ReaderOrigin = 'config' | 'operator' | 'page';
export type Edition = 'morning' | 'amendment' | 'evening';
/** What an outbox row carries: an edition of a briefing, or one of the letters that somebody asked for on a page. */
export type OutboxKind = Edition | 'confirm' | 'leave-confirm' | 'outings-link';
export type OutboxState = 'pending' | 'sending' | 'sent' | 'failed' | 'dropped';
export type RunState = 'claimed' | 'failed' | 'issued' | 'missed';

export interface ReadersTable {
  /** Random; the only name of a reader that logs, outbox rows and tokens ever carry. */
  id: string;
  /** Lower-cased address; unique. */
  address: string;
  state: ReaderState;
  origin: ReaderOrigin;
  units: 'us' | 'metric';
  form: 'full' | 'short';
  /** Bit 0 is Monday, bit 6 Sunday. */
  days_mask: number;
  /** Local hour of the lake before which nothing is sent; 0 for no wish. */
  earliest_hour: number;
  amendments: number;
  tackle_json: string | null;
  /** Raised to make every link given out so far worthless. */
  token_epoch: number;
  created_ms: number;
  confirmed_ms: number | null;
  left_ms: number | null;
  /** Null: that of the lake. */
  language: Language | null;
  /** Hours they fish, local, `06:00-11:00`; null: those of the lake. */
  fishing: string | null;
  /** 1: the mail asks for a reading of the water before anything else. */
  asks_reading: number | null;
  /** What they were before a request that nobody has confirmed yet: it goes back to that. */
  gone_state: GoneState | null;
}

/** Who is not mailed again although their row is erased. */
export interface StaysAwayTable {
  /** Keyed hash of the address, never the address. */
  hash: string;
  said: AwayKind;
  at_ms: number;
}

export interface ReaderLakesTable {
  reader_id: string;
  lake_id: string;
}

export interface BouncesTable {
  id: Generated<number>;
  reader_id: string;
  kind: 'hard' | 'soft' | 'complaint';
  /** UTC date; several reports of one day count once. */
  utc_date: string;
  at_ms: number;
}

export interface OutboxTable {
  id: Generated<number>;
  lake_id: string;
  local_date: string;
  edition: OutboxKind;
  reader_id: string;
  state: OutboxState;
  attempts: number;
  next_attempt_ms: number;
  /** After this instant the message is stale and is dropped. */
  expires_ms: number;
  lease_owner: string | null;
  lease_until_ms: number | null;
  created_ms: number;
  finished_ms: number | null;
  smtp_code: number | null;
  /** One sentence for the operator; never an address. */
  problem: string | null;
}

export interface RunsTable {
  lake_id: string;
  local_date: string;
  edition: Edition;
  state: RunState;
  owner: string;
  lease_until_ms: number;
  attempts: number;
  due_ms: number;
  started_ms: number;
  finished_ms: number | null;
  safety_level: number | null;
  first_place: string | null;
  problem: string | null;
}

export interface RefreshesTable {
  lake_id: string;
  at_ms: number;
  /** Last refresh that brought data; null before the first. */
  ok_ms: number | null;
  problem: string | null;
}

export interface BriefingsTable {
  lake_id: string;
  local_date: string;
  edition: Edition;
  issued_ms: number;
  /** The document as JSON. */
  document_json: string;
}

export interface RenderingsTable {
  lake_id: string;
  local_date: string;
  edition: Edition;
  units: 'us' | 'metric';
  form: 'full' | 'short';
  /** gzip of the rendered mail as JSON. */
  body: ColumnType<Uint8Array, Uint8Array, Uint8Array>;
}

/** Renderings for what some readers want otherwise than the lake has it. */
export interface OwnRenderingsTable extends RenderingsTable {
  /** Language and hours, as `ownKey` writes them. */
  own: string;
}

/** Small facts that outlive a process: pause of delivery, result of the last preflight. */
export interface DeliveryStateTable {
  key: string;
  value_json: string;
  at_ms: number;
}

export interface LocksTable {
  name: string;
  owner: string;
  until_ms: number;
}

export interface DeliveryTables {
  readers: ReadersTable;
  reader_lakes: ReaderLakesTable;
  bounces: BouncesTable;
  outbox: OutboxTable;
  runs: RunsTable;
  refreshes: RefreshesTable;
  briefings: BriefingsTable;
  renderings: RenderingsTable;
  own_renderings: OwnRenderingsTable;
  stays_away: StaysAwayTable;
  delivery_state: DeliveryStateTable;
  locks: LocksTable;
}
