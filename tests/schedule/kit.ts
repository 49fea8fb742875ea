/** A pipeline that asks nobody, and a way out that only counts. */
import type { Config } from '../../src/config/types.ts';
import { linkMaker, type MailTransport } from '../../src/delivery/index.ts';
import type { RecordStore } from '../../src/record/index.ts';
import type { MadeBriefing, Pipeline, ScheduleDeps } from '../../src/schedule/index.ts';
import { config, rendered, SECRET, silent, type Clock } from '../delivery/kit.ts';

export interface Counting extends MailTransport {
  /** `recipient Message-ID` of everything sent. */
  readonly sent: { to: string; id: string; subject: string; inReplyTo?: string; atMs: number }[];
}

export function counting(clock: Clock): Counting {
  const sent: Counting['sent'] = [];
  return {
    kind: 'stdout',
    connections: 2,
    sent,
    send: (message) => {
      const { messageId, subject, inReplyTo } = message;
      const first: unknown = [message.envelope?.to].flat()[0];
      const to = typeof first === 'string' ? first : '';
      const follows = typeof inReplyTo === 'string' ? { inReplyTo } : {};
      sent.push({ to, id: String(messageId), subject: String(subject), ...follows, atMs: clock.ms });
      return Promise.resolve({ response: 'counted' });
    },
    verify: () => Promise.resolve(),
    close: () => Promise.resolve(),
  };
}

export function made(change: Partial<MadeBriefing> = {}): MadeBriefing {
  return {
    document: { demo: true },
    safetyLevel: 2,
    firstPlace: 'inflow-pocket-back',
    render: () => Promise.resolve(rendered()),
    ...change,
  };
}

export function pipeline(change: Partial<Pipeline> = {}): Pipeline {
  return {
    refresh: () => Promise.resolve({ ok: true, problem: '' }),
    makeBriefing: () => Promise.resolve(made()),
    ...change,
  };
}

export function deps(
  record: RecordStore,
  clock: Clock,
  change: Partial<ScheduleDeps> = {},
  settings: Config = config(),
): ScheduleDeps {
  return {
    record,
    config: settings,
    pipeline: pipeline(),
    transport: counting(clock),
    links: linkMaker('https://briefing.example', SECRET),
    owner: 'test|0|0|a',
    now: () => clock.ms,
    sleep: () => Promise.resolve(),
    random: () => 0.5,
    log: silent,
    ...change,
  };
}
