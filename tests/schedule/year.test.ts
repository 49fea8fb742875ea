/**
 * A year with a clock that is set by hand: two lakes in zones whose clock changes fall on different days, outages,
 * restarts, kills in the middle of an issue, failures, clocks set back. Every local date has exactly one issue where
 * there was a chance for one within grace, and otherwise exactly one written-down miss.
 */
import fc from 'fast-check';
import { DateTime } from 'luxon';
import { describe, expect, it } from 'vitest';
import { freshRecord } from '../helpers/record.ts';
import { deliverPass, dueSlots, schedulePass, type KnownRun } from '../../src/schedule/index.ts';
import { addReader, DEFAULT_WISHES } from '../../src/delivery/index.ts';
import { config, lake } from '../delivery/kit.ts';
import { counting, deps, made, pipeline } from './kit.ts';

const LAKES = [lake(), lake({ id: 'tarn', name: 'Tarn Eldrick', zone: 'Australia/Sydney' })];
const MINUTE_MS = 60_000;
const HOUR_MS = 60 * MINUTE_MS;
const DAY_MS = 24 * HOUR_MS;
const FROM_MS = Date.parse('2026-01-01T00:00:00Z');
/** Weeks in which the clocks of both lakes change; the long form is the whole year (npm run test:long). */
const SPANS =
  process.env['THAWLINE_LONG'] === undefined
    ? [
        { name: 'the weeks of spring in the north', from: '2026-03-01', days: 42 },
        { name: 'the weeks of autumn in the north', from: '2026-09-27', days: 42 },
      ]
    : [{ name: 'the year', from: '2026-01-01', days: 365 }];

/** Local dates with the instants between which an issue counts, worked out apart from the code under test. */
function windows(
  zone: string,
  fromMs: number,
  days: number,
): { date: string; dueMs: number; endMs: number }[] {
  const first = DateTime.fromMillis(fromMs, { zone }).startOf('day');
  return Array.from({ length: days }, (_, n) => {
    const due = first.plus({ days: n }).set({ hour: 5, minute: 15 });
    return { date: due.toISODate() ?? '', dueMs: due.toMillis(), endMs: due.toMillis() + 180 * MINUTE_MS };
  });
}

function lehmer(seed: number): () => number {
  let state = (seed % 2147483646) + 1;
  return () => (state = (state * 48271) % 2147483647) / 2147483647;
}

describe('a simulated year', () => {
  it(
    'gives every local date exactly one issue or one noted miss (run rows in memory, several years)',
    { timeout: 1_800_000 },
    () => {
      fc.assert(
        fc.property(
          fc.integer({ min: 1, max: 2 ** 30 }),
          fc.double({ min: 0, max: 0.05, noNaN: true }),
          (seed, outageShare) => {
            const random = lehmer(seed);
            const runs: KnownRun[] = [];
            const chances = new Map<string, number>();
            let first: number | undefined;
            let ms = FROM_MS;
            while (ms < FROM_MS + 365 * DAY_MS) {
              ms += random() < outageShare ? random() * 3 * DAY_MS : (40 + random() * 130) * MINUTE_MS;
              if (random() < 0.005) ms -= random() * 3 * HOUR_MS;
              ms = Math.round(ms);
              first ??= ms;
              for (const slot of dueSlots(ms, LAKES, runs)) {
                const key = `${slot.lakeId} ${slot.localDate}`;
                // One issue in ten fails and stays to be tried again.
                const failed = slot.action === 'issue' && random() < 0.1;
                if (slot.action === 'issue' && !failed) chances.set(key, (chances.get(key) ?? 0) + 1);
                const at = runs.findIndex((r) => r.lakeId === slot.lakeId && r.localDate === slot.localDate);
                if (at >= 0) runs.splice(at, 1);
                const state = failed ? 'failed' : slot.action === 'issue' ? 'issued' : 'missed';
                runs.push({ ...slot, state, leaseUntilMs: 0 });
              }
            }
            for (const { id, zone } of LAKES) {
              const seen = runs
                .filter((r) => r.lakeId === id)
                .map((r) => r.localDate)
                .sort();
              expect(new Set(seen).size).toBe(seen.length);
              const all = windows(zone, FROM_MS, 372)
                .map((w) => w.date)
                .filter((d) => d >= (seen[0] ?? '') && d <= (seen.at(-1) ?? ''));
              expect(seen).toEqual(all);
            }
            expect([...chances.values()].every((n) => n === 1)).toBe(true);
          },
        ),
        { numRuns: 3 },
      );
    },
  );

  it.each(SPANS)(
    'mails each reader exactly once each such date (real record, real outbox): $name',
    { timeout: 1_800_000 },
    async ({ from, days }) => {
      const record = await freshRecord();
      const fromMs = Date.parse(`${from}T00:00:00Z`);
      const random = lehmer(8);
      const clock = { ms: fromMs };
      const transport = counting(clock);
      const settings = config({ lakes: LAKES });
      for (const { id } of LAKES) {
        const context = { knownLakes: LAKES.map((l) => l.id), nowMs: clock.ms };
        await addReader(record, `${id}@post.example`, { ...DEFAULT_WISHES, lakes: [id] }, context);
      }
      /** Passes at which a lake could have been issued, by lake: nothing failed and nobody was killed. */
      const chances = new Map(LAKES.map(({ id }) => [id, [] as number[]]));
      let process = 0;
      let fate: 'well' | 'fails' | 'killed' = 'well';
      let kill: () => void = () => undefined;
      const stub = pipeline({
        makeBriefing: (id) => {
          if (fate === 'fails') return Promise.reject(new Error('a fault'));
          if (fate === 'killed') {
            kill();
            return new Promise(() => undefined);
          }
          return Promise.resolve(made({ document: { id } }));
        },
      });
      while (clock.ms < fromMs + days * DAY_MS) {
        fate = random() < 0.85 ? 'well' : random() < 0.5 ? 'fails' : 'killed';
        const killed = new Promise<'killed'>((resolve) => (kill = () => resolve('killed')));
        const work = deps(
          record,
          clock,
          { pipeline: stub, transport, owner: `host|1|${process}|x` },
          settings,
        );
        const end = await Promise.race([schedulePass(work).then(() => 'done' as const), killed]);
        if (end === 'killed') process += 1;
        else await deliverPass(work);
        if (fate === 'well') for (const { id } of LAKES) chances.get(id)?.push(clock.ms);
        const near = LAKES.some(({ zone }) => {
          const { hour } = DateTime.fromMillis(clock.ms, { zone });
          return hour >= 3 && hour < 8;
        });
        const outage = random() < 0.004;
        if (outage) process += 1;
        clock.ms += outage
          ? random() * 3 * DAY_MS
          : near
            ? (35 + random() * 40) * MINUTE_MS
            : (150 + random() * 120) * MINUTE_MS;
        if (random() < 0.002) clock.ms -= random() * 3 * HOUR_MS;
        clock.ms = Math.round(clock.ms);
      }
      const figures: Record<string, number> = {};
      for (const { id, zone } of LAKES) {
        const runs = await record.db
          .selectFrom('runs')
          .selectAll()
          .where('lake_id', '=', id)
          .orderBy('local_date')
          .execute();
        const mails = transport.sent.filter((mail) => mail.to === `${id}@post.example`);
        expect(new Set(mails.map((mail) => mail.id)).size).toBe(mails.length);
        const issued = runs.filter((r) => r.state === 'issued').map((r) => r.local_date);
        expect(mails.length).toBe(issued.length);
        const first = runs[0]?.local_date ?? '';
        const expected = windows(zone, fromMs, days + 7).filter((w) => w.date > first && w.endMs < clock.ms);
        const possible = expected.filter((w) =>
          (chances.get(id) ?? []).some((ms) => ms >= w.dueMs && ms <= w.endMs),
        );
        expect(possible.filter((w) => !issued.includes(w.date)).map((w) => w.date)).toEqual([]);
        const noted = runs.filter((r) => r.state === 'missed').map((r) => r.local_date);
        const impossible = expected.filter((w) => !possible.includes(w)).map((w) => w.date);
        expect(impossible.filter((date) => !noted.includes(date) && !issued.includes(date))).toEqual([]);
        expect(issued.length).toBeGreaterThan(0.8 * days);
        expect(noted.length).toBeGreaterThan(0);
        figures[`${id} issued`] = issued.length;
        figures[`${id} missed`] = noted.length;
      }
      if (globalThis.process.env['THAWLINE_FIGURES'] !== undefined) {
        globalThis.process.stderr.write(`${JSON.stringify({ ...figures, restarts: process })}\n`);
      }
      await record.close();
    },
  );
});
