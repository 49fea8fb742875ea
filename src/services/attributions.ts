export type SourceId = 'usgs' | 'open-meteo' | 'nws' | 'nwps' | 'cwms' | 'ea' | 'eccc' | 'csv';

export interface Attribution {
  /** Name used in sentences and source lines. */
  readonly name: string;
  /** Text that must stand next to the data. */
  readonly attribution: string;
  readonly url: string;
  readonly licence: string;
}

/** What each service asks to be said beside its data. */
export const ATTRIBUTIONS: Readonly<Record<SourceId, Attribution>> = {
  usgs: {
    name: 'USGS',
    attribution: 'Water data: U.S. Geological Survey. Provisional data are subject to revision.',
    url: 'https://waterdata.usgs.gov/',
    licence: 'US public domain',
  },
  'open-meteo': {
    name: 'Open-Meteo',
    attribution: 'Weather data by Open-Meteo.com, converted to our units and days.',
    url: 'https://open-meteo.com/',
    licence:
      'CC BY 4.0 (https://creativecommons.org/licenses/by/4.0/), non-commercial use of the free service',
  },
  nws: {
    name: 'National Weather Service',
    attribution: 'Forecasts, observations and alerts: US National Weather Service.',
    url: 'https://www.weather.gov/',
    licence: 'US public domain',
  },
  nwps: {
    name: 'NOAA National Water Prediction Service',
    attribution: 'Flood status and stage forecast: NOAA National Water Prediction Service.',
    url: 'https://water.noaa.gov/',
    licence: 'US public domain',
  },
  cwms: {
    name: 'US Army Corps of Engineers',
    attribution: 'Reservoir data: US Army Corps of Engineers, CWMS Data API.',
    url: 'https://cwms-data.usace.army.mil/cwms-data/',
    licence: 'US public domain',
  },
  ea: {
    name: 'Environment Agency',
    attribution:
      'This uses Environment Agency flood and river level data from the real-time data API (Beta).',
    url: 'https://environment.data.gov.uk/flood-monitoring/doc/reference',
    licence: 'Open Government Licence v3.0',
  },
  eccc: {
    name: 'Environment and Climate Change Canada',
    attribution: 'Hydrometric data: Environment and Climate Change Canada.',
    url: 'https://api.weather.gc.ca/',
    licence: 'Open Government Licence - Canada',
  },
  csv: {
    name: 'Own logger file',
    attribution: 'From a logger file named in the configuration.',
    url: '',
    licence: 'as agreed with its owner',
  },
};
