/** Mails written as files, for who has no mail server: each is for its reader alone. */
import { mkdtempSync, readdirSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, expect, it } from 'vitest';
import { createTransport } from '../../src/delivery/index.ts';

const folder = mkdtempSync(join(tmpdir(), 'directory-'));
afterEach(() => rmSync(folder, { recursive: true, force: true }));

it('can be read by their owner only, whatever the umask of the process is', async () => {
  const before = process.umask(0);
  const transport = createTransport(
    {
      from: 'desk@example.org',
      transport: 'directory',
      directory: join(folder, 'mails'),
      smtpUrlEnv: 'X',
      ratePerSecond: 1,
      connections: 1,
      listId: 'example.org',
    },
    {},
  );
  try {
    await transport.send({ from: 'desk@example.org', to: 'ann@example.org', subject: 's', text: 't' });
  } finally {
    process.umask(before);
    await transport.close();
  }
  const [name = ''] = readdirSync(join(folder, 'mails'));
  expect(name).toMatch(/\.eml$/);
  expect(statSync(join(folder, 'mails', name)).mode & 0o777).toBe(0o600);
});
