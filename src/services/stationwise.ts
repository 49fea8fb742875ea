import { ThawlineError } from '../units/index.ts';
import type { GaugeConfig, LakeConfig } from '../config/index.ts';
import type { Observation } from '../record/index.ts';
import { serviceRow, type GaugeService } from '../vocabulary/index.ts';
import { keep, retrieve } from './basket.ts';
import type { RefreshDeps } from './deps.ts';
import type { HttpClient } from './http/types.ts';
import type { Note } from './note.ts';
import type { Behaviour, Pair } from './service.ts';

type FetchGauge = (
  client: HttpClient,
  gauge: GaugeConfig,
  lake: LakeConfig,
  deps: RefreshDeps,
  note: Note,
) => Promise<Observation[]>;

/** The `fetch` of a service that answers for one station at a time: a lake's gauges one after another. */
export function stationwise(id: GaugeService, fetchGauge: FetchGauge): Behaviour['fetch'] {
  const refreshLake = async ({ lake, basket }: Pair, deps: RefreshDeps): Promise<void> => {
    for (const gauge of lake.gauges.filter(({ service }) => service === id)) {
      await retrieve(id, [basket], deps, async (client, note) => {
        const found = await fetchGauge(client, gauge, lake, deps, note);
        if (found.length === 0) {
          throw new ThawlineError(
            'service',
            `${serviceRow(id).name} ${gauge.station} ${gauge.variable}: no values in the last ${deps.pastDays} days.`,
          );
        }
        keep(id, basket, found, deps, note);
      });
    }
  };
  return async (pairs, deps) => {
    await Promise.all(pairs.map(async (pair) => refreshLake(pair, deps)));
  };
}
