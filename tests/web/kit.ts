import { sampleFacts } from '../helpers/sampleBriefing.ts';
import { sampleAdvice } from '../helpers/sampleReport.ts';
import type { Hono } from 'hono';
import type { Config, LakeConfig } from '../../src/config/types.ts';
import { loadRules } from '../../src/config/rules.ts';
import {
  addReader,
  DEFAULT_WISHES,
  linkMaker,
  packRendering,
  type Reader,
} from '../../src/delivery/index.ts';
import { storeBriefing } from '../../src/record/schedule/briefings.ts';
import { openRecord, type RecordStore } from '../../src/record/index.ts';
import { readerById } from '../../src/record/delivery/readers.ts';
import { createWebApp, type WebDeps } from '../../src/web/index.ts';

export const SECRET = 'a secret of at least thirty-two characters';
export const BASE = 'http://127.0.0.1:8080';
export const NOW = Date.UTC(2026, 2, 6, 12);

const lake = (id: string, name: string): LakeConfig => ({
  id,
  name,
  latDeg: 35.5,
  lonDeg: -92.5,
  zone: 'America/Chicago',
  waterBody: 'highland-reservoir',
  meanDepthM: 12,
  areaKm2: 12,
  bankDeg: 20,
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
});

export const CONFIG: Config = {
  path: 'test',
  lakes: [lake('pine-hollow', 'Pine Hollow Lake'), lake('cedar', 'Cedar <Fork> & Co')],
  readers: [],
  tackle: { reels: [], linesKg: [], castLengthM: 22.9 },
  mail: {
    from: 'briefing@example.org',
    transport: 'directory',
    directory: 'out',
    smtpUrlEnv: 'X',
    ratePerSecond: 1,
    connections: 1,
    listId: 'briefing.example.org',
  },
  web: { baseUrl: BASE, port: 8080, secretEnv: 'X' },
  services: { contact: '', baseUrls: {}, usgsKeyEnv: 'X', timeoutMs: 1000, parallelPerHost: 1 },
  recordPath: ':memory:',
  thresholds: {},
};

const RULES = loadRules();

export interface Site {
  readonly app: Hono;
  readonly deps: WebDeps;
  readonly record: RecordStore;
  readonly faults: unknown[];
  /** Pages that failed, as method and pattern. */
  readonly failed: string[];
  clockMs: number;
  /** A form as a browser sends it from one of our pages. */
  post(
    path: string,
    fields: readonly (readonly [string, string])[],
    headers?: Record<string, string>,
  ): Promise<Response>;
  get(path: string): Promise<Response>;
  reader(address?: string): Promise<Reader>;
  /** Paths of a reader's links, without the base address. */
  links(
    id: string,
  ): Promise<
    Record<'settings' | 'leave' | 'outing' | 'oneClick' | 'confirm' | 'leaveSure' | 'ownOutings', string>
  >;
  /** Kinds of what waits in the outbox. */
  letters(): Promise<string[]>;
}

/** Who subscribes is answered as soon as the work is done; how long the program waits is asked in visitor.test.ts. */
const AT_ONCE: Partial<WebDeps> = { answerMs: 0 };

export async function site(config: Config = CONFIG, more = AT_ONCE): Promise<Site> {
  const record = more.record ?? (await openRecord(':memory:'));
  const faults: unknown[] = [];
  const failed: string[] = [];
  const self: Pick<Site, 'clockMs'> = { clockMs: NOW };
  const deps: WebDeps = {
    config,
    record,
    rules: RULES,
    secret: SECRET,
    now: () => made.clockMs,
    onFault: (error, page) => {
      faults.push(error);
      failed.push(page);
    },
    ...more,
  };
  const app = createWebApp(deps);
  const made: Site = {
    ...self,
    app,
    deps,
    record,
    faults,
    failed,
    post: async (path, fields, headers = {}) =>
      app.request(BASE + path, {
        method: 'POST',
        body: new URLSearchParams(fields.map(([name, value]): [string, string] => [name, value])),
        headers: { origin: BASE, ...headers },
      }),
    get: async (path) => app.request(BASE + path),
    reader: (address = 'ann@example.org') =>
      addReader(
        record,
        address,
        { ...DEFAULT_WISHES, lakes: ['pine-hollow'] },
        { knownLakes: ['pine-hollow'], nowMs: NOW },
      ),
    links: async (id) => {
      const row = await readerById(record, id);
      if (row === undefined) throw new Error('no such reader');
      const maker = linkMaker(BASE, SECRET);
      const { settings, leave, outing } = maker.body(row, 'pine-hollow', made.clockMs);
      const all = {
        settings,
        leave,
        outing,
        oneClick: maker.oneClick(row, made.clockMs),
        confirm: maker.confirm(row, made.clockMs),
        leaveSure: maker.leaveSure(row, made.clockMs),
        ownOutings: maker.ownOutings(row, made.clockMs),
      };
      return Object.fromEntries(Object.entries(all).map(([k, v]) => [k, v.slice(BASE.length)])) as typeof all;
    },
    letters: async () =>
      (await record.db.selectFrom('outbox').select('edition').orderBy('id').execute()).map(
        ({ edition }) => edition,
      ),
  };
  return made;
}

export const tokenOf = (path: string): string => new URL(path, BASE).searchParams.get('t') ?? '';

/** Facts of a morning at level 3, whose front says the warning. */
function issuedFacts(localDate: string, warning: string) {
  const advice = sampleAdvice();
  const [hazard] = advice.safety.hazards;
  if (hazard === undefined) throw new Error('the sample has no hazard');
  const hazards = [{ ...hazard, level: 3 as const, headline: warning }];
  return {
    ...sampleFacts({ advice: { ...advice, safety: { ...advice.safety, level: 3, hazards } } }),
    date: localDate,
  };
}

/** An issued briefing of the archive, with the pictures that were mailed. */
export async function issue(record: RecordStore, localDate: string, warning = 'Cold water.'): Promise<void> {
  const facts = issuedFacts(localDate, warning);
  const mailed = (units: 'us' | 'metric'): string =>
    packRendering({
      subject: 'Pine Hollow Lake',
      html: '<!doctype html><html lang="en"><body><h1>As it was mailed</h1></body></html>',
      text: 'As it was mailed',
      short: '',
      attachments: ['day', 'ten-days'].map((id) => ({
        filename: `${id}.png`,
        contentType: 'image/png',
        content: new Uint8Array([1, 2, 3]),
        cid: `${id}.${facts.lake.id}.${units}@thawline`,
      })),
    });
  await storeBriefing(
    record,
    { lakeId: 'pine-hollow', localDate, edition: 'morning' },
    {
      issuedMs: NOW,
      documentJson: JSON.stringify(facts),
      renderings: (['us', 'metric'] as const).map((units) => ({ units, form: 'full', json: mailed(units) })),
    },
  );
}
