/** The way out for mail, a folder that is only read, and services that changed: each proved before the morning. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { spawnSync } from 'node:child_process';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { simpleParser } from 'mailparser';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { addCheckCommand } from '../../src/cli/check.ts';
import { startDemoServer, type DemoData } from '../../src/cli/demoServer.ts';
import { addMailCommands } from '../../src/cli/mail.ts';
import { smtpServer, type TestServer } from '../delivery/smtp.ts';
import { PROGRAM } from '../builtProgram.ts';
import { commandLine } from '../helpers/commandLine.ts';
import { SECRET, site } from '../web/kit.ts';

let folder: string;
let smtp: TestServer;
let behind: Awaited<ReturnType<typeof startDemoServer>>;
let changed: Server;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'thawline-proving-'));
  smtp = await smtpServer((to) => (to.startsWith('nobody') ? 'refuse' : 'accept'), { keepRaw: true });
  const data = JSON.parse(readFileSync('fixtures/demo/ossarly.json', 'utf8')) as DemoData;
  behind = await startDemoServer(data);
  // A service that from one day to the next calls its times by another name.
  changed = createServer((request, response) => {
    const send = async (): Promise<void> => {
      const reply = await fetch(behind.url + (request.url ?? '/'));
      response.writeHead(reply.status, { 'content-type': 'application/json' });
      response.end((await reply.text()).replaceAll('"hourly":{"time":', '"hourly":{"instant":'));
    };
    send().catch(() => response.destroy());
  });
  await new Promise<void>((ready) => changed.listen(0, '127.0.0.1', () => ready()));
});
afterAll(async () => {
  await behind.close();
  changed.closeAllConnections();
  await new Promise<void>((closed) => changed.close(() => closed()));
  await smtp.close();
  vi.unstubAllEnvs();
  rmSync(folder, { recursive: true, force: true });
});

/** @param weather base address of the weather service */
function configAt(
  name: string,
  weather: string,
  record: string,
  transport = 'directory, directory: /sys/thawline/mails',
  listen = '127.0.0.1',
): string {
  const path = join(folder, name);
  writeFileSync(
    path,
    `record: ${record}
lakes:
  - id: ossarly
    name: Ossarly Lake
    demo: true
    position: { lat: 35.9, lon: -86.4 }
    zone: America/Chicago
    waterBody: highland-reservoir
    meanDepth: 42 ft
    area: 6200 acres
    weather: [open-meteo]
    gauges: []
readers: []
mail: { from: "River desk <desk@example.org>", transport: ${transport} }
web: { baseUrl: "http://127.0.0.1:8080", listen: "${listen}" }
services: { contact: desk@example.org, timeoutMs: 2000, baseUrls: { open-meteo: "${weather}" } }
`,
  );
  return path;
}

describe('mail test', () => {
  const test = async (to: string, url = smtp.url) => {
    vi.stubEnv('THAWLINE_SMTP_URL', url);
    const config = configAt('mail.yaml', behind.url, 'data/thawline.sqlite', 'smtp');
    return commandLine(addMailCommands, '--config', config, 'mail', 'test', to);
  };

  it('sends one short mail and says what the server answered', async () => {
    const { code, out } = await test('ann@example.org');
    expect({ code, out }).toMatchObject({
      code: 0,
      out: expect.stringMatching(/^Taken by the mail server: 250 /) as string,
    });
    expect(smtp.raw).toHaveLength(1);
    const mail = await simpleParser(smtp.raw[0] ?? '');
    expect(mail).toMatchObject({
      subject: 'Trial of the morning briefing',
      from: { text: expect.stringContaining('River desk') as string },
    });
    expect(mail.headers.get('auto-submitted')).toBe('auto-generated');
  });

  it('that the server does not take ends with 6 and the reason', async () => {
    const { code, err } = await test('nobody@example.org');
    expect(code).toBe(6);
    expect(err).toMatch(/^The trial did not leave\. /);
    expect(smtp.raw).toHaveLength(1);
  });

  it('without a server behind the address ends with 6', async () => {
    const { code, err } = await test('ann@example.org', 'smtp://127.0.0.1:1');
    expect(code).toBe(6);
    expect(err).toMatch(/The trial did not leave\./);
  });

  it('refuses what is no address before it asks anybody', async () => {
    const { code, err } = await test('ann at example');
    expect(code).not.toBe(0);
    expect(err).toMatch(/^This is not a mail address: give one address/);
  });
});

describe('check', () => {
  it('works where nothing may be written, and leaves nothing', () => {
    // Nobody can make a file there, not even root.
    const config = configAt('readOnly.yaml', behind.url, '/sys/thawline/thawline.sqlite');
    const { status, stdout, stderr } = spawnSync(
      process.execPath,
      [...PROGRAM, '--config', config, 'check', '--no-services', '--no-links'],
      { cwd: '/sys', encoding: 'utf8' },
    );
    expect(stdout).toContain('1 lake, 0 readers, all fields as expected');
    expect(stdout).toMatch(/(well {3}|WRONG {2})mail: /);
    expect(`${stdout}${stderr}`).not.toMatch(/EROFS|EACCES|EPERM|fault of the program/);
    expect([0, 3]).toContain(status);
  });

  it(
    '--mail sends a page that says it is a trial, and its links say so too',
    { timeout: 120_000 },
    async () => {
      vi.stubEnv('THAWLINE_SMTP_URL', smtp.url);
      vi.stubEnv('THAWLINE_SECRET', SECRET);
      const config = configAt('trial.yaml', behind.url, 'data/thawline.sqlite', 'smtp');
      const words = ['--config', config, 'check', '--no-links', '--mail', 'trial@example.org'];
      expect((await commandLine(addCheckCommand, ...words)).out).toContain('on its way to trial@example.org');
      const mail = await simpleParser(smtp.raw.at(-1) ?? Buffer.alloc(0));
      expect(mail.subject).toMatch(/^Trial: /);
      expect(mail.text).toMatch(/^This is a trial\./);
      expect(String(mail.html)).toMatch(/<body[^>]*><p>This is a trial\./);
      const web = await site();
      const paths = [
        ...(mail.text ?? '').matchAll(/http:\/\/127\.0\.0\.1:8080(\/(?:settings|leave|outing)\?\S+)/g),
      ];
      expect(paths.length).toBeGreaterThanOrEqual(3);
      for (const [, path = ''] of paths)
        expect(await (await web.get(path)).text(), path).toContain('came with a trial mail');
      await web.record.close();
    },
  );

  it('looks at the lakes themselves where no service is asked', async () => {
    const config = configAt('berlin.yaml', behind.url, 'data/thawline.sqlite', 'smtp');
    writeFileSync(config, readFileSync(config, 'utf8').replace('America/Chicago', 'Europe/Berlin'));
    const words = ['--config', config, 'check', '--no-services', '--no-links'];
    const { code, out } = await commandLine(addCheckCommand, ...words);
    expect(out).toMatch(/WRONG {2}position 35\.9, -86\.4 does not lie in the zone Europe\/Berlin/);
    expect(code).toBe(3);
  });

  it('--mail without services is refused and not forgotten', async () => {
    const config = configAt('none.yaml', behind.url, 'data/thawline.sqlite', 'smtp');
    const words = ['--config', config, 'check', '--no-services', '--mail', 'me@example.org'];
    expect(await commandLine(addCheckCommand, ...words)).toMatchObject({
      code: 2,
      err: expect.stringMatching(/leave out --no-services.*thawline mail test/) as string,
    });
  });

  it('says when nobody can serve the pages where the configuration has them', async () => {
    // 192.0.2.0/24 is for documents (RFC 5737): no machine has it.
    const at = (listen: string) =>
      commandLine(
        addCheckCommand,
        '--config',
        configAt('listen.yaml', behind.url, 'data/thawline.sqlite', undefined, listen),
        ...['check', '--no-services', '--no-links'],
      );
    expect((await at('192.0.2.1:8080')).out).toMatch(
      /WRONG {2}pages: nothing can listen at 192\.0\.2\.1:8080 \(EADDRNOTAVAIL\)/,
    );
    expect((await at('127.0.0.1:0')).out).not.toContain('pages: nothing');
    for (const none of ['999.0.0.1:8080', '127.0.0.1:99999'])
      expect((await at(none)).err).toMatch(/listen: .*four numbers up to 255 and a port up to 65535/);
  });

  const contracts = (weather: string) =>
    commandLine(
      addCheckCommand,
      '--config',
      configAt('contracts.yaml', weather, 'data/thawline.sqlite'),
      'check',
      '--contracts',
    );

  it('--contracts finds services as expected', async () => {
    const { code, out } = await contracts(behind.url);
    expect(out).toMatch(/well {3}open-meteo \(\d+ ms\): answered, \d+ values/);
    expect(code).toBe(0);
  });

  it('--contracts names the field that a service changed, and ends with 5', async () => {
    const { code, out, err } = await contracts(`http://127.0.0.1:${(changed.address() as AddressInfo).port}`);
    expect(out).toMatch(/WRONG {2}open-meteo .*hourly\.time/);
    expect(code).toBe(5);
    expect(err).toContain('1 of the services did not answer as they should');
  });
});
