import { keep, retrieve } from '../basket.ts';
import type { RefreshDeps } from '../deps.ts';
import type { Behaviour, Pair } from '../service.ts';
import { fetchAlerts, fetchGrid, fetchStations } from './fetch.ts';

/** Alerts, forecast and station reports of one lake, each failing by itself; safety first. */
async function refreshLake({ lake, basket }: Pair, deps: RefreshDeps): Promise<void> {
  if (lake.alerts === 'nws') {
    await retrieve('nws', [basket], deps, async (client, note) => {
      basket.alerts.push(...(await fetchAlerts(client, lake, deps, note)));
      basket.alertsCheckedMs = deps.nowMs;
    });
  }
  if (lake.weather.includes('nws')) {
    await retrieve('nws', [basket], deps, async (client, note) => {
      keep('nws', basket, await fetchGrid(client, lake, deps, note), deps, note);
    });
    await retrieve('nws', [basket], deps, async (client, note) => {
      keep('nws', basket, await fetchStations(client, lake, deps, note), deps, note);
    });
  }
}

export const nws: Behaviour = {
  id: 'nws',
  variables: [
    'air_temp',
    'dew_point',
    'humidity',
    'rain',
    'wind_speed',
    'wind_gust',
    'wind_dir',
    'cloud',
    'thunder',
    'pressure',
  ],
  fetch: async (pairs, deps) => {
    await Promise.all(pairs.map(async (pair) => refreshLake(pair, deps)));
  },
};
