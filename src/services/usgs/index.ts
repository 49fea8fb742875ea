import { keep, noteProblem, retrieve } from '../basket.ts';
import type { RefreshDeps } from '../deps.ts';
import { DateTime } from 'luxon';
import type { Behaviour, Pair } from '../service.ts';
import { YEAR_DAYS } from '../yearOfLevels.ts';
import { fetchUsgsDaily } from './daily.ts';
import { fetchUsgs } from './fetch.ts';
import { fetchUsgsPast } from './past.ts';

/** The gauges of all lakes together. */
async function fetch(pairs: readonly Pair[], deps: RefreshDeps): Promise<void> {
  const wanted = pairs.flatMap(({ lake }) =>
    lake.gauges
      .filter((g) => g.service === 'usgs')
      .map((gauge) => ({ lake: lake.id, zone: lake.zone, gauge })),
  );
  if (wanted.length === 0) return;
  const baskets = new Map(pairs.map(({ basket }) => [basket.lake, basket]));
  const involved = [...baskets.values()].filter((basket) => wanted.some((w) => w.lake === basket.lake));
  await retrieve('usgs', involved, deps, async (client, note) => {
    for (const result of await fetchUsgs(client, wanted, deps, note)) {
      const basket = baskets.get(result.wanted.lake);
      if (basket === undefined) continue;
      keep('usgs', basket, result.observations, deps, (problem) => {
        noteProblem('usgs', basket, deps, problem);
      });
      if (result.problem !== '') noteProblem('usgs', basket, deps, result.problem);
    }
  });
}

export const usgs: Behaviour = {
  id: 'usgs',
  variables: ['level', 'discharge', 'inflow', 'release', 'water_temp', 'turbidity', 'rain'],
  fetch,
  year: async (lake, gauges, deps) => {
    const now = DateTime.fromMillis(deps.nowMs, { zone: lake.zone });
    const date = (daysBack: number): string => now.minus({ days: daysBack }).toISODate() ?? '';
    return fetchUsgsDaily(lake, gauges, date(YEAR_DAYS), date(1), deps);
  },
  past: fetchUsgsPast,
};
