import { SERVICE_IDS, serviceRow, type ServiceId, type ServiceRow } from '../vocabulary/index.ts';

export type SourceId = ServiceId;

export type Attribution = Pick<ServiceRow, 'name' | 'attribution' | 'url' | 'licence'>;

function creditOf(id: ServiceId): Attribution {
  const { name, attribution, url, licence } = serviceRow(id);
  return { name, attribution, url, licence };
}

/** What each service asks to be said beside its data. */
export const ATTRIBUTIONS = Object.fromEntries(SERVICE_IDS.map((id) => [id, creditOf(id)])) as Readonly<
  Record<SourceId, Attribution>
>;
