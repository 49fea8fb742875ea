import { idsOf } from './ids.ts';
import type { GaugeVariable } from './variables.ts';

export interface ServiceRow {
  /** Name used in sentences and source lines. */
  readonly name: string;
  /** Text that must stand next to the data. */
  readonly attribution: string;
  /** Page of the service, for the credit; '' where there is none. */
  readonly url: string;
  readonly licence: string;
  /** Where it lives, by the name under which the configuration can move it. A path is appended as the service documents it. */
  readonly bases: Readonly<Record<string, string>>;
  /** What its gauges measure; empty for a service without gauges. */
  readonly gauges: readonly GaugeVariable[];
  /** Fields that a gauge of this service cannot do without. */
  readonly needs: readonly ('office' | 'parameter' | 'csv')[];
  /** Gives weather for a lake's position. */
  readonly weather: boolean;
  /** Issues official statements. */
  readonly alerts: boolean;
}

/** The public services, and a file of one's own: what each asks to be said beside its data, and what it gives. */
export const SERVICES = {
  usgs: {
    name: 'USGS',
    attribution: 'Water data: U.S. Geological Survey. Provisional data are subject to revision.',
    url: 'https://waterdata.usgs.gov/',
    licence: 'US public domain',
    bases: { usgs: 'https://api.waterdata.usgs.gov' },
    gauges: ['level', 'discharge', 'inflow', 'release', 'water_temp', 'turbidity', 'rain'],
    needs: [],
    weather: false,
    alerts: false,
  },
  'open-meteo': {
    name: 'Open-Meteo',
    attribution: 'Weather data by Open-Meteo.com, converted to our units and days.',
    url: 'https://open-meteo.com/',
    licence:
      'CC BY 4.0 (https://creativecommons.org/licenses/by/4.0/), non-commercial use of the free service',
    bases: {
      'open-meteo': 'https://api.open-meteo.com',
      'open-meteo-archive': 'https://archive-api.open-meteo.com',
    },
    gauges: [],
    needs: [],
    weather: true,
    alerts: false,
  },
  nws: {
    name: 'National Weather Service',
    attribution: 'Forecasts, observations and alerts: US National Weather Service.',
    url: 'https://www.weather.gov/',
    licence: 'US public domain',
    bases: { nws: 'https://api.weather.gov' },
    gauges: [],
    needs: [],
    weather: true,
    alerts: true,
  },
  nwps: {
    name: 'NOAA National Water Prediction Service',
    attribution: 'Flood status and stage forecast: NOAA National Water Prediction Service.',
    url: 'https://water.noaa.gov/',
    licence: 'US public domain',
    bases: { nwps: 'https://api.water.noaa.gov' },
    gauges: ['level', 'discharge', 'inflow', 'release'],
    needs: [],
    weather: false,
    alerts: false,
  },
  cwms: {
    name: 'US Army Corps of Engineers',
    attribution: 'Reservoir data: US Army Corps of Engineers, CWMS Data API.',
    url: 'https://cwms-data.usace.army.mil/cwms-data/',
    licence: 'US public domain',
    bases: { cwms: 'https://cwms-data.usace.army.mil' },
    gauges: ['level', 'discharge', 'inflow', 'release', 'water_temp', 'turbidity', 'rain'],
    needs: ['office', 'parameter'],
    weather: false,
    alerts: false,
  },
  ea: {
    name: 'Environment Agency',
    attribution:
      'This uses Environment Agency flood and river level data from the real-time data API (Beta).',
    url: 'https://environment.data.gov.uk/flood-monitoring/doc/reference',
    licence: 'Open Government Licence v3.0',
    bases: { ea: 'https://environment.data.gov.uk' },
    gauges: ['level', 'discharge', 'inflow', 'release', 'water_temp', 'rain'],
    needs: [],
    weather: false,
    alerts: false,
  },
  eccc: {
    name: 'Environment and Climate Change Canada',
    attribution: 'Hydrometric data: Environment and Climate Change Canada.',
    url: 'https://api.weather.gc.ca/',
    licence: 'Open Government Licence - Canada',
    bases: { eccc: 'https://api.weather.gc.ca' },
    gauges: ['level', 'discharge', 'inflow', 'release'],
    needs: [],
    weather: false,
    alerts: false,
  },
  csv: {
    name: 'Own logger file',
    attribution: 'From a logger file named in the configuration.',
    url: '',
    licence: 'as agreed with its owner',
    bases: {},
    gauges: ['level', 'discharge', 'inflow', 'release', 'water_temp', 'turbidity', 'rain'],
    needs: ['csv'],
    weather: false,
    alerts: false,
  },
} as const satisfies Record<string, ServiceRow>;

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
