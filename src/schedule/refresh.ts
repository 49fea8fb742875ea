/** Services -> record: fetch what the lakes' configuration names, and store it. */
import { readFile } from 'node:fs/promises';
import { z } from 'zod';
import type { LakeConfig } from '../config/index.ts';
import type { Observation, RecordStore } from '../record/index.ts';
import { getState, putState } from '../record/schedule/index.ts';
import { DAY_MS } from '../units/time/index.ts';
import {
  createClient,
  HELD_BY_FACTOR,
  refreshLakes,
  type HttpClient,
  type RefreshDeps,
} from '../services/index.ts';
import type { PipelineContext } from './context.ts';
import { fillLevelYears } from './levelYear.ts';
import { fillWeatherYear } from './weatherYear.ts';

/** The forecast service reaches back this far; the archive ends a few days ago, so the two overlap. */
const FORECAST_PAST_DAYS = 92;
/** A record that lacks no more than this of them is not asked for all of them again. */
const FEW_DAYS = 2;
/** After the first time, a refresh reaches back far enough to close an outage of a long weekend. */
const USUAL_PAST_DAYS = 7;

const hostSchema = z.object({
  restUntilMs: z.number(),
  // Left out by versions before it was shared.
  failures: z.object({ inARow: z.number(), heardMs: z.number() }).default({ inARow: 0, heardMs: 0 }),
  sent: z.array(z.tuple([z.number(), z.number()])),
});

/** The client that the configuration asks for; its budgets and rests last as long as it does. */
export function clientFor({ services }: PipelineContext['config'], record: RecordStore): HttpClient {
  return createClient({
    contact: services.contact,
    timeoutMs: services.timeoutMs,
    parallelPerHost: services.parallelPerHost,
    validators: {
      get: async (url) => (await record.validators.get(url)) ?? null,
      set: (url, validator) => record.validators.set(url, validator),
    },
    memories: {
      get: async (host) => hostSchema.safeParse(await getState(record, `http:${host}`)).data ?? null,
      set: (host, memory) => putState(record, `http:${host}`, memory, Date.now()),
    },
  });
}

/** Days since the first hour of weather in the record; 0 when there is none. */
async function weatherSpan(record: RecordStore, lake: LakeConfig, nowMs: number): Promise<number> {
  const span = await record.span(lake.id, { variable: 'air_temp' });
  return span === null ? 0 : (nowMs - span.firstMs) / DAY_MS;
}

/**
 * Days before now that a new reply is held against, as far as a usual refresh reaches back. A service that says the same
 * for as long is believed: it may have mended its unit.
 */
const HELD_AGAINST_DAYS = USUAL_PAST_DAYS;
const HELD_AGAINST: ReadonlySet<string> = new Set(['air_temp', 'dew_point', ...HELD_BY_FACTOR]);

/** What the record has of the hours around now, by lake, so that a reply in another unit is seen to contradict it. */
async function knownAround(
  record: RecordStore,
  lakes: readonly LakeConfig[],
  nowMs: number,
): Promise<Map<string, Observation[]>> {
  const views = lakes.map(async ({ id }) => {
    const { observations } = await record.view(id, nowMs, { days: HELD_AGAINST_DAYS });
    return [id, observations.filter(({ variable }) => HELD_AGAINST.has(variable))] as const;
  });
  return new Map(await Promise.all(views));
}

/**
 * Fetch everything the lakes' configuration names and store it. What a service refuses is logged as a retrieval with
 * its sentence and becomes a gap of the briefing; it never stops the others.
 *
 * @param nowMs the instant of asking, epoch ms
 */
export async function refresh(
  ctx: PipelineContext,
  lakes: readonly LakeConfig[],
  nowMs: number,
): Promise<void> {
  const client = ctx.client ?? clientFor(ctx.config, ctx.record);
  const { services } = ctx.config;
  const usgsKey = ctx.env[services.usgsKeyEnv];
  const spans = await Promise.all(lakes.map((lake) => weatherSpan(ctx.record, lake, nowMs)));
  const fresh = spans.some((days) => days < FORECAST_PAST_DAYS - FEW_DAYS);
  const deps: RefreshDeps = {
    client,
    services,
    nowMs,
    wallMs: Date.now(),
    pastDays: fresh ? FORECAST_PAST_DAYS : USUAL_PAST_DAYS,
    ...(usgsKey === undefined || usgsKey === '' ? {} : { usgsKey }),
    readFile: (path) => readFile(path, 'utf8'),
    ...(ctx.onProgress ? { onProgress: ctx.onProgress } : {}),
  };
  const results = await refreshLakes(lakes, deps, await knownAround(ctx.record, lakes, nowMs));
  for (const result of results) {
    await ctx.record.putObservations(result.observations, nowMs);
    if (result.alertsCheckedMs !== null)
      await ctx.record.putAlerts(result.lake, result.alerts, result.alertsCheckedMs);
    await ctx.record.putFloods(result.floods, nowMs);
    await ctx.record.putRetrievals(result.retrievals);
  }
  await fillLevelYears(ctx.record, lakes, results, deps);
  for (const [index, lake] of lakes.entries()) {
    await fillWeatherYear(ctx.record, lake, spans[index] ?? 0, deps);
  }
  // Only what is stored may be answered with "not changed" next time.
  await client.confirm();
  if (!ctx.client) await client.close();
}
