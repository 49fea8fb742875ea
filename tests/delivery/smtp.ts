/** Real SMTP server on loopback that misbehaves to order, and counts what it accepted. */
import type { AddressInfo } from 'node:net';
import { SMTPServer } from 'smtp-server';

export type Mood = 'accept' | 'greylist' | 'refuse' | 'refuse-data' | 'stall' | 'drop' | 'accept-and-die';

export interface TestServer {
  readonly url: string;
  /** Message-IDs accepted, by recipient, in order. */
  readonly accepted: Map<string, string[]>;
  /** Recipients in the order their mails were accepted, copies included. */
  readonly log: string[];
  readonly raw: Buffer[];
  /** Recipients that were offered, whatever became of it. */
  readonly offered: string[];
  close(): Promise<void>;
}

function smtpError(code: number, text: string): Error {
  return Object.assign(new Error(text), { responseCode: code });
}

/** @param moodOf what to do with the nth offer (from 1) of a recipient */
export async function smtpServer(
  moodOf: (recipient: string, nth: number) => Mood = () => 'accept',
  options: { keepRaw?: boolean; answerAfterMs?: number } = {},
): Promise<TestServer> {
  const accepted = new Map<string, string[]>();
  const log: string[] = [];
  const raw: Buffer[] = [];
  const offered: string[] = [];
  const offers = new Map<string, number>();
  const moods = new Map<string, Mood>();
  const sockets = new Set<{ destroy(): unknown }>();
  const server = new SMTPServer({
    disabledCommands: ['AUTH', 'STARTTLS'],
    disableReverseLookup: true,
    logger: false,
    onRcptTo({ address }, session, done) {
      const nth = (offers.get(address) ?? 0) + 1;
      offers.set(address, nth);
      offered.push(address);
      const mood = moodOf(address, nth);
      moods.set(session.id, mood);
      if (mood === 'greylist') done(smtpError(451, '4.7.1 Greylisted, come back later'));
      else if (mood === 'refuse') done(smtpError(550, '5.1.1 No such mailbox'));
      else done();
    },
    onData(stream, session, done) {
      const chunks: Buffer[] = [];
      const mood = moods.get(session.id);
      stream.on('data', (chunk: Buffer) => chunks.push(chunk));
      stream.on('end', () => {
        if (mood === 'refuse-data') {
          done(smtpError(554, '5.6.0 Not like this'));
          return;
        }
        // A stalled message is never answered; the client has to give up.
        if (mood === 'stall') return;
        const connection = (
          server as unknown as { connections: Set<{ id: string; _socket: { destroy(): unknown } }> }
        ).connections;
        const socket = [...connection].find((c) => c.id === session.id)?._socket;
        if (mood === 'drop') return void socket?.destroy();
        const bytes = Buffer.concat(chunks);
        if (options.keepRaw === true) raw.push(bytes);
        const id = /^Message-ID: (<[^>]+>)/im.exec(bytes.toString('latin1'))?.[1] ?? 'none';
        const to = session.envelope.rcptTo[0]?.address ?? '';
        log.push(to);
        accepted.set(to, [...(accepted.get(to) ?? []), id]);
        // Taken, but the sender never hears of it.
        if (mood === 'accept-and-die') return void socket?.destroy();
        if (options.answerAfterMs === undefined) done();
        else setTimeout(done, options.answerAfterMs);
      });
    },
  });
  server.on('error', () => undefined);
  server.server.on('connection', (socket) => {
    sockets.add(socket);
    socket.on('close', () => sockets.delete(socket));
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', () => resolve()));
  const { port } = server.server.address() as AddressInfo;
  return {
    url: `smtp://127.0.0.1:${port}`,
    accepted,
    log,
    raw,
    offered,
    close: async () => {
      for (const socket of sockets) socket.destroy();
      await new Promise<void>((resolve) => server.close(() => resolve()));
    },
  };
}
