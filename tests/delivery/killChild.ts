/** A sender to be killed: waits for the word, takes the schedule over from whoever held it, empties the outbox, ends. */
import { setTimeout as sleep } from 'node:timers/promises';
import { createTransport, linkMaker } from '../../src/delivery/index.ts';
import { openRecord } from '../../src/record/index.ts';
import { nextAttemptMs } from './nextAttempt.ts';
import { deliverPass, ownerName } from '../../src/schedule/index.ts';
import { holdScheduler } from '../../src/schedule/lock.ts';
import { config, MORNING_MS, SECRET, silent } from './kit.ts';

const [path = '', url = '', startMs = '0'] = process.argv.slice(2);
const now = (): number => MORNING_MS + Date.now() - Number(startMs);
await new Promise((resolve) => {
  process.once('message', resolve);
  process.send?.('ready');
});
const record = await openRecord(path);
const settings = config({ recordPath: path });
const deps = {
  record,
  config: settings,
  pipeline: {
    refresh: () => Promise.resolve({ ok: true, problem: '' }),
    makeBriefing: () => Promise.reject(new Error('not asked for here')),
  },
  transport: createTransport(settings.mail, { SMTP_URL: url }),
  links: linkMaker('https://briefing.example', SECRET),
  owner: ownerName(),
  now,
  sleep: async (ms: number) => {
    await sleep(ms);
  },
  random: () => Math.random(),
  log: silent,
};
while (!(await holdScheduler(deps))) await sleep(20);
while ((await nextAttemptMs(record)) !== null) await deliverPass(deps);
await deps.transport.close();
await record.close();
process.disconnect();
