import type { Command } from 'commander';
import { loadConfig } from '../config/index.ts';
import {
  classifyFailure,
  createTransport,
  normalAddress,
  sender,
  type MailTransport,
} from '../delivery/index.ts';
import { ThawlineError } from '../units/index.ts';
import { configPath } from './context.ts';
import { say } from './output.ts';

const TEXT = `This is a trial of the way that the morning briefing takes.

If you read it in your inbox, mail leaves this machine and is let in. If it lies
among the unwanted mail, see what \`thawline check\` says of SPF, DKIM and DMARC.
`;

async function trial(to: string, transport: MailTransport, from: string): Promise<string> {
  const address = normalAddress(to);
  const by = sender(from);
  try {
    await transport.verify();
    const { response } = await transport.send({
      from: by,
      to: { name: '', address },
      envelope: { from: by.address, to: [address] },
      subject: 'Trial of the morning briefing',
      text: TEXT,
      headers: { 'Auto-Submitted': 'auto-generated' },
    });
    return response;
  } catch (error) {
    if (error instanceof ThawlineError) throw error;
    throw new ThawlineError('mail', `The trial did not leave. ${classifyFailure(error).sentence}`, {
      cause: error,
    });
  }
}

export function addMailCommands(program: Command): void {
  const mail = program.command('mail').description('the way out for mail');
  mail
    .command('test <address>')
    .description('sign in to the mail server and send one short trial mail')
    .action(async (address: string, _: unknown, command: Command) => {
      const { mail: settings } = await loadConfig(configPath(command));
      const transport = createTransport(settings, process.env);
      try {
        const response = await trial(address, transport, settings.from);
        say(
          `Taken by the ${settings.transport === 'smtp' ? 'mail server' : settings.transport}: ${response}`,
        );
      } finally {
        await transport.close();
      }
    });
}
