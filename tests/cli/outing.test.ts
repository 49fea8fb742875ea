/** Outings told by command and by file: all of it or none, whose they are, and what they say. */
import { chmodSync, mkdtempSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { addOutingCommands } from '../../src/cli/outing.ts';
import { addReadersCommands } from '../../src/cli/readers.ts';
import { addReadingCommands } from '../../src/cli/reading.ts';
import { DAY_MS } from '../../src/units/time/calendar.ts';
import { commandLine, type Said } from '../helpers/commandLine.ts';

const folder = mkdtempSync(join(tmpdir(), 'thawline-outings-'));
const file = (name: string, text: string): string => {
  writeFileSync(join(folder, name), text);
  return join(folder, name);
};
const lake = (id: string, name: string): string =>
  `  - { id: ${id}, name: ${name}, position: { lat: 36, lon: -92 }, zone: America/Chicago, waterBody: highland-reservoir, meanDepth: 10 m, area: 10 km2 }\n`;
const config = file(
  'thawline.yaml',
  `record: ${join(folder, 'r.sqlite')}\nlakes:\n${lake('a', 'Lake A')}${lake('b', 'Lake B')}readers:\n  - { address: cass@example.org, lakes: [a] }\n`,
);
const readers = (...words: string[]) =>
  commandLine(addReadersCommands, '--config', config, 'readers', ...words);
const outing = (...words: string[]): Promise<Said> =>
  commandLine(addOutingCommands, '--config', config, 'outing', ...words);
const add = (...words: string[]): Promise<Said> =>
  outing('add', 'a', '--reader', 'ann@example.org', ...words);
const own = async (address = 'ann@example.org') =>
  (
    JSON.parse((await outing('list', '--reader', address, '--json')).out) as {
      outings: { date: string; fish: number }[];
    }
  ).outings;
const readings = async () =>
  JSON.parse(
    (await commandLine(addReadingCommands, '--config', config, 'reading', 'list', 'a', '--json')).out,
  ) as unknown[];
const daysAgo = (n: number): string => new Date(Date.now() - n * DAY_MS).toISOString().slice(0, 10);

beforeAll(async () => {
  await readers('add', 'ann@example.org', '--lake', 'a');
  await readers('add', 'ben@example.org', '--lake', 'b');
});

describe('thawline outing add', () => {
  it('keeps a blank day, and its water feeds the lake at once', async () => {
    const said = await add(
      '--date',
      daysAgo(3),
      '--time',
      '06:30-11:00',
      '--fish',
      '0',
      '--place',
      'bluff',
      '--water',
      '49F',
    );
    expect(said).toMatchObject({ code: 0, err: '' });
    expect(said.out).toMatch(/^Stored [0-9a-f]{12} {2}\d{4}-\d\d-\d\d {2}4.5 h, 0 fish; bluff\./);
    expect(await readings()).toHaveLength(1);
    expect(await own()).toMatchObject([{ date: daysAgo(3), fish: 0 }]);
  });

  it('takes a reader of the configuration who never had a mail yet', async () => {
    const said = await outing(
      'add',
      'a',
      '--reader',
      'cass@example.org',
      '--date',
      daysAgo(2),
      '--hours',
      '2',
      '--fish',
      '1',
    );
    expect(said.code).toBe(0);
  });

  it.each([
    [
      'an outing in the future',
      ['--date', '2999-01-01', '--hours', '2', '--fish', '1'],
      'lies in the future',
    ],
    ['fish without hours', ['--date', daysAgo(4), '--fish', '3'], 'fish without hours give no rate'],
    [
      'a 40 lb fish',
      ['--date', daysAgo(4), '--hours', '3', '--fish', '1', '--biggest', '40lb'],
      'heavier than any',
    ],
    [
      'the same outing twice',
      ['--date', daysAgo(3), '--time', '06:30-11:00', '--fish', '0', '--place', 'bluff', '--water', '49F'],
      'was told before',
    ],
    ['an hour fished twice', ['--date', daysAgo(3), '--time', '10:00-12:00', '--fish', '0'], 'overlap'],
    ['hours that are none', ['--date', daysAgo(4), '--time', 'morning', '--fish', '0'], '06:30-11:00'],
    [
      'water far from what was read the same week',
      ['--date', daysAgo(4), '--hours', '3', '--fish', '0', '--water', '22C'],
      'against all other readings',
    ],
  ])('refuses %s in a sentence and keeps nothing', async (_, words, says) => {
    const before = [await own(), await readings()];
    expect(await add(...words)).toMatchObject({ code: 2, err: expect.stringContaining(says) as string });
    expect([await own(), await readings()]).toEqual(before);
  });

  it('refuses a reader of another lake, and an address that nobody reads at, without repeating it', async () => {
    const words = ['--date', daysAgo(4), '--hours', '2', '--fish', '0'];
    const other = await outing('add', 'a', '--reader', 'ben@example.org', ...words);
    expect(other).toMatchObject({
      code: 2,
      err: expect.stringContaining('does not read the briefing of Lake A (but of b)') as string,
    });
    const nobody = await outing('add', 'a', '--reader', 'nobody@example.org', ...words);
    expect(nobody.code).toBe(2);
    expect(other.err + nobody.err).not.toContain('example.org');
  });
});

describe('thawline outing import', () => {
  const imported = (path: string): Promise<Said> =>
    outing('import', 'a', path, '--reader', 'ann@example.org');

  it('takes a table; told again, nothing is new; taken out, it is the same table', async () => {
    const table = file(
      'good.csv',
      `date,from,to,hours,fish,bites,places,lures,biggest_lb,water_f,shared,note\n${daysAgo(20)},06:30,11:00,,2,4,bluff | dock,jerkbait,2.4,49,yes,"windy, cold"\n${daysAgo(19)},,,5,0,,,,,,,\n`,
    );
    expect((await imported(table)).out).toBe('2 outings of Lake A.\n');
    expect((await imported(table)).out).toBe('0 outings of Lake A; 2 were told before.\n');
    const out = join(folder, 'own.csv');
    await outing('list', '--reader', 'ann@example.org', '--csv', '--out', out);
    expect(readFileSync(out, 'utf8')).toContain('"windy, cold"');
    expect((await imported(out)).out).toMatch(/^0 outings of Lake A; 3 were told before/);
  });

  it.each([
    [
      'Fahrenheit in a Celsius column',
      `date,hours,fish,water_c\n${daysAgo(30)},3,1,9.1\n${daysAgo(29)},3,1,49\n`,
      /line 3, column "water_c".*looks like degrees Fahrenheit/,
    ],
    [
      'a summer of Fahrenheit in a Celsius column of winter',
      `date,hours,fish,water_c\n${daysAgo(3)},2,1,37\n`,
      /line 2: 37.0 °C is against all other readings/,
    ],
    [
      'a row twice',
      `date,hours,fish\n${daysAgo(30)},3,1\n${daysAgo(29)},3,1\n${daysAgo(30)},3,2\n`,
      /line 4: the same outing as in line 2/,
    ],
    [
      'fish without hours',
      `date,hours,fish\n${daysAgo(30)},3,1\n${daysAgo(29)},,1\n`,
      /line 3, column "hours".*give no rate/,
    ],
    [
      'a day to come',
      `date,hours,fish\n${daysAgo(30)},3,1\n2999-01-01,3,1\n`,
      /line 3, column "date".*future/,
    ],
    [
      'a 40 lb fish',
      `date,hours,fish,biggest_lb\n${daysAgo(30)},3,1,40\n`,
      /line 2, column "biggest_lb".*heavier/,
    ],
    ['another lake', `date,hours,fish,lake\n${daysAgo(30)},3,1,b\n`, /line 2, column "lake"/],
    ['a column that nobody reads', `date,hours,fish,temp\n${daysAgo(30)},3,1,9\n`, /no column "temp"/],
    ['no fish column', `date,hours\n${daysAgo(30)},3\n`, /no column "fish"/],
    [
      'water in both units',
      `date,hours,fish,water_c,water_f\n${daysAgo(30)},3,1,9,49\n`,
      /one of water_c and water_f/,
    ],
    [
      'a day told before with another catch',
      `date,hours,fish\n${daysAgo(40)},3,1\n${daysAgo(19)},5,7\n`,
      /line 3: an outing.*told before, with other results/,
    ],
    ['nothing', 'date,fish\n', /no outing in it/],
  ])('keeps none of a table with %s', async (what, text, says) => {
    const before = [await own(), await readings()];
    expect(await imported(file(`${what}.csv`, text))).toMatchObject({
      code: 2,
      err: expect.stringMatching(says) as string,
    });
    expect([await own(), await readings()]).toEqual(before);
  });
});

describe('thawline outing', () => {
  it('takes one back with its reading', async () => {
    const [, id = ''] =
      /^Stored ([0-9a-f]+)/.exec(
        (await add('--date', daysAgo(5), '--hours', '1', '--fish', '0', '--water', '9C')).out,
      ) ?? [];
    const before = (await readings()).length;
    expect((await outing('remove', id)).out).toBe(`Removed ${id}.\n`);
    expect(await readings()).toHaveLength(before - 1);
    expect((await outing('remove', id)).code).toBe(2);
  });

  it('says that outings are too few, and from ten of one reader on what they are worth', async () => {
    expect((await outing('rates', 'a')).out).toContain('Too few to say');
    expect((await outing('rates', 'a', '--reader', 'ann@example.org')).out).toContain('Too few to say');
    const rows = Array.from(
      { length: 24 },
      (_, i) =>
        `${daysAgo(60 + i)},06:00,10:00,${i % 3},${i < 14 ? 'bluff' : i < 20 ? 'dock' : 'bluff | dock'}`,
    );
    await outing(
      'import',
      'a',
      file('many.csv', `date,from,to,fish,places\n${rows.join('\n')}\n`),
      '--reader',
      'ann@example.org',
    );
    const { out } = await outing('rates', 'a', '--reader', 'ann@example.org');
    expect(out).toMatch(/bluff.*: 0\.\d\d fish an hour \(8 in 10: 0\.\d\d to 0\.\d\d; 1\d outings/i);
    expect(out).toMatch(/dock.*: too few to say \(\d outings; from 10 on\)/i);
    expect(out).toContain('Catches mislead');
    // One reader's outings are never the lake's.
    expect((await outing('rates', 'a')).out).toContain('Too few to say');
  });

  it('is gone with its reader', async () => {
    await readers('remove', 'ann@example.org');
    expect((await outing('list', '--reader', 'ann@example.org')).code).toBe(2);
    expect(await readings()).toEqual([]);
  });
});

it('files that hold addresses or what readers told may be read by their owner alone', async () => {
  const before = process.umask(0o022);
  try {
    const asFile = async (name: string, ...words: string[]): Promise<number> => {
      const path = file(name, 'as an earlier version left it');
      chmodSync(path, 0o644);
      await commandLine(
        (root) => {
          addReadersCommands(root);
          addOutingCommands(root);
        },
        ...['--config', config, ...words, '--out', path],
      );
      expect(readFileSync(path, 'utf8'), name).not.toContain('as an earlier version');
      return statSync(path).mode & 0o777;
    };
    expect(await asFile('r.jsonl', 'readers', 'export')).toBe(0o600);
    const own = ['outing', 'list', '--reader', 'cass@example.org'];
    expect(await asFile('o.csv', ...own, '--csv')).toBe(0o600);
    expect(await asFile('o.json', ...own, '--json')).toBe(0o600);
    const fresh = join(folder, 'fresh.csv');
    await outing('list', '--reader', 'cass@example.org', '--csv', '--out', fresh);
    expect(statSync(fresh).mode & 0o777).toBe(0o600);
  } finally {
    process.umask(before);
  }
});
