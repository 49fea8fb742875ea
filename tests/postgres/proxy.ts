/** Stands between a process and the database, and can stop forwarding: nothing is closed, nothing arrives. */
import { connect, createServer, type Socket } from 'node:net';

export interface Proxy {
  readonly address: string;
  cut(): void;
  mend(): void;
  close(): void;
}

/** @param address of the real server */
export async function proxyOf(address: string): Promise<Proxy> {
  const target = new URL(address);
  const sockets = new Set<Socket>();
  let isCut = false;
  const server = createServer((near) => {
    const far = connect(Number(target.port), target.hostname);
    for (const [from, to] of [
      [near, far],
      [far, near],
    ] as const) {
      sockets.add(from);
      from.on('data', (bytes) => {
        if (!isCut) to.write(bytes);
      });
      from.on('error', () => to.destroy());
      from.on('close', () => {
        sockets.delete(from);
        to.destroy();
      });
    }
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', () => resolve()));
  const { port } = server.address() as { port: number };
  const mine = new URL(address);
  mine.port = String(port);
  return {
    address: mine.href,
    cut: () => {
      isCut = true;
    },
    mend: () => {
      // What was swallowed is lost: those connections are of no use any more.
      for (const socket of sockets) socket.destroy();
      isCut = false;
    },
    close: () => {
      for (const socket of sockets) socket.destroy();
      server.close();
    },
  };
}
