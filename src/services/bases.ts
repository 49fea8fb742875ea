import type { Config } from '../config/index.ts';
import { trimEndOf } from '../units/index.ts';
import { BASES, type BaseId } from '../vocabulary/index.ts';

/** Base address of a service, without a slash at its end: the configured one, else the shipped one. */
export function baseUrl(services: Config['services'], id: BaseId): string {
  return trimEndOf(services.baseUrls[id] ?? BASES[id], '/');
}
