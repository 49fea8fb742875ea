/** The water of the days ahead as each morning's issue had it from the model, before any lesson of earlier ones. */
export interface OutlookTable {
  lake_id: string;
  /** Of the issue, `YYYY-MM-DD` at the lake. */
  local_date: string;
  /** Days after that date, 1 or more. */
  lead_days: number;
  issued_ms: number;
  water_c: number;
  /** Half-width of the 80 % interval, K. */
  half_c: number;
}

export interface OutlookTables {
  outlook: OutlookTable;
}
