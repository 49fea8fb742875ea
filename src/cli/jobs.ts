/** `thawline jobs`: what failed for good, and what the operator decides about it. */
import type { Command } from 'commander';
import type { Config } from '../config/index.ts';
import { mailOf, type OutboxRow, recentFailures, retryMail } from '../record/delivery/index.ts';
import { localDateAt } from '../units/time/index.ts';
import type { RecordStore } from '../record/index.ts';
import { decideFailed, failedForGood, failedLine } from '../schedule/index.ts';
import { ThawlineError } from '../units/index.ts';
import { configPath } from './configPath.ts';
import { say } from './output.ts';
import { withRecord } from './withRecord.ts';

/** Newest mails that are shown. */
const MAILS = 20;

/** Only of a morning that is not over: an older one would mislead who reads it. */
function isOfToday({ lakes }: Config, mail: OutboxRow, nowMs: number): boolean {
  const lake = lakes.find(({ id }) => id === mail.lake_id);
  return lake !== undefined && mail.local_date >= localDateAt(nowMs, lake.zone);
}

async function list(
  record: RecordStore,
  config: Config,
  nowMs: number,
  { json }: { readonly json?: boolean },
): Promise<void> {
  const work = await failedForGood(record);
  const mails = (await recentFailures(record, MAILS)).filter((mail) => isOfToday(config, mail, nowMs));
  if (json === true) {
    const told = mails.map(({ id, lake_id, local_date, edition, reader_id, state, problem }) => ({
      ...{
        id: `mail-${id}`,
        lake: lake_id,
        localDate: local_date,
        edition,
        reader: reader_id,
        state,
        problem,
      },
    }));
    say(JSON.stringify({ work, mails: told }, null, 2));
    return;
  }
  for (const one of work) say(failedLine(one));
  for (const { id, lake_id, local_date, edition, reader_id, state, problem } of mails)
    say(
      `mail-${id}: ${lake_id} ${local_date} ${edition} for reader ${reader_id} ${state}. ${problem ?? ''}`.trimEnd(),
    );
  if (work.length + mails.length === 0) say('Nothing has failed for good.');
}

async function retryOneMail(
  record: RecordStore,
  config: Config,
  name: string,
  nowMs: number,
): Promise<string> {
  const id = Number(name.slice('mail-'.length));
  const found = await mailOf(record, id);
  const lake = config.lakes.find((one) => one.id === found?.lake_id);
  if (found === undefined || lake === undefined || !['failed', 'dropped'].includes(found.state))
    throw new ThawlineError('usage', `No mail that failed is called ${name}: see \`thawline jobs\`.`);
  if (!isOfToday(config, found, nowMs))
    throw new ThawlineError(
      'usage',
      `${name} is of ${found.local_date}, which is over: a briefing is not sent late. Nothing was changed.`,
    );
  await retryMail(record, id, { nowMs, expiresMs: nowMs + lake.graceMinutes * 60_000 });
  return 'a mail';
}

const decide = (command: Command, names: readonly string[], decision: 'retry' | 'drop'): Promise<void> =>
  withRecord(configPath(command), async (record, config) => {
    const nowMs = Date.now();
    for (const name of names) {
      const what =
        decision === 'retry' && /^mail-\d{1,15}$/.test(name)
          ? await retryOneMail(record, config, name, nowMs)
          : await decideFailed(record, name, decision, nowMs);
      say(
        decision === 'retry'
          ? `${name} (${what}) is tried again at the next turn, within a minute.`
          : `${name} (${what}) is let go. What is due of it is asked for anew.`,
      );
    }
  });

export function addJobsCommands(program: Command): void {
  const jobs = program
    .command('jobs')
    .description('work that failed again and again: see it, try it at once, or let it go');
  jobs
    .command('list', { isDefault: true })
    .description('what has failed five times in a row or more, and mails of today that were given up')
    .option('--json', 'as JSON')
    .action((options: { json?: boolean }, command: Command) =>
      withRecord(configPath(command), (record, config) => list(record, config, Date.now(), options)),
    );
  jobs
    .command('retry <name...>')
    .description('try it again at once, as if it had never failed')
    .action((names: string[], _: unknown, command: Command) => decide(command, names, 'retry'));
  jobs
    .command('drop <name...>')
    .description('let it go: it counts no longer, and a bounce report changes nothing')
    .action((names: string[], _: unknown, command: Command) => decide(command, names, 'drop'));
}
