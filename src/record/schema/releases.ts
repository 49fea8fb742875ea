/** Hours of release that the operator of a dam told. Instants are epoch milliseconds UTC, flows m3/s. */
export interface ReleaseTable {
  /** Made from what it says, so that the same told twice is one. */
  id: string;
  /** When it was told, or taken back. */
  known_ms: number;
  lake: string;
  from_ms: number;
  to_ms: number;
  /** 0 where it was told that no water runs; null where only units were told. */
  flow_m3s: number | null;
  /** Turbines that run; null where only a flow was told. */
  units: number | null;
  /** 1: taken back at `known_ms`. */
  gone: number;
}

export interface ReleaseTables {
  told_release: ReleaseTable;
}
