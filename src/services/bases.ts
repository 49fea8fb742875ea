import type { Config } from '../config/types.ts';

export type BaseId = keyof Required<Config['services']['baseUrls']>;

/** Where the services live; each can be moved by the configuration. A path is appended as the service documents it. */
const DEFAULT_BASE: Readonly<Record<BaseId, string>> = {
  usgs: 'https://api.waterdata.usgs.gov',
  'open-meteo': 'https://api.open-meteo.com',
  'open-meteo-archive': 'https://archive-api.open-meteo.com',
  nws: 'https://api.weather.gov',
  nwps: 'https://api.water.noaa.gov',
  cwms: 'https://cwms-data.usace.army.mil',
  ea: 'https://environment.data.gov.uk',
  eccc: 'https://api.weather.gc.ca',
};

/** Base address of a service, without a slash at its end. */
export function baseUrl(services: Config['services'], id: BaseId): string {
  return (services.baseUrls[id] ?? DEFAULT_BASE[id]).replace(/\/+$/, '');
}
