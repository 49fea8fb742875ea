import { copyFileSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { loadConfig, type LakeConfig } from '../../src/config/index.ts';
import { outlineFindings } from '../../src/cli/checkLake.ts';
import { ThawlineError } from '../../src/units/index.ts';
import { outlined } from '../helpers/outlined.ts';

const folder = mkdtempSync(join(tmpdir(), 'thawline-outline-'));
copyFileSync('config/ossarly.geojson', join(folder, 'ossarly.geojson'));

async function lakeOf(text: string): Promise<LakeConfig> {
  const path = join(folder, 'thawline.yaml');
  writeFileSync(path, text);
  const [lake] = (await loadConfig(path)).lakes;
  if (lake === undefined) throw new Error('no lake');
  return lake;
}

async function complaint(text: string): Promise<string> {
  const thrown: unknown = await lakeOf(text).then(
    () => new Error('was accepted'),
    (error: unknown) => error,
  );
  expect(thrown).toBeInstanceOf(ThawlineError);
  return thrown instanceof Error ? thrown.message.replaceAll(`${folder}/`, '') : '';
}

describe('a lake with an outline', () => {
  it('is read with its places on it: bank, side they are open to, and fetch in 36 directions', async () => {
    const { shape, fetchM } = await lakeOf(outlined());
    expect(shape?.places.map(({ name, kind }) => [name, kind])).toEqual([
      ['Mill Draw', 'pocket'],
      ['Long Hollow', 'pocket'],
      ['Cedar Shoulder', 'point'],
      ['North Landing', 'ramp'],
      ['Dam Ramp', 'ramp'],
    ]);
    const mill = shape?.places.find(({ name }) => name === 'Mill Draw');
    // At the north end of an arm that runs south: open to the south.
    expect(mill?.facesDeg).toBeGreaterThan(150);
    expect(mill?.facesDeg).toBeLessThan(215);
    expect(mill?.fetchesM).toHaveLength(36);
    expect(Math.min(...(mill?.fetchesM ?? [0]))).toBeGreaterThan(0);
    expect(shape?.outline.areaM2).toBeCloseTo(6200 * 4046.8564224, -6);
    expect(fetchM).toBe(shape?.longestFetchM);
    // The configured one was measured on the same drawing, so example and demonstration have one truth.
    expect(fetchM).toBeCloseTo(6 * 1609.344, -2);
  });

  it('has the longest open water that counts, whatever the configuration says of it', async () => {
    for (const written of ['', '    fetch: 1 mi\n', '    fetch: 20 mi\n']) {
      const { shape, fetchM } = await lakeOf(outlined().replace(/ {4}fetch: .*\n/, written));
      expect(fetchM).toBe(shape?.longestFetchM);
    }
  });

  it('keeps the side that a place says it faces', async () => {
    const lake = await lakeOf(
      outlined().replace('name: Mill Draw\n', 'name: Mill Draw\n        faces: SE\n'),
    );
    expect(lake.shape?.places[0]?.facesDeg).toBe(135);
    expect(lake.pockets[0]?.facesDeg).toBe(135);
  });

  it('gives a pocket the mouth and the water that its configuration leaves out, and nothing it names', async () => {
    const [mill, hollow] = (await lakeOf(outlined())).pockets;
    expect(hollow?.mouthWidthM).toBeCloseTo(260 * 0.3048, 3);
    const bare = outlined()
      .replace(/ {8}mouthWidth: 260 ft\n/, '')
      .replace(/(id: long-hollow[\s\S]*?) {8}area: .*\n/, '$1');
    const [same, open] = (await lakeOf(bare)).pockets;
    expect(same).toEqual(mill);
    // Between the arms of the invented shore: some hundred metres wide.
    expect(open?.mouthWidthM).toBeGreaterThan(300);
    expect(open?.mouthWidthM).toBeLessThan(700);
    expect((open?.areaM2 ?? 0) / 1e4).toBeGreaterThan(10);
  });

  it('reads a horizon by direction, and puts those left out between their neighbours', async () => {
    const lake = await lakeOf(
      outlined().replace('name: Mill Draw\n', 'name: Mill Draw\n        horizon: { E: 10 deg, W: 20 deg }\n'),
    );
    expect(lake.pockets[0]?.horizonDeg).toEqual([15, 12.5, 10, 12.5, 15, 17.5, 20, 17.5]);
  });
});

describe('an outline that does not fit its lake is refused with line, distance and cure', () => {
  it('whose area differs', async () => {
    expect(await complaint(outlined().replace('area: 6200 acres', 'area: 2000 acres'))).toMatch(
      /^thawline\.yaml:\d+:\d+: lakes\.0\.outline: it encloses 25\.1 km2, but area says 8\.09 km2 \(210 % more\)/,
    );
  });
  it('whose position lies on land', async () => {
    expect(await complaint(outlined().replace('lat: 35.9,', 'lat: 35.93,'))).toMatch(
      /lakes\.0\.position: it lies [\d.]+ k?m outside of the outline/,
    );
  });
  it('with a place far from the water', async () => {
    const text = outlined().replace(
      /name: Dam Ramp, position: .*/,
      'name: Dam Ramp, position: { lat: 35.9, lon: -86.46 } }',
    );
    expect(await complaint(text)).toMatch(
      /lakes\.0\.ramps\.1\.position: Dam Ramp lies [\d.]+ k?m outside of the water; expected inside, or at most 200 m outside/,
    );
  });
  it('with a place of the bank in the middle of the lake', async () => {
    const text = outlined().replace(
      /name: Dam Ramp, position: .*/,
      'name: Dam Ramp, position: { lat: 35.903, lon: -86.397 } }',
    );
    expect(await complaint(text)).toMatch(
      /Dam Ramp lies \d+ m from the shore; a place of the bank lies within 200 m/,
    );
  });
  it('that is missing, or broken', async () => {
    expect(await complaint(outlined().replace('ossarly.geojson', 'none.geojson'))).toMatch(
      /lakes\.0\.outline: none\.geojson cannot be read\. Put the file there/,
    );
    writeFileSync(join(folder, 'bad.geojson'), readFileSync('config/ossarly.geojson', 'utf8').slice(0, 500));
    expect(await complaint(outlined().replace('ossarly.geojson', 'bad.geojson'))).toMatch(
      /bad\.geojson: it is not GeoJSON/,
    );
  });
  it('with a side or a horizon that is none', async () => {
    expect(
      await complaint(outlined().replace('name: Mill Draw\n', 'name: Mill Draw\n        faces: up\n')),
    ).toMatch(/pockets\.0\.faces/);
    expect(
      await complaint(outlined().replace('name: Mill Draw\n', 'name: Mill Draw\n        horizon: {}\n')),
    ).toMatch(/expected at least one direction/);
  });
});

describe('check tells of an outline', () => {
  it('area, points, each place, and those that stand on no map', async () => {
    const lake = await lakeOf(outlined().replace(/ {8}position: .*\n/, ''));
    const said = outlineFindings(lake).map(({ sentence }) => sentence);
    expect(said[0]).toMatch(/25\.09 km2 \(area says 25\.09\), 3 shores, \d+ points read, \d+ kept, longest/);
    expect(said).toContainEqual(
      expect.stringMatching(/Cedar Shoulder lies \d+ m from the shore, is open to/),
    );
    expect(said.at(-1)).toMatch(/^outline: Mill Draw stand on no map: give each a position/);
  });
});
