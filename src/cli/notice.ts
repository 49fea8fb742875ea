import { createHash } from 'node:crypto';
import type { Command } from 'commander';
import { DateTime } from 'luxon';
import { type Notice, noticesOf, putNotice, removeNotice } from '../record/schedule/index.ts';
import { localDateAt } from '../units/time/index.ts';
import { outsideText, ThawlineError } from '../units/index.ts';
import { say } from './output.ts';
import { withLake } from './withRecord.ts';

/** A line on the front of a page; what needs more belongs behind an address in it. */
const MOST_CHARACTERS = 300;

/** @throws ThawlineError `usage` when it is no date, or one that has passed */
function lastDay(text: string, today: string): string {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text) || !DateTime.fromISO(text).isValid)
    throw new ThawlineError('usage', `--until: found "${text}", expected a date such as 2026-04-01.`);
  if (text < today)
    throw new ThawlineError('usage', `--until ${text} has passed: at the lake it is ${today}.`);
  return text;
}

const line = ({ id, from, until, text }: Notice): string =>
  `${id}  ${from} ${until === null ? 'until it is removed' : `to ${until}`}: ${text}`;

export function addNoticeCommands(program: Command): void {
  const notice = program.command('notice').description('what you have to tell the readers of a lake');
  notice
    .command('add <lake> <text>')
    .description('put a line on the front of the page, with its date; gone by itself after --until')
    .option('--until <date>', 'last day on which it stands, at the lake; without it until you remove it')
    .action(async (lakeId: string, written: string, options: { until?: string }, command: Command) =>
      withLake(command, lakeId, async (record, lake) => {
        const { text, cut } = outsideText(written, MOST_CHARACTERS);
        if (text === '' || cut || text.includes('\n'))
          throw new ThawlineError('usage', `A notice is one line of 1 to ${MOST_CHARACTERS} characters.`);
        const nowMs = Date.now();
        const from = localDateAt(nowMs, lake.zone);
        const until = options.until === undefined ? null : lastDay(options.until, from);
        const id = createHash('sha256').update(text).digest('hex').slice(0, 6);
        await putNotice(record, lake.id, { id, text, from, until }, nowMs);
        say(line({ id, text, from, until }));
      }),
    );
  notice
    .command('list <lake>')
    .description('notices that stand today')
    .option('--all', 'also those that are over')
    .option('--json', 'as JSON')
    .action(async (lakeId: string, options: { all?: boolean; json?: boolean }, command: Command) =>
      withLake(command, lakeId, async (record, lake) => {
        const today = options.all === true ? undefined : localDateAt(Date.now(), lake.zone);
        const found = await noticesOf(record, lake.id, today);
        if (options.json === true) say(JSON.stringify(found, null, 2));
        else found.map(line).forEach(say);
      }),
    );
  notice
    .command('remove <lake> <id>')
    .description('take a notice away')
    .action(async (lakeId: string, id: string, _: unknown, command: Command) =>
      withLake(command, lakeId, async (record, lake) => {
        if (!(await removeNotice(record, lake.id, id)))
          throw new ThawlineError(
            'usage',
            `There is no notice "${id}": \`thawline notice list ${lake.id} --all\` names them.`,
          );
        say(`removed ${id}`);
      }),
    );
}
