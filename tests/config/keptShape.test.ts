/** What was computed from outlines is taken from where it was kept, and computed anew wherever it does not belong. */
import { copyFileSync, mkdtempSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { createHash } from 'node:crypto';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { loadConfig, type Config, type KeptShape } from '../../src/config/index.ts';
import { SHAPE_VERSION } from '../../src/config/keptShape.ts';
import { keepShapes, keptShapes, openRecord } from '../../src/record/index.ts';
import { outlined } from '../helpers/outlined.ts';

const folder = mkdtempSync(join(tmpdir(), 'thawline-kept-'));
const path = join(folder, 'thawline.yaml');
const outline = join(folder, 'ossarly.geojson');
copyFileSync('config/ossarly.geojson', outline);
writeFileSync(path, outlined());

const shapeIn = ({ lakes: [lake] }: Config) => lake?.shape;
const shelfOf = (kept: readonly KeptShape[]) => () => Promise.resolve(kept);

describe('a shape that was kept', () => {
  it('comes back to the letter, and is not kept once more', async () => {
    const first = await loadConfig(path);
    expect(first.made?.map(({ lake, part }) => [lake, part])).toEqual([['ossarly', '']]);
    const again = await loadConfig(path, shelfOf(first.made ?? []));
    expect(again.made).toBeUndefined();
    expect(shapeIn(again)).toEqual(shapeIn(first));
  });

  it('is taken as it was kept: nothing is computed beside it', async () => {
    const { made = [] } = await loadConfig(path);
    const marked = made.map((one) => ({
      ...one,
      body: one.body.replace(/"longestFetchM":\d+/, '"longestFetchM":12345'),
    }));
    const { lakes } = await loadConfig(path, shelfOf(marked));
    expect(lakes[0]?.shape?.longestFetchM).toBe(12_345);
    expect(lakes[0]?.fetchM).toBe(12_345);
  });

  it('of another outline, place or area counts for nothing, nor does one that cannot be read', async () => {
    const { made = [] } = await loadConfig(path);
    const keys = new Set(made.map(({ key }) => key));
    for (const change of [
      (text: string) => text.replace('area: 6200 acres', 'area: 6300 acres'),
      (text: string) => text.replace('name: Cedar Shoulder', 'name: Cedar Point'),
    ]) {
      const changed = change(outlined());
      expect(changed).not.toBe(outlined());
      writeFileSync(path, changed);
      const [now] = (await loadConfig(path, shelfOf(made))).made ?? [];
      expect(now).toBeDefined();
      keys.add(now?.key ?? '');
    }
    writeFileSync(path, outlined());
    writeFileSync(outline, `${readFileSync('config/ossarly.geojson', 'utf8')}\n`);
    const [touched] = (await loadConfig(path, shelfOf(made))).made ?? [];
    keys.add(touched?.key ?? '');
    expect(keys.size).toBe(4);
    copyFileSync('config/ossarly.geojson', outline);
    for (const body of ['', '{', '{}', JSON.stringify({ places: [] })]) {
      const spoilt = made.map((one) => ({ ...one, body }));
      expect(shapeIn(await loadConfig(path, shelfOf(spoilt)))?.places).toHaveLength(5);
    }
  });

  it('does not hide what is wrong with the outline of today', async () => {
    const { made = [] } = await loadConfig(path);
    writeFileSync(outline, '{"type":"Point","coordinates":[0,0]}');
    await expect(loadConfig(path, shelfOf(made))).rejects.toThrow(/it holds no area/);
    copyFileSync('config/ossarly.geojson', outline);
  });
});

describe('the record', () => {
  it('that is not there, or is no record, has kept nothing, and is neither made nor touched', async () => {
    const none = join(folder, 'none.sqlite');
    expect(await keptShapes(none, ['ossarly'])).toEqual([]);
    expect(statSync(none, { throwIfNoEntry: false })).toBeUndefined();
    const junk = join(folder, 'junk.sqlite');
    writeFileSync(junk, 'no record at all');
    expect(await keptShapes(junk, ['ossarly'])).toEqual([]);
    expect(readFileSync(junk, 'utf8')).toBe('no record at all');
    expect(await keptShapes('postgres:THAWLINE_NOT_SET', ['ossarly'])).toEqual([]);
  });

  it('gives a later process what one before it has put there', async () => {
    const file = join(folder, 'record.sqlite');
    const first = await loadConfig(path);
    const record = await openRecord(file);
    await keepShapes(record, first.made ?? []);
    // Also while another has it open, with its log beside it.
    expect(await keptShapes(file, ['ossarly'])).toEqual(first.made);
    await record.close();
    expect(await keptShapes(file, ['ossarly'])).toEqual(first.made);
    expect(await keptShapes(file, ['another'])).toEqual([]);
  });
});

it('the version rises when the result changes: records would go on with what they kept', async () => {
  const { made: [kept] = [] } = await loadConfig(path);
  // Rounded, so that the last bit of a machine's sine makes no new version.
  const rounded = JSON.stringify(JSON.parse(kept?.body ?? ''), (_, value: unknown) =>
    typeof value === 'number' ? Number(value.toPrecision(6)) : value,
  );
  const digest = createHash('sha256').update(rounded).digest('hex').slice(0, 16);
  expect({ version: SHAPE_VERSION, digest }).toEqual({ version: 1, digest: '3dc374b3abfc3b09' });
});
