/** Hours of release from the operator's mouth or table: all or nothing, each on the clock of its zone. */
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeEach, describe, expect, it } from 'vitest';
import { addReleaseCommands } from '../../src/cli/release.ts';
import { commandLine } from '../helpers/commandLine.ts';

/** Dates near today: hours of another year are refused. */
const YEAR = new Date().getUTCFullYear();
const DAY = `${YEAR}-07-16`;

let folder: string;
let config: string;
const file = (name: string, text: string): string => {
  writeFileSync(join(folder, name), text);
  return join(folder, name);
};
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'thawline-release-'));
  config = file(
    'thawline.yaml',
    `record: ${join(folder, 'r.sqlite')}\nlakes:\n  - { id: a, name: Lake A, position: { lat: 36, lon: -86 }, zone: America/Chicago, waterBody: tailwater, belowDam: true, meanDepth: 3 m, area: 2 km2 }\n`,
  );
});
const release = (...words: string[]) =>
  commandLine(addReleaseCommands, '--config', config, 'release', ...words);
interface Kept {
  id: string;
  fromMs: number;
  toMs: number;
  flowM3s?: number;
  units?: number;
}
const stored = async () => JSON.parse((await release('list', 'a', '--all', '--json')).out) as Kept[];
const utc = (text: string): number => Date.parse(`${text}Z`);

describe('thawline release add', () => {
  it('stores hours at the clock of the lake, in either unit of flow', async () => {
    expect((await release('add', 'a', DAY, '14:00', '18:00', '--flow', '4200cfs')).out).toMatch(
      /^Stored [0-9a-f]{10}: \w{3} \d{4}-07-16 14:00 to 18:00 CDT, 119 m³\/s \(4200 ft³\/s\)\.\n$/,
    );
    const [one] = await stored();
    expect(one).toMatchObject({ fromMs: utc(`${DAY}T19:00`), toMs: utc(`${DAY}T23:00`) });
    // 1 ft = 0.3048 m exactly (international foot, 1959): 4200 ft3/s are 118.9308 m3/s.
    expect(one?.flowM3s).toBeCloseTo(118.9308, 3);
  });

  it('takes turbines, midnight as 24:00, and none running as 0', async () => {
    await release('add', 'a', DAY, '20:00', '24:00', '--units', '2');
    await release('add', 'a', DAY, '06:00', '10:00', '--units', '0');
    expect((await release('list', 'a', '--all')).out).toMatch(
      /06:00 to 10:00 CDT, no release\n.*20:00 to 24:00 CDT, 2 units/s,
    );
  });

  it('told twice is told once', async () => {
    for (let n = 0; n < 2; n += 1) await release('add', 'a', DAY, '14:00', '18:00', '--units', '1');
    expect(await stored()).toHaveLength(1);
  });

  it('reads times in the zone that is named', async () => {
    await release('add', 'a', DAY, '14:00', '18:00', '--units', '1', '--zone', 'America/New_York');
    expect((await stored())[0]?.fromMs).toBe(utc(`${DAY}T18:00`));
  });

  it('refuses hours that overlap others until it is told to replace them', async () => {
    await release('add', 'a', DAY, '14:00', '18:00', '--units', '1');
    const refused = await release('add', 'a', DAY, '16:00', '20:00', '--units', '2');
    expect(refused).toMatchObject({ code: 2 });
    expect(refused.err).toMatch(/16:00 to 20:00 .* overlaps .*14:00 to 18:00 .*--replace/s);
    expect((await stored()).map(({ units }) => units)).toEqual([1]);
    await release('add', 'a', DAY, '16:00', '20:00', '--units', '2', '--replace');
    expect((await stored()).map(({ units }) => units)).toEqual([2]);
  });

  it('lets hours touch', async () => {
    await release('add', 'a', DAY, '14:00', '18:00', '--units', '1');
    expect(await release('add', 'a', DAY, '18:00', '20:00', '--units', '2')).toMatchObject({ code: 0 });
  });

  it.each([
    ['no amount', [DAY, '14:00', '18:00'], /--flow 4200cfs, or --units 2/],
    ['a flow without a unit', [DAY, '14:00', '18:00', '--flow', '4200'], /number without a unit/],
    ['a level as flow', [DAY, '14:00', '18:00', '--flow', '3 ft'], /unit of length/],
    ['half a turbine', [DAY, '14:00', '18:00', '--units', '1.5'], /how many turbines/],
    ['a wrong date', [`${YEAR}-02-30`, '14:00', '18:00', '--units', '1'], /local date/],
    [
      'an hour of 12',
      [DAY, '2 pm', '6 pm', '--units', '1'],
      /from: found "2 pm", expected a clock time of 24 hours/,
    ],
    ['an end before the beginning', [DAY, '22:00', '02:00', '--units', '1'], /two entries: up to 24:00/],
    ['a date years off', ['2003-07-16', '14:00', '18:00', '--units', '1'], /within 400 days/],
    ['an unknown zone', [DAY, '14:00', '18:00', '--units', '1', '--zone', 'Mars/Olympus'], /expected a zone/],
  ])('refuses %s and stores nothing', async (_, words, said) => {
    const { code, err } = await release('add', 'a', ...words);
    expect({ code, err }).toMatchObject({ code: 2, err: expect.stringMatching(said) as string });
    expect(await stored()).toEqual([]);
  });
});

/** Second Sunday of March and first of November, on which the clocks of the United States change (Energy Policy Act of 2005). */
const sunday = (month: number, nth: number): string => {
  const first = new Date(Date.UTC(YEAR, month - 1, 1)).getUTCDay();
  const day = 1 + ((7 - first) % 7) + (nth - 1) * 7;
  return `${YEAR}-${String(month).padStart(2, '0')}-${String(day).padStart(2, '0')}`;
};

describe('a release on the day of a clock change', () => {
  it('lasts an hour less in spring, and not from an hour that is skipped', async () => {
    const day = sunday(3, 2);
    await release('add', 'a', day, '00:00', '24:00', '--units', '1');
    const [one] = await stored();
    expect(((one?.toMs ?? 0) - (one?.fromMs ?? 0)) / 3_600_000).toBe(23);
    expect((await release('add', 'a', day, '02:30', '04:00', '--units', '1')).err).toMatch(
      /the clocks skip it/,
    );
  });

  it('is kept as the longest it can be in autumn, and says so', async () => {
    const { out } = await release('add', 'a', sunday(11, 1), '01:00', '01:30', '--units', '1');
    expect(out).toMatch(/clocks show 01:00 and 01:30 twice/);
    const [one] = await stored();
    expect(((one?.toMs ?? 0) - (one?.fromMs ?? 0)) / 3_600_000).toBe(1.5);
  });
});

describe('thawline release import', () => {
  it('keeps the table of an operator', async () => {
    const table = file(
      'hours.csv',
      `date;from;to;flow_cfs;units\n${DAY};06:00;14:00;0;\n${DAY};14:00:00;18:00:00;4200;2\n`,
    );
    expect((await release('import', 'a', table)).out).toBe(
      `2 stretches of release of Lake A, ${DAY} to ${DAY}.\n`,
    );
    await release('import', 'a', table);
    expect((await stored()).map(({ units }) => units)).toEqual([undefined, 2]);
  });

  it('takes a newer table in place of an older one, with what that had besides', async () => {
    const head = 'date,from,to,units\n';
    await release('import', 'a', file('old.csv', `${head}${DAY},06:00,08:00,1\n${DAY},14:00,18:00,1\n`));
    const newer = file('new.csv', `${head}${DAY},15:00,18:00,1\n`);
    expect(await release('import', 'a', newer)).toMatchObject({ code: 2 });
    await release('import', 'a', newer, '--replace');
    expect((await stored()).map(({ fromMs }) => fromMs)).toEqual([utc(`${DAY}T20:00`)]);
  });

  it.each([
    ['no amount', `${DAY},14:00,18:00,,\n`, /line 3, column "flow_m3s": .*flow_cfs/],
    ['two flows', `${DAY},14:00,18:00,10,300\n`, /line 3, column "flow_cfs"/],
    ['a flow in words', `${DAY},14:00,18:00,two units,\n`, /line 3, column "flow_m3s": found "two units"/],
    ['a negative flow', `${DAY},14:00,18:00,-4,\n`, /line 3, column "flow_m3s"/],
    ['a wrong hour', `${DAY},25:00,18:00,4,\n`, /line 3, column "from": found "25:00"/],
    ['no end', `${DAY},14:00,,4,\n`, /line 3, column "to": found ""/],
    ['a wrong date', `16/7/${YEAR},14:00,18:00,4,\n`, /line 3, column "date"/],
    ['hours that overlap', `${DAY},05:00,06:30,4,\n`, /line 3, column "from": .*line 2/],
    ['too few fields', `${DAY},14:00\n`, /line 3: 2 fields where the header has 5/],
    ['a quote left open', `${DAY},"14:00,18:00,4,\n`, /quote is never closed/],
  ])('keeps none of a table with %s', async (what, line, said) => {
    const table = file(
      `t${what.length}.csv`,
      `date,from,to,flow_m3s,flow_cfs\n${DAY},06:00,10:00,4,\n${line}`,
    );
    const { code, err } = await release('import', 'a', table);
    expect({ code, err }).toMatchObject({ code: 2, err: expect.stringMatching(said) as string });
    expect(err).toContain(table);
    expect(await stored()).toEqual([]);
  });

  it.each([
    ['an empty file', '', /no column "date"/],
    ['a header alone', 'date,from,to,units\n', /no release in it/],
    ['no column of hours', `date,units\n${DAY},1\n`, /no column "from"/],
  ])('refuses %s', async (_, text, said) => {
    expect((await release('import', 'a', file('x.csv', text))).err).toMatch(said);
  });
});

describe('thawline release remove', () => {
  it('takes hours back, and knows none of another name', async () => {
    await release('add', 'a', DAY, '14:00', '18:00', '--units', '1');
    const [one] = await stored();
    expect((await release('remove', 'a', one?.id ?? '')).out).toBe(`Removed ${one?.id ?? ''}.\n`);
    expect(await stored()).toEqual([]);
    expect((await release('remove', 'a', 'nothing')).err).toMatch(/There is no release "nothing"/);
  });
});
