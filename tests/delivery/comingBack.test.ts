/** Leaving is for good: nobody but the reader brings a reader back, and whoever clicks "leave" has left. */
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { freshRecord } from '../helpers/record.ts';
import {
  addReader,
  DEFAULT_WISHES,
  leaveByOneClick,
  linkMaker,
  reportBounce,
  requestSubscription,
  revokeLinks,
} from '../../src/delivery/index.ts';
import { addReadersCommands } from '../../src/cli/readers.ts';
import { openRecord, type RecordStore } from '../../src/record/index.ts';
import { readerByAddress } from '../../src/record/delivery/readers.ts';
import { commandLine, type Said } from '../helpers/commandLine.ts';
import { MORNING_MS, SECRET } from './kit.ts';

const ADDRESS = 'ana@post.example';
const context = { knownLakes: ['ossarly', 'cedar'], nowMs: MORNING_MS };
const links = linkMaker('https://briefing.example', SECRET);
const tokenIn = (url: string): string => new URL(url).searchParams.get('t') ?? '';

let record: RecordStore;
beforeEach(async () => {
  record = await freshRecord();
});
afterEach(() => record.close());

const stateOf = async (address = ADDRESS): Promise<string | undefined> =>
  (await readerByAddress(record, address))?.state;

async function reader(): Promise<{ id: string; token: string }> {
  const { id } = await addReader(record, ADDRESS, { ...DEFAULT_WISHES, lakes: ['ossarly'] }, context);
  return { id, token: tokenIn(links.oneClick({ id, token_epoch: 1 }, MORNING_MS)) };
}
const click = (token: string) => leaveByOneClick(record, token, { nowMs: MORNING_MS, secret: SECRET });

describe('one click', () => {
  it('leaves although the links were revoked since', async () => {
    const { id, token } = await reader();
    await revokeLinks(record, id);
    expect((await click(token)).ok).toBe(true);
    expect(await stateOf()).toBe('left');
  });

  it('is answered well after a complaint, which stays', async () => {
    const { id, token } = await reader();
    await reportBounce(record, { readerId: id }, 'complaint', MORNING_MS);
    expect((await click(token)).ok).toBe(true);
    expect(await stateOf()).toBe('complained');
  });

  it('is still no way in for a forged or expired link', async () => {
    const { token } = await reader();
    expect((await click(`${token.slice(0, -2)}xx`)).ok).toBe(false);
    const late = { nowMs: MORNING_MS + 500 * 86_400_000, secret: SECRET };
    expect((await leaveByOneClick(record, token, late)).ok).toBe(false);
    expect(await stateOf()).toBe('active');
  });
});

describe('who left', () => {
  it('is not brought back by the operator, unless they asked again', async () => {
    const { token } = await reader();
    await click(token);
    await expect(addReader(record, ADDRESS, { lakes: ['ossarly'] }, context)).rejects.toThrow(
      /left on 2026-03-06 and is not brought back.*--again/,
    );
    expect(await stateOf()).toBe('left');
    await addReader(record, ADDRESS, {}, { ...context, again: true });
    expect(await stateOf()).toBe('active');
  });
});

describe('adding a known reader', () => {
  it('changes what it is told and nothing else', async () => {
    const wishes = {
      ...DEFAULT_WISHES,
      lakes: ['ossarly'],
      units: 'metric',
      days: [6, 7],
      earliestHour: 6,
    } as const;
    await addReader(record, ADDRESS, { ...wishes, amendments: false }, context);
    const changed = await addReader(record, ADDRESS, { form: 'short' }, context);
    expect(changed).toMatchObject({ ...wishes, amendments: false, form: 'short' });
  });
});

describe('the hourly limit of confirmations', () => {
  it('is told, to those who are known as to those who are not', async () => {
    const door = { ...context, secret: SECRET };
    const wishes = { ...DEFAULT_WISHES, lakes: ['ossarly'] };
    await reader();
    for (let n = 0; n < 200; n += 1)
      expect(await requestSubscription(record, `n${n}@post.example`, wishes, door)).toBe('taken');
    for (const address of ['one-more@post.example', ADDRESS])
      expect(await requestSubscription(record, address, wishes, door)).toBe('full');
    expect(await stateOf('one-more@post.example')).toBeUndefined();
    const later = { ...door, nowMs: MORNING_MS + 3_700_000 };
    expect(await requestSubscription(record, 'one-more@post.example', wishes, later)).toBe('taken');
  });
});

describe('thawline readers', () => {
  const folder = mkdtempSync(join(tmpdir(), 'thawline-readers-'));
  const file = (name: string, text: string): string => {
    writeFileSync(join(folder, name), text);
    return join(folder, name);
  };
  const lake = (id: string): string =>
    `  - { id: ${id}, name: ${id}, position: { lat: 36, lon: -92 }, zone: America/Chicago, waterBody: highland-reservoir, meanDepth: 10 m, area: 10 km2 }\n`;
  const path = file(
    'thawline.yaml',
    `record: ${join(folder, 'r.sqlite')}\nlakes:\n${lake('ossarly')}${lake('cedar')}`,
  );
  const thawline = (...words: string[]): Promise<Said> =>
    commandLine(addReadersCommands, '--config', path, 'readers', ...words);

  it('takes a table, keeps who left away, and adds nobody when a line is wrong', async () => {
    const table = file(
      'club.csv',
      'address,lakes,units,days,amendments\nann@example.org,ossarly cedar,metric,1-5,no\nbob@example.org,cedar,,,\n',
    );
    expect(await thawline('import', table)).toEqual({ code: 0, out: '2 readers\n', err: '' });
    const opened = await openRecord(join(folder, 'r.sqlite'));
    const bob = await readerByAddress(opened, 'bob@example.org');
    await leaveByOneClick(
      opened,
      tokenIn(links.oneClick({ id: bob?.id ?? '', token_epoch: 1 }, Date.now())),
      {
        nowMs: Date.now(),
        secret: SECRET,
      },
    );
    await opened.close();
    expect((await thawline('import', table)).out).toBe(
      '1 reader; 1 left, complained or were erased before and stay away\n',
    );
    const { code, err } = await thawline(
      'import',
      file('bad.csv', 'address,lakes\ncleo@example.org,ossarly\nno address,cedar\n'),
    );
    expect([code, err]).toEqual([2, expect.stringMatching(/not a mail address/)]);
    expect(
      (await thawline('import', file('bad2.csv', 'address,units\ncleo@example.org,yards\n'))).err,
    ).toMatch(/line 2, column "units"/);
    const list = (await thawline('list', '--json')).out;
    expect(list).not.toMatch(/cleo/);
    expect(list).toMatch(
      /"ann@example.org","state":"active".*"units":"metric".*"days":\[1,2,3,4,5\].*"amendments":false/,
    );
    expect(list).toMatch(/"bob@example.org","state":"left"/);
    expect(await thawline('add', 'bob@example.org', '--lake', 'ossarly')).toMatchObject({ code: 2 });
    expect((await thawline('add', 'ann@example.org', '--short')).out).toMatch(
      /ann@example.org: cedar, ossarly, metric, short form/,
    );
  });

  it('knows the hours they fish and their language, from the command line, a table and an export', async () => {
    const add = (...words: string[]) => thawline('add', 'dora@example.org', ...words);
    await add('--lake', 'cedar', '--fishing', '05:30-09:00', '--language', 'en');
    const out = join(folder, 'all.jsonl');
    await thawline('export', '--out', out);
    const line = '"language":"en","fishing":{"from":"05:30","to":"09:00"}';
    expect(readFileSync(out, 'utf8')).toContain(line);
    expect((await add('--fishing', '9-11')).err).toMatch(/full or half hours/);
    expect((await add('--language', 'xx')).err).toMatch(/--language is lake or en/);
    await add('--fishing', 'lake', '--language', 'lake');
    const plain = async (): Promise<string> => (await thawline('list', '--json')).out;
    expect(await plain()).toMatch(/"dora@example.org".*"language":null,"fishing":null/);
    expect((await thawline('import', out)).code).toBe(0);
    expect(await plain()).toMatch(/"dora@example.org".*"language":"en"/);
    const table = file('hours.csv', 'address,lakes,fishing\ndora@example.org,cedar,15:00-19:00\n');
    expect((await thawline('import', table)).code).toBe(0);
    expect(await plain()).toContain('"fishing":{"from":"15:00","to":"19:00"}');
  });
});
