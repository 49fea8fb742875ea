import { randomBytes } from 'node:crypto';
import { join } from 'node:path';
import { readFile } from 'node:fs/promises';
import type { Command } from 'commander';
import { z } from 'zod';
import { whatIfSchema } from '../advice/whatIf/index.ts';
import { briefingSchema } from '../briefing/index.ts';
import {
  type Config,
  configSchema,
  FIELD_WORDS,
  goneWords,
  jsonSchemaOf,
  type LakeConfig,
  loadConfig,
  loadRules,
  movedWords,
  sortedThresholds,
} from '../config/index.ts';
import { makeBriefing, type PipelineContext } from '../schedule/index.ts';
import { linkSecret } from '../delivery/index.ts';
import { examineRecord } from '../record/index.ts';
import { renderBriefing, type RenderedBriefing } from '../render/index.ts';
import { createClient, probeServices } from '../services/index.ts';
import { ThawlineError } from '../units/index.ts';
import { twinSchema } from '../words/index.ts';
import {
  gaugeFinding,
  outlineFindings,
  pageFindings,
  poolFinding,
  shapeFindings,
  waveFindings,
  zoneFinding,
  type Finding,
} from './checkLake.ts';
import { linkFinding, listenFinding, mailFindings, sendTrial, transportOf } from './checkMail.ts';
import { configPath, withConfig } from './context.ts';
import { say, writeWhole } from './output.ts';

/** JSON Schemas for editors and other programs, made from the same schemas that check the files. */
export function writeSchemas(folder: string): string[] {
  const schemas = {
    config: jsonSchemaOf(configSchema, 'input', FIELD_WORDS),
    briefing: z.toJSONSchema(twinSchema, { io: 'output', unrepresentable: 'any' }),
    facts: z.toJSONSchema(briefingSchema, { io: 'output', unrepresentable: 'any' }),
    conditions: jsonSchemaOf(whatIfSchema, 'input'),
  };
  return Object.entries(schemas).map(([name, schema]) => {
    const path = join(folder, `${name}.schema.json`);
    writeWhole(path, `${JSON.stringify(schema, null, 2)}\n`);
    return path;
  });
}

/** The secret that mails are signed with; where none was made yet, one for this trial. */
const secretFor = (config: Config): string =>
  linkSecret(config, process.env, 'look') ?? randomBytes(32).toString('hex');

async function recordFinding({ recordPath }: Config): Promise<Finding> {
  try {
    const { isThere } = await examineRecord(recordPath);
    return {
      ok: true,
      sentence: `record: ${isThere ? 'whole and writable' : 'can be made'} (${recordPath})`,
    };
  } catch (error) {
    if (error instanceof ThawlineError) return { ok: false, sentence: `record: ${error.message}` };
    throw error;
  }
}

interface Options {
  readonly schemas?: string;
  readonly services: boolean;
  readonly links: boolean;
  readonly mail?: string;
}

const mark = ({ ok, sentence }: Finding): string => `${ok ? 'well ' : 'WRONG'}  ${sentence}`;

/** What the configuration alone says of a lake. */
const ownFindings = (lake: LakeConfig, nowMs: number): Finding[] => [
  zoneFinding(lake, nowMs),
  ...shapeFindings(lake),
  ...outlineFindings(lake),
  ...waveFindings(lake),
];

/** The lake as it would be read this morning, from services alone and into memory: nothing is written. */
async function proveLake(
  ctx: PipelineContext,
  lake: LakeConfig,
  nowMs: number,
): Promise<{ findings: Finding[]; page: RenderedBriefing; localDate: string }> {
  const { document, report, view } = await makeBriefing(ctx, lake.id, { asOfMs: nowMs, offline: false });
  const page = await renderBriefing(document, { units: 'us', form: 'full' });
  const failed = view.retrievals
    .filter(({ ok }) => !ok)
    .map(({ source, problem }) => `${source}: ${problem}`);
  return {
    findings: [
      ...[...new Set(failed)].map((sentence) => ({ ok: false, sentence })),
      ...lake.gauges.map((gauge) => gaugeFinding(gauge, lake, view)),
      ...poolFinding(lake, report),
      ...pageFindings(report),
    ],
    page,
    localDate: document.date,
  };
}

async function prove(ctx: PipelineContext, options: Options, record: Finding): Promise<Finding[]> {
  const { config } = ctx;
  const all: Finding[] = [];
  const tell = (findings: readonly Finding[]): void => {
    all.push(...findings);
    findings.map(mark).forEach(say);
  };
  tell([record]);
  const transport = transportOf(config, ctx.env);
  for (const lake of config.lakes) {
    say(`${lake.name} (${lake.id})`);
    tell(ownFindings(lake, Date.now()));
    if (!options.services) continue;
    const { findings, page, localDate } = await proveLake(ctx, lake, Date.now());
    tell(findings);
    if (options.mail !== undefined && !('ok' in transport)) {
      await sendTrial(ctx, transport, lake.id, localDate, page, options.mail);
      say(`the page of ${lake.name} is on its way to ${options.mail}`);
    }
  }
  if ('ok' in transport) tell([transport]);
  else {
    say('Mail and links');
    tell(await mailFindings(config, transport).finally(() => transport.close()));
  }
  const { gone, moved } = sortedThresholds(loadRules(), config.thresholds);
  tell([...gone.map(goneWords), ...moved.map(movedWords)].map((sentence) => ({ ok: false, sentence })));
  tell(await listenFinding(config));
  if (options.links) tell([await linkFinding(ctx)]);
  return all;
}

export function addCheckCommand(program: Command): void {
  program
    .command('check')
    .description(
      'prove the morning: every gauge, position and zone, the page of today, the way out for mail and back by its links',
    )
    .option('--schemas <dir>', 'also write the JSON Schemas for editors into this folder')
    .option('--no-services', 'ask no service')
    .option('--no-links', 'do not open a link through web.baseUrl')
    .option('--mail <address>', "send today's real page there")
    .option('--contracts', 'compare what the services answer now with what this program expects of them')
    .action(async (options: Options & { contracts?: boolean }, command: Command) => {
      if (options.mail !== undefined && !options.services)
        throw new ThawlineError(
          'usage',
          '--mail sends the page of today, which is made from the services: leave out --no-services. To try the way out alone: thawline mail test <address>.',
        );
      const config = await loadConfig(configPath(command));
      const count = (n: number, what: string): string => `${n} ${what}${n === 1 ? '' : 's'}`;
      say(
        `${config.path}: ${count(config.lakes.length, 'lake')}, ${count(config.readers.length, 'reader')}, all fields as expected`,
      );
      if (options.schemas !== undefined)
        for (const path of writeSchemas(options.schemas)) say(`${path}: written`);
      if (options.contracts === true) return contracts(config);
      const record = await recordFinding(config);
      // Into memory, so that it works where nothing may be written and leaves no trace of a trial.
      const env = { ...process.env, [config.web.secretEnv]: secretFor(config) };
      const found = await withConfig({ ...config, recordPath: ':memory:' }, (ctx) =>
        prove({ ...ctx, env }, options, record),
      );
      const bad = found.filter(({ ok }) => !ok).length;
      if (bad === 0) {
        say('All as expected.');
        return;
      }
      throw new ThawlineError(
        'config',
        `${count(bad, 'thing')} above must be mended before the morning can be trusted.`,
      );
    });
}

/** What each service answers now, against the shapes that are expected of it. */
async function contracts(config: Config): Promise<void> {
  const usgsKey = process.env[config.services.usgsKeyEnv];
  const { contact, timeoutMs, parallelPerHost } = config.services;
  const client = createClient({ contact, timeoutMs, parallelPerHost, attempts: 1 });
  const results = await probeServices(config, {
    client,
    nowMs: Date.now(),
    readFile: (path) => readFile(path, 'utf8'),
    ...(usgsKey ? { usgsKey } : {}),
  }).finally(() => client.close());
  for (const { service, ok, ms, sentence } of results)
    say(mark({ ok, sentence: `${service} (${Math.round(ms)} ms): ${sentence}` }));
  const bad = results.filter((row) => !row.ok).length;
  if (bad > 0)
    throw new ThawlineError(
      'service',
      `${bad} of the services did not answer as they should; the lines above say where.`,
      { retryable: true },
    );
}
