import { idsOf } from './ids.ts';
import { SERVICES, type ServiceRow } from './serviceTable.ts';

export { SERVICES, type ServiceRow } from './serviceTable.ts';

export type ServiceId = keyof typeof SERVICES;
export const SERVICE_IDS = idsOf(SERVICES);

/** A row of the table with its common type. */
export const serviceRow = (id: ServiceId): ServiceRow => SERVICES[id];

type Where<F extends 'weather' | 'alerts'> = {
  [S in ServiceId]: (typeof SERVICES)[S][F] extends true ? S : never;
}[ServiceId];
type WithGauges = {
  [S in ServiceId]: (typeof SERVICES)[S]['gauges'] extends readonly [] ? never : S;
}[ServiceId];
type KeysOf<U> = U extends unknown ? keyof U & string : never;

export type GaugeService = WithGauges;
export type WeatherService = Where<'weather'>;
export type AlertService = Where<'alerts'>;
/** Names under which the configuration can move a service to another address. */
export type BaseId = KeysOf<(typeof SERVICES)[ServiceId]['bases']>;

const isGaugeService = (id: ServiceId): id is GaugeService => serviceRow(id).gauges.length > 0;
const isWeatherService = (id: ServiceId): id is WeatherService => serviceRow(id).weather;
const isAlertService = (id: ServiceId): id is AlertService => serviceRow(id).alerts;

export const GAUGE_SERVICES: readonly GaugeService[] = SERVICE_IDS.filter(isGaugeService);
export const WEATHER_SERVICES: readonly WeatherService[] = SERVICE_IDS.filter(isWeatherService);
export const ALERT_SERVICES: readonly AlertService[] = SERVICE_IDS.filter(isAlertService);

/** Address of every base as shipped; the ids are the keys of the rows above. */
export const BASES = Object.fromEntries(
  SERVICE_IDS.flatMap((id) => Object.entries(serviceRow(id).bases)),
) as Readonly<Record<BaseId, string>>;
export const BASE_IDS = idsOf(BASES);
