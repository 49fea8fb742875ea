import { ThawlineError } from '../../units/index.ts';
import type { GaugeConfig, LakeConfig } from '../../config/index.ts';
import type { Observation } from '../../record/index.ts';
import { DAY_MS } from '../../units/time/index.ts';
import { keep, retrieve } from '../basket.ts';
import type { RefreshDeps } from '../deps.ts';
import type { Note } from '../note.ts';
import type { Behaviour, Pair } from '../service.ts';
import { dailyMeans, YEAR_DAYS } from '../yearOfLevels.ts';
import { mapLogger } from './logger.ts';

/** @throws ThawlineError when the file of the gauge cannot be read, or nothing in it */
async function readLogger(
  gauge: GaugeConfig,
  lake: LakeConfig,
  days: number,
  deps: RefreshDeps,
  note: Note,
): Promise<Observation[]> {
  const path = gauge.csv?.path ?? '';
  let text: string;
  try {
    text = (await deps.readFile?.(path)) ?? '';
  } catch (cause) {
    const why = cause instanceof Error && 'code' in cause ? ` (${String(cause.code)})` : '';
    throw new ThawlineError(
      'service',
      `The logger file ${path} could not be read${why}: correct csv.path, which is looked for beside the configuration, or let this user read it.`,
      { cause },
    );
  }
  const { observations, problem } = mapLogger(text, gauge, lake.id, deps.nowMs - days * DAY_MS, deps.nowMs);
  if (problem !== '') note(problem);
  return observations;
}

/** A file may well hold nothing new: an empty answer is no failure here. */
async function refreshLake({ lake, basket }: Pair, deps: RefreshDeps): Promise<void> {
  for (const gauge of lake.gauges.filter(({ service }) => service === 'csv')) {
    await retrieve('csv', [basket], deps, async (_client, note) => {
      keep('csv', basket, await readLogger(gauge, lake, Math.max(1, deps.pastDays), deps, note), deps, note);
    });
  }
}

/** A file of one's own: read from the disk, in place of a service. */
export const csv: Behaviour = {
  id: 'csv',
  variables: ['level', 'discharge', 'inflow', 'release', 'water_temp', 'turbidity', 'rain'],
  fetch: async (pairs, deps) => {
    await Promise.all(pairs.map(async (pair) => refreshLake(pair, deps)));
  },
  year: async (lake, gauges, deps) => {
    const days: Observation[] = [];
    for (const gauge of gauges)
      days.push(...dailyMeans(await readLogger(gauge, lake, YEAR_DAYS, deps, () => undefined)));
    return days;
  },
};
