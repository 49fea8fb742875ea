/** Shared ground of the delivery and schedule tests: an invented lake, a record in memory, a clock that is set by hand. */
import pino from 'pino';
import type { Config, LakeConfig } from '../../src/config/types.ts';
import {
  createSender,
  enqueue,
  linkMaker,
  packRendering,
  type DrainDeps,
  type MailTransport,
  type RenderedMail,
} from '../../src/delivery/index.ts';
import { storeBriefing } from '../../src/record/schedule/briefings.ts';
import { insertReader, type DeliveryRecord } from '../../src/record/delivery/readers.ts';
import { DEFAULT_WISHES, newRow } from '../../src/delivery/readers.ts';

export const SECRET = '0123456789abcdef0123456789abcdef0123456789abcdef';
export const MORNING_MS = Date.parse('2026-03-06T11:15:00Z');
export const LOCAL_DATE = '2026-03-06';

export function lake(change: Partial<LakeConfig> = {}): LakeConfig {
  return {
    id: 'ossarly',
    name: 'Lake Ossarly',
    latDeg: 36,
    lonDeg: -92,
    zone: 'America/Chicago',
    waterBody: 'highland-reservoir',
    meanDepthM: 18,
    areaKm2: 80,
    bankDeg: 30,
    belowDam: false,
    species: 'mixed',
    weather: ['open-meteo'],
    alerts: 'none',
    gauges: [],
    pockets: [],
    points: [],
    issueAt: '05:15',
    graceMinutes: 180,
    eveningOutlook: false,
    demo: true,
    ...change,
  };
}

export function config(change: Partial<Config> = {}, mail: Partial<Config['mail']> = {}): Config {
  return {
    path: 'test.yaml',
    lakes: [lake()],
    readers: [],
    tackle: { reels: [], linesKg: [], castLengthM: 25 },
    mail: {
      from: 'River desk <desk@briefing.example>',
      transport: 'smtp',
      directory: 'unused',
      smtpUrlEnv: 'SMTP_URL',
      ratePerSecond: 0,
      connections: 5,
      listId: 'ossarly.briefing.example',
      ...mail,
    },
    web: { baseUrl: 'https://briefing.example', port: 0, secretEnv: 'SECRET' },
    services: {
      contact: 'desk@briefing.example',
      baseUrls: {},
      usgsKeyEnv: 'K',
      timeoutMs: 1000,
      parallelPerHost: 1,
    },
    recordPath: ':memory:',
    thresholds: {},
    ...change,
  };
}

export function rendered(change: Partial<RenderedMail> = {}): RenderedMail {
  return {
    subject: 'Lake Ossarly Fri 6 Mar - level 2 extra care: 8 °C water, river rising',
    html: '<!doctype html><html lang="en"><body><h1>Wärmer</h1><img src="cid:trend" alt="Trend"><!--personal-links--></body></html>',
    text: 'BOTTOM LINE  Third warm day; go to the backs of inflow pockets – after 11:00.\n',
    short: 'Warm: backs of pockets after 11.',
    attachments: [
      {
        filename: 'trend.png',
        contentType: 'image/png',
        cid: 'trend',
        content: new Uint8Array([137, 80, 78, 71, 1, 2, 3]),
      },
    ],
    ...change,
  };
}

export interface Clock {
  ms: number;
}

export const silent = pino({ level: 'silent' });

export function drainDeps(
  transport: MailTransport,
  clock: Clock,
  change: Partial<DrainDeps> = {},
): DrainDeps {
  return {
    mail: config().mail,
    transport,
    links: linkMaker('https://briefing.example', SECRET),
    owner: 'test|0|0|a',
    now: () => clock.ms,
    sleep: (ms) => {
      clock.ms += ms;
      return Promise.resolve();
    },
    random: () => 0.5,
    log: silent,
    sender: createSender(config().mail, { count: 1_000_000, windowMs: 60_000 }),
    ...change,
  };
}

export const address = (n: number): string => `reader${n}@post.example`;

/** Readers with numbered addresses who want the lake; returns their ids. */
export async function addReaders(record: DeliveryRecord, count: number, from = 0): Promise<string[]> {
  const ids: string[] = [];
  for (let n = from; n < from + count; n += 1) {
    const wishes = { ...DEFAULT_WISHES, lakes: ['ossarly'] };
    const row = newRow(address(n), wishes, { state: 'active', origin: 'operator', nowMs: MORNING_MS - 1e6 });
    await insertReader(record, row, wishes.lakes);
    ids.push(row.id);
  }
  return ids;
}

/** An issued morning with its renderings and outbox rows. */
export async function issueMorning(
  record: DeliveryRecord,
  mail: RenderedMail = rendered(),
  graceMs = 3 * 3_600_000,
): Promise<number> {
  const key = { lakeId: 'ossarly', localDate: LOCAL_DATE, edition: 'morning' } as const;
  const json = packRendering(mail);
  const renderings = (['us', 'metric'] as const).flatMap((units) =>
    (['full', 'short'] as const).map((form) => ({ units, form, json })),
  );
  await storeBriefing(record, key, { issuedMs: MORNING_MS, documentJson: '{}', renderings });
  return enqueue(record, { ...key, zone: 'America/Chicago', issuedMs: MORNING_MS, graceMs });
}
