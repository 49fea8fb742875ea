import { ownsByName, ownsBySite, ownsNothing, ownsUsgs, type GaugeName } from './series.ts';
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
  /** How a gauge of it is called in a source line, before its number. */
  readonly gaugeName: string;
  /** Whether a series of the record is the gauge's. */
  readonly owns: (station: string, gauge: GaugeName) => boolean;
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
    gaugeName: 'USGS gauge',
    owns: ownsUsgs,
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
    gaugeName: '',
    owns: ownsNothing,
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
    gaugeName: '',
    owns: ownsNothing,
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
    gaugeName: 'NOAA gauge',
    owns: ownsBySite,
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
    gaugeName: 'USACE gauge',
    owns: ownsByName,
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
    gaugeName: 'Environment Agency gauge',
    owns: ownsBySite,
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
    gaugeName: 'Water Survey of Canada gauge',
    owns: ownsBySite,
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
    gaugeName: 'logger file',
    owns: ownsBySite,
    weather: false,
    alerts: false,
  },
} as const satisfies Record<string, ServiceRow>;
