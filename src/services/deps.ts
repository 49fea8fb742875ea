import type { Config } from '../config/index.ts';
import type { HttpClient } from './http/types.ts';

export interface RefreshDeps {
  readonly client: HttpClient;
  readonly services: Config['services'];
  /** The instant of the refresh: hours after it are forecasts. */
  readonly nowMs: number;
  /** The machine's clock, epoch ms, where `nowMs` may be of a past morning. */
  readonly wallMs?: number;
  readonly pastDays: number;
  /** Sent in a header, to the USGS host only. */
  readonly usgsKey?: string;
  /** Reads a logger file as text; needed only for lakes with CSV gauges. */
  readonly readFile?: (path: string) => Promise<string>;
  readonly onProgress?: (line: string) => void;
}
