/**
 * What does a season cost beside one morning? Processor time of replaying 120 mornings over that of one briefing made from
 * the record alone and rendered, on an invented year of hourly weather with a forecast: both in one process, where
 * start-up is in neither, and as the two commands of the built program (`npm run build` first).
 * Run: npx tsx bench/replay.ts [days, default 120]
 */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { loadConfig } from '../src/config/index.ts';
import { loadRules } from '../src/config/rules.ts';
import { openRecord } from '../src/record/index.ts';
import { renderBriefing } from '../src/render/index.ts';
import { makeBriefing } from '../src/schedule/makeBriefing.ts';
import { fetchArchive } from '../src/services/index.ts';
import { backFill } from '../src/schedule/replay/backFill.ts';
import { replaySeason } from '../src/schedule/replay/season.ts';
import { clientFor } from '../src/schedule/refresh.ts';
import { addDays, DAY_MS, HOUR_MS } from '../src/units/time/calendar.ts';
import { startSeasonServer } from '../tests/schedule/seasonServer.ts';
import { commandMs } from './builtProgram.ts';

const DAYS = Number(process.argv[2] ?? 120);
const FROM = '2025-02-01';
const ONE_MORNING = 5;
const cpuMs = (): number => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
};

const server = await startSeasonServer();
const folder = mkdtempSync(join(tmpdir(), 'replay-bench-'));
try {
  const example = await loadConfig('config/thawline.example.yaml');
  const config = {
    ...example,
    recordPath: join(folder, 'record.sqlite'),
    services: { ...example.services, baseUrls: { 'open-meteo-archive': server.url } },
  };
  const record = await openRecord(config.recordPath);
  const client = clientFor(config, record);
  const rules = loadRules();
  const ctx = { config, record, rules, env: {}, client };
  const [first] = config.lakes;
  if (first === undefined) throw new Error('the example has no lake');
  const lake = { ...first, latDeg: 36, lonDeg: -92, gauges: [] };
  const season = { from: FROM, to: addDays(FROM, DAYS - 1) };
  // Known early enough that one briefing of the last morning sees the same weather.
  const nowMs = Date.parse(`${addDays(season.to, 20)}T12:00:00Z`);
  const deps = { client, services: config.services, nowMs, pastDays: 0, readFile: () => Promise.resolve('') };
  await backFill(ctx, lake, season, deps);
  // The single briefing has fresh weather too: what came since, and a forecast of an hour ago.
  const recent = await fetchArchive(lake, addDays(season.to, 8), addDays(season.to, 28), {
    ...deps,
    nowMs: nowMs + 30 * DAY_MS,
  });
  await record.putObservations(
    recent.map((row) =>
      row.atMs <= nowMs ? row : { ...row, kind: 'forecast' as const, issuedMs: nowMs - HOUR_MS },
    ),
    nowMs,
  );
  const one = { ...ctx, config: { ...config, lakes: [lake] } };
  const mornings: number[] = [];
  for (let i = 0; i < ONE_MORNING; i += 1) {
    const from = cpuMs();
    const { document } = await makeBriefing(one, lake.id, { asOfMs: nowMs, offline: true });
    await renderBriefing(document, { units: 'us', form: 'full' });
    mornings.push(cpuMs() - from);
  }
  const single = mornings.sort((a, b) => a - b)[Math.floor(ONE_MORNING / 2)] ?? NaN;
  const from = cpuMs();
  let count = 0;
  for await (const { documents } of replaySeason(one, lake, season, [rules])) count += documents.length;
  const whole = cpuMs() - from;
  console.log(
    `one briefing ${single.toFixed(0)} ms, ${count} mornings ${whole.toFixed(0)} ms (${(whole / count).toFixed(0)} ms each): ratio ${(whole / single).toFixed(1)}`,
  );
  await client.close();
  await record.close();

  const yaml = join(folder, 'thawline.yaml');
  const text = readFileSync('config/thawline.example.yaml', 'utf8');
  writeFileSync(yaml, text.replace(/^record:.*$/m, `record: ${JSON.stringify(config.recordPath)}`));
  const asOf = new Date(nowMs).toISOString();
  const out = join(folder, 'out');
  const brief = commandMs(['--config', yaml, 'brief', lake.id, '--offline', '--as-of', asOf, '--out', out]);
  const span = ['--from', season.from, '--to', season.to];
  const replay = commandMs(['--config', yaml, 'replay', lake.id, ...span, '--offline', '--out', out]);
  console.log(
    `as commands: brief --offline ${brief.toFixed(0)} ms, replay --offline ${replay.toFixed(0)} ms: ratio ${(replay / brief).toFixed(1)}`,
  );
} finally {
  await server.close();
  rmSync(folder, { recursive: true, force: true });
}
