/** A notebook of readings as a table: all of it or none, and told twice is told once. */
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { addReadingCommands } from '../../src/cli/reading.ts';
import { commandLine } from '../helpers/commandLine.ts';

const folder = mkdtempSync(join(tmpdir(), 'thawline-notebook-'));
const file = (name: string, text: string): string => {
  writeFileSync(join(folder, name), text);
  return join(folder, name);
};
const config = file(
  'thawline.yaml',
  `record: ${join(folder, 'r.sqlite')}\nlakes:\n  - { id: a, name: Lake A, position: { lat: 36, lon: -92 }, zone: America/Chicago, waterBody: highland-reservoir, meanDepth: 10 m, area: 10 km2 }\n`,
);
const reading = (...words: string[]) =>
  commandLine(addReadingCommands, '--config', config, 'reading', ...words);
const stored = async () =>
  JSON.parse((await reading('list', 'a', '--json')).out) as { atMs: number; waterC: number; where: string }[];

describe('thawline reading import', () => {
  it('keeps a table of readings, in either unit, at the local time of the lake', async () => {
    const table = file(
      'water.csv',
      'date,time,water_c,water_f,where\n2025-03-06,07:10,9.4,,ramp\n2025-03-07,,,50,\n',
    );
    expect((await reading('import', 'a', table)).out).toBe('2 readings of Lake A.\n');
    await reading('import', 'a', table);
    const kept = (await stored()).sort((x, y) => x.atMs - y.atMs);
    expect(kept).toHaveLength(2);
    expect(kept[0]).toMatchObject({ atMs: Date.UTC(2025, 2, 6, 13, 10), waterC: 9.4, where: 'ramp' });
    expect(kept[1]?.waterC).toBeCloseTo(10, 6);
  });

  it.each([
    ['no date', 'water_c\n9\n', /there is no column "date"/],
    ['no temperature', 'date,water_c\n2025-03-06,9\n2025-03-07,\n', /line 3, column "water_c"/],
    ['a wrong time', 'date,time,water_c\n2025-03-06,25:00,9\n', /line 2, column "time"/],
    [
      'a column that nobody knows',
      'date,water_c,tiem\n2025-03-06,9,07:00\n',
      /no column "tiem".*did you mean "time"/,
    ],
    ['a day to come', 'date,water_c\n2999-03-06,9\n', /a time that has passed/],
    ['degrees Fahrenheit called Celsius', 'date,water_c\n2025-03-06,61\n', /line 2, column "water_c"/],
  ])('keeps none of a table with %s', async (what, text, said) => {
    const before = (await stored()).length;
    expect(await reading('import', 'a', file(`${what.length}.csv`, text))).toMatchObject({
      code: 2,
      err: expect.stringMatching(said) as string,
    });
    expect(await stored()).toHaveLength(before);
  });
});
