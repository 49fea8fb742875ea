import type { ServiceId } from '../vocabulary/index.ts';
import { eccc } from './canada.ts';
import { csv } from './csv/index.ts';
import { cwms } from './cwms.ts';
import { ea } from './environmentAgency.ts';
import { nwps } from './nwps.ts';
import { nws } from './nws/index.ts';
import { openMeteo } from './openMeteo/index.ts';
import type { Behaviour } from './service.ts';
import { usgs } from './usgs/index.ts';

/** What each service of the vocabulary does: a row without one does not compile. */
export const BEHAVIOURS: Readonly<Record<ServiceId, Behaviour>> = {
  usgs,
  'open-meteo': openMeteo,
  nws,
  nwps,
  cwms,
  ea,
  eccc,
  csv,
};
