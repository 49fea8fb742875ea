/** What readers say of their days. Booleans are 0 or 1, instants epoch milliseconds UTC, minutes those of the local day. */
export interface OutingTable {
  id: string;
  reader_id: string;
  lake: string;
  /** `YYYY-MM-DD` at the lake. */
  local_date: string;
  from_minute: number | null;
  to_minute: number | null;
  /** Effort. */
  hours: number;
  /** JSON array of `{"kind":"main_point","name":"..."}`; the name only where the lake's configuration has it. */
  places_json: string;
  /** JSON array of lure classes. */
  lures_json: string;
  bites: number | null;
  fish: number;
  biggest_m: number | null;
  biggest_kg: number | null;
  water_c: number | null;
  water_depth_m: number | null;
  clarity_m: number | null;
  /** The lake's reading that it brought. */
  reading_id: string | null;
  /** The reader's own word: whether the plan was followed. */
  plan: 'followed' | 'elsewhere' | null;
  /** The reader's own; shown to nobody else. */
  note: string;
  /** The reader lets it count in the rates of the lake. */
  shared: number;
  told_ms: number;
}

export interface OutingTables {
  outing: OutingTable;
}
