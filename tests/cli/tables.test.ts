/** Tables that people give: each slip is told with file, line and column, nothing is dropped in silence, nothing half kept. */
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import fc from 'fast-check';
import { addOutingCommands } from '../../src/cli/outing.ts';
import { addReadersCommands } from '../../src/cli/readers.ts';
import { addReadingCommands } from '../../src/cli/reading.ts';
import { addReleaseCommands } from '../../src/cli/release.ts';
import { guarded, unguarded } from '../../src/outings/formulas.ts';
import { DAY_MS } from '../../src/units/time/calendar.ts';
import { commandLine, type Said } from '../helpers/commandLine.ts';

const folder = mkdtempSync(join(tmpdir(), 'thawline-tables-'));
const file = (name: string, text: string | Uint8Array): string => {
  writeFileSync(join(folder, name), text);
  return join(folder, name);
};
const lake = (id: string): string =>
  `  - { id: ${id}, name: Lake ${id}, position: { lat: 36, lon: -92 }, zone: America/Chicago, waterBody: highland-reservoir, meanDepth: 10 m, area: 10 km2 }\n`;
const configOf = (name: string): string =>
  file(`${name}.yaml`, `record: ${join(folder, `${name}.sqlite`)}\nlakes:\n${lake('tarn')}${lake('cedar')}`);
const config = configOf('one');
const daysAgo = (n: number): string => new Date(Date.now() - n * DAY_MS).toISOString().slice(0, 10);
const readers = (...words: string[]): Promise<Said> =>
  commandLine(addReadersCommands, '--config', config, 'readers', ...words);
const list = async (): Promise<string> => (await readers('list', '--json')).out;

describe('readers import', () => {
  const HEAD = 'address,lakes';
  it.each([
    [
      'a no that is another word',
      `${HEAD},amendments\na@lake.example,tarn,nope\n`,
      /line 2, column "amendments": found "nope", expected yes or no/,
    ],
    [
      'a yes of another language',
      `${HEAD},asks_reading\na@lake.example,tarn,ja\n`,
      /line 2, column "asks_reading": found "ja", expected yes or no/,
    ],
    [
      'the name of what every object has',
      `${HEAD},amendments\na@lake.example,tarn,constructor\n`,
      /found "constructor", expected yes or no/,
    ],
    [
      'a column nearly named',
      'address,lake\na@lake.example,tarn\n',
      /line 1: there is no column "lake".*did you mean "lakes"/,
    ],
    [
      'a column nobody reads',
      `${HEAD},colour\na@lake.example,tarn,red\n`,
      /line 1: there is no column "colour".*earliest_hour/,
    ],
    [
      'units that are none',
      `${HEAD},units\na@lake.example,tarn,furlong\n`,
      /line 2, column "units": found "furlong", expected us or metric/,
    ],
    [
      'days that are none',
      `${HEAD},days\na@lake.example,tarn,mon\n`,
      /line 2, column "days": found "mon", expected days like 1-5/,
    ],
    [
      'half an hour',
      `${HEAD},earliest_hour\na@lake.example,tarn,6.5\n`,
      /line 2, column "earliest_hour": found "6.5", expected a whole hour/,
    ],
    ['no mail address', `${HEAD}\na@lake.example,tarn\nnobody,tarn\n`, /line 3: This is not a mail address/],
    [
      'an unknown lake',
      `${HEAD}\na@lake.example,tarn\nb@lake.example,tarm\n`,
      /line 3, column "lakes": found "tarm".*did you mean tarn/,
    ],
    ['a new reader without a lake', 'address\na@lake.example\n', /line 2: Choose at least one of the lakes/],
    [
      'one address twice',
      `${HEAD}\na@lake.example,tarn\nA@LAKE.example,cedar\n`,
      /line 3, column "address": the same address as in line 2/,
    ],
    ['nobody', `${HEAD}\n`, /there is no reader in it/],
  ])('keeps nobody of a table with %s', async (what, text, says) => {
    const before = await list();
    const path = file(`${what}.csv`, text);
    const { code, err } = await readers('import', path);
    expect({ code, err }).toEqual({ code: 2, err: expect.stringMatching(says) as string });
    expect(err).toContain(path);
    expect(await list()).toBe(before);
  });

  it.each([
    [
      'units that are none',
      '{"address":"a@lake.example","lakes":["tarn"],"units":"furlong"}\n',
      /line 1: units: found "furlong", expected one of us, metric/,
    ],
    [
      'a field nearly named',
      '{"address":"a@lake.example","lake":["tarn"]}\n',
      /line 1: unknown field "lake"; did you mean "lakes"/,
    ],
    [
      'an unknown lake',
      '{"address":"a@lake.example","lakes":["tarn"]}\n{"address":"b@lake.example","lakes":["x"]}\n',
      /line 2: found "x", expected lakes of tarn, cedar/,
    ],
    ['no JSON', '{"address":"a@lake.example","lakes":["tarn"]}\nb@lake.example\n', /line 2: it is not JSON/],
    ['nothing', '\n', /there is no reader in it/],
  ])('keeps nobody of lines with %s', async (what, text, says) => {
    const before = await list();
    const { code, err } = await readers('import', file(`${what}.jsonl`, text));
    expect({ code, err }).toEqual({ code: 2, err: expect.stringMatching(says) as string });
    expect(err).not.toMatch(/Invalid|✖|→/);
    expect(await list()).toBe(before);
  });

  it('takes Yes and NO as they are meant, and counts one as one', async () => {
    const path = file('case.csv', 'Address,Lakes,Amendments,asks_reading\ncase@lake.example,tarn,NO,Yes\n');
    expect((await readers('import', path)).out).toBe('1 reader\n');
    expect(await list()).toMatch(/"case@lake.example".*"amendments":false.*"asksReading":true/);
  });
});

describe('a table that is no UTF-8 text', () => {
  const release = (path: string): Promise<Said> =>
    commandLine(addReleaseCommands, '--config', config, 'release', 'import', 'tarn', path);
  const text = 'date,water_c,where\n2026-03-01,9.1,Nötsch\n';
  it.each([
    ['UTF-16 with its mark', Buffer.from(`\uFEFF${text}`, 'utf16le')],
    ['UTF-16 without a mark', Buffer.from(text.replace('ö', 'o'), 'utf16le')],
    ['Latin-1', Buffer.from(text, 'latin1')],
    ['a picture', Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 0x0d])],
  ])('%s is named as such, and nothing of it reaches the terminal', async (what, bytes) => {
    for (const said of [
      await readers('import', file(`${what}.csv`, bytes)),
      await release(file(`${what}.csv`, bytes)),
      await commandLine(
        addReadingCommands,
        '--config',
        config,
        'reading',
        'import',
        'tarn',
        file(`${what}.csv`, bytes),
      ),
    ]) {
      expect(said.code).toBe(2);
      expect(said.err).toMatch(/\.csv:\d+.*Save it as (CSV in )?UTF-8/);
      // eslint-disable-next-line no-control-regex -- what a terminal would obey
      expect(said.err).not.toMatch(/[\u0000-\u001f\u007f-\u009f]/);
    }
  });

  it('names found in a header are shown without what a terminal would obey', async () => {
    const { err } = await release(file('esc.csv', 'da\u001b[2Jte,from,to\n2026-03-01,1:00,2:00\n'));
    expect(err).toContain('<U+001B>');
    expect(err).not.toContain('\u001b');
  });
});

describe('release import', () => {
  const release = (text: string): Promise<Said> =>
    commandLine(addReleaseCommands, '--config', config, 'release', 'import', 'tarn', file('hours.csv', text));
  const day = daysAgo(0);
  it.each([
    [
      'no number',
      `date,from,to,flow_cfs\n${day},14:00,18:00,NaN\n`,
      /line 2, column "flow_cfs": found "NaN", expected flow_m3s/,
    ],
    ['an empty field', `date,from,to,units\n${day},14:00,18:00,\n`, /line 2, column "units": found ""/],
    [
      'no column of how much',
      `date,from,to\n${day},14:00,18:00\n`,
      /line 2: there is no column "flow_m3s"; expected flow_m3s in m³\/s, flow_cfs/,
    ],
    [
      'a column nearly named',
      `date,from,to,flow_m3\n${day},14:00,18:00,4\n`,
      /line 1: there is no column "flow_m3".*did you mean "flow_m3s"/,
    ],
    [
      'too much',
      `date,from,to,flow_cfs\n${day},14:00,18:00,99999999\n`,
      /expected a number from 0 to 10594400 with/,
    ],
  ])('says of %s what stands in the file', async (_, text, says) => {
    expect(await release(text)).toMatchObject({ code: 2, err: expect.stringMatching(says) as string });
  });
});

describe('own outings as a table', () => {
  const NOTES = [
    // OWASP, CSV Injection (community page): signs that begin a formula, the wide ones too.
    ...['=1+1', '+1', '-1', '@SUM(A1)', '＝1+1', '＋1', '－1', '＠A'],
    ...["'=1", "''=1", "'quoted'", 'NA', 'null', 'NaN', 'a "b", c; d', "don't"],
  ];
  const outing = (at: string, ...words: string[]): Promise<Said> =>
    commandLine(addOutingCommands, '--config', at, 'outing', ...words);
  const who = ['--reader', 'ann@lake.example'];
  const notes = async (at: string): Promise<string[]> =>
    (
      JSON.parse((await outing(at, 'list', ...who, '--json')).out) as { outings: { note: string }[] }
    ).outings.map(({ note }) => note);
  const other = configOf('other');
  beforeAll(async () => {
    for (const at of [config, other])
      await commandLine(
        addReadersCommands,
        '--config',
        at,
        'readers',
        'add',
        'ann@lake.example',
        '--lake',
        'tarn',
      );
  });

  it('comes back as it left, into the same record and into another, and computes nothing in between', async () => {
    for (const [i, note] of NOTES.entries())
      expect(
        await outing(
          config,
          'add',
          'tarn',
          ...who,
          '--date',
          daysAgo(i + 2),
          '--hours',
          '2',
          '--fish',
          '0',
          `--note=${note}`,
        ),
      ).toMatchObject({ code: 0 });
    const table = join(folder, 'own.csv');
    await outing(config, 'list', ...who, '--csv', '--out', table);
    const cells = readFileSync(table, 'utf8')
      .split(/\r\n/)
      .flatMap((line) => line.split(','));
    expect(cells.filter((cell) => /^"?[=+\-@\t＝＋－＠]/.test(cell))).toEqual([]);
    expect((await outing(config, 'import', 'tarn', table, ...who)).out).toBe(
      `0 outings of Lake tarn; ${NOTES.length} were told before.\n`,
    );
    expect((await outing(other, 'import', 'tarn', table, ...who)).out).toBe(
      `${NOTES.length} outings of Lake tarn.\n`,
    );
    expect((await notes(other)).sort()).toEqual([...NOTES].sort());
  });

  it('marks any text so that it comes back, and so that no spreadsheet computes it', () => {
    const any = fc.string({ unit: fc.constantFrom("'", '=', '-', '＝', '\t', 'a', '"'), maxLength: 6 });
    fc.assert(
      fc.property(any, (text) => {
        expect(unguarded(guarded(text))).toBe(text);
        expect(guarded(text)).not.toMatch(/^[=+\-@\t\r\n＝＋－＠]/);
      }),
    );
  });
});
