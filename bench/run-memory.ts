/**
 * Memory of `thawline run` before and after page requests: one lake on the demonstration's data moved to now, one issue,
 * then three rounds of requests. After each, resident memory as it stands, and what the heap holds once it was collected:
 * a leak grows with the rounds, a heap that was let grow does not.
 *
 *   npm run build && npx tsx bench/run-memory.ts [requests a round]
 */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { DateTime } from 'luxon';
import { startDemoServer, type DemoData } from '../src/cli/demoServer.ts';
import { HOUR_MS } from '../src/units/time/calendar.ts';

const ROUNDS = 3;
const AT_ONCE = 8;
const PORT = 8397;
const ZONE = 'America/Chicago';
const requests = Number(process.argv[2] ?? 3334);

const demo = JSON.parse(readFileSync('fixtures/demo/ossarly.json', 'utf8')) as DemoData;
const shiftS = (Math.floor((Date.now() - Date.parse(demo.asOf)) / HOUR_MS) * HOUR_MS) / 1000;
const moved = (times: readonly number[] = []): number[] => times.map((time) => time + shiftS);
const server = await startDemoServer({
  ...demo,
  asOf: new Date().toISOString(),
  hourly: { ...demo.hourly, time: moved(demo.hourly['time']) },
  gauges: { ...demo.gauges, time: moved(demo.gauges.time) },
});

const folder = mkdtempSync(join(tmpdir(), 'thawline-memory-'));
const config = join(folder, 'thawline.yaml');
const issueAt = DateTime.now().setZone(ZONE).minus({ minutes: 10 }).toFormat('HH:mm');
writeFileSync(
  config,
  `record: r.sqlite
lakes:
  - id: ossarly
    name: Ossarly Lake
    position: { lat: ${demo.latitude}, lon: ${demo.longitude} }
    zone: ${ZONE}
    waterBody: highland-reservoir
    meanDepth: 42 ft
    area: 6200 acres
    fetch: 3.5 mi
    weather: [open-meteo]
    issueAt: '${issueAt}'
    graceMinutes: 600
readers: [{ address: ann@example.org, lakes: [ossarly], units: us }]
mail: { from: "Desk <desk@example.org>", transport: directory, directory: ${join(folder, 'mail')} }
web: { baseUrl: "http://127.0.0.1:${PORT}", port: ${PORT}, listen: 127.0.0.1 }
services: { contact: desk@example.org, baseUrls: { open-meteo: "${server.url}", open-meteo-archive: "${server.url}" } }
`,
);

// Collects, and writes down what is left, when it is told to.
const told = join(folder, 'heap');
const probe = `import{writeFileSync}from'node:fs';process.on('SIGUSR2',()=>{for(let i=0;i<4;i++)globalThis.gc();writeFileSync(${JSON.stringify(told)},String(process.memoryUsage().heapUsed))})`;
const child = spawn(
  process.execPath,
  [
    '--expose-gc',
    '--import',
    `data:text/javascript,${encodeURIComponent(probe)}`,
    'dist/cli/main.js',
    '--config',
    config,
    'run',
  ],
  { stdio: ['ignore', 'ignore', 'inherit'], env: { ...process.env, THAWLINE_LOG: 'error' } },
);

const mib = (bytes: number): string => `${Math.round(bytes / 2 ** 20)} MiB`;
const statusLine = (name: string): number =>
  Number(new RegExp(`${name}:\\s+(\\d+)`).exec(readFileSync(`/proc/${child.pid}/status`, 'utf8'))?.[1]) *
  1024;

async function report(when: string): Promise<void> {
  const [resident, most] = [statusLine('VmRSS'), statusLine('VmHWM')];
  rmSync(told, { force: true });
  child.kill('SIGUSR2');
  while (!existsSync(told)) await sleep(50);
  await sleep(50);
  console.log(
    `${when}: resident ${mib(resident)} (most so far ${mib(most)}); collected: heap ${mib(Number(readFileSync(told, 'utf8')))}, resident ${mib(statusLine('VmRSS'))}`,
  );
}

const base = `http://127.0.0.1:${PORT}`;
const latest = `${base}/lakes/ossarly/latest.json`;
while (
  !(await fetch(latest).then(
    ({ ok }) => ok,
    () => false,
  ))
)
  await sleep(500);
await sleep(5000);
await report('after one issue');

const today = DateTime.now().setZone(ZONE).toISODate();
const paths = [
  '/',
  '/subscribe',
  '/what-if',
  '/what-if?water.main=47+F&date=2026-03-06',
  '/briefings',
  '/briefings/ossarly',
  `/briefings/ossarly/${today}/morning`,
  '/lakes/ossarly/latest.json',
  '/evidence',
  '/nowhere',
];
for (let round = 1, n = 0; round <= ROUNDS; round += 1) {
  const end = n + requests;
  const visit = async (): Promise<void> => {
    while (n < end) {
      const k = (n += 1);
      // As a proxy on this machine names them: no visitor comes often enough to be sent away.
      const visitor = `10.${(k >> 16) & 255}.${(k >> 8) & 255}.${k & 255}`;
      const reply = await fetch(base + (paths[k % paths.length] ?? '/'), {
        headers: { 'x-forwarded-for': visitor },
      });
      await reply.arrayBuffer();
    }
  };
  await Promise.all(Array.from({ length: AT_ONCE }, visit));
  await report(`after ${n} requests`);
}
child.kill('SIGTERM');
await once(child, 'exit');
await server.close();
rmSync(folder, { recursive: true, force: true });
