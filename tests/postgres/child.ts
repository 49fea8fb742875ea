/** A process to be killed, stopped or cut off: a worker, or the pages. */
import { createSender, createTransport, linkMaker } from '../../src/delivery/index.ts';
import { loadRules } from '../../src/config/rules.ts';
import { openServerRecord } from '../../src/record/openServer.ts';
import { openEngine, runWorker, sharedClock } from '../../src/schedule/index.ts';
import { startWebServer } from '../../src/web/index.ts';
import { config, SECRET, silent } from '../delivery/kit.ts';
import { made } from '../schedule/kit.ts';
import { clockOf, lakesOf, type Role } from './scene.ts';

const role = JSON.parse(process.argv[2] ?? '{}') as Role;
const database = clockOf(role.clockFile);
const machine = (): number => database.now() + role.clockOffMs;
const settings = config({ lakes: lakesOf(role.lakes, role.zone) }, { connections: role.connections });
const record = await openServerRecord(role.address, { answerMs: 4000 });
const stop = new AbortController();
process.on('SIGTERM', () => stop.abort());
process.on('message', () => {
  global.gc?.();
  const { heapUsed, rss } = process.memoryUsage();
  process.send?.({ heapBytes: heapUsed, rssBytes: rss });
});

if (role.kind === 'web') {
  const server = await startWebServer(
    { config: settings, record, rules: loadRules(), secret: SECRET, now: machine },
    0,
  );
  process.send?.({ port: server.port });
  stop.signal.addEventListener('abort', () => void server.close().then(() => record.close()));
} else {
  const engine = await openEngine(record, role.address, {
    log: silent,
    pollS: 0.5,
    lostAfterS: 10,
    answerMs: 4000,
  });
  const clock = sharedClock(record, machine, () => Promise.resolve(database.now()));
  await clock.set();
  process.send?.('ready');
  await runWorker(
    {
      record,
      config: settings,
      pipeline: {
        refresh: () => Promise.resolve({ ok: true, problem: '' }),
        makeBriefing: (id) => Promise.resolve(made({ document: { id, by: role.owner } })),
      },
      transport: createTransport(settings.mail, { SMTP_URL: role.smtpUrl }),
      links: linkMaker('https://briefing.example', SECRET),
      sender: createSender(settings.mail, { count: 1_000_000, windowMs: 60_000 }),
      owner: role.owner,
      now: clock.now,
      sleep: async (ms) => {
        await new Promise((resolve) => setTimeout(resolve, ms));
      },
      random: () => Math.random(),
      log: silent,
      env: {},
      signal: stop.signal,
    },
    engine,
    clock.set,
    { beatMs: 300, passMs: role.passMs ?? 300 },
  );
  await record.close();
  process.exit(0);
}
