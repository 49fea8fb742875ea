/** The land that drains into a pocket, from its outline: checked, and fed to the storm's inflow. */
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { loadConfig, type PocketConfig } from '../../src/config/index.ts';
import { ThawlineError } from '../../src/units/index.ts';

const folder = mkdtempSync(join(tmpdir(), 'thawline-watershed-'));
/** Degrees of a kilometre at 36 north: a sphere of 6371.0088 km. */
const LAT = 1 / 111.195;
const LON = LAT / Math.cos((36 * Math.PI) / 180);
/** A rectangle of land, km from the mouth: west, south, east, north. */
const land = (west: number, south: number, east: number, north: number): string => {
  const corners = [
    [west, south],
    [east, south],
    [east, north],
    [west, north],
    [west, south],
  ];
  return JSON.stringify({
    type: 'Feature',
    properties: {},
    geometry: {
      type: 'Polygon',
      coordinates: [corners.map(([x = 0, y = 0]) => [-86 + x * LON, 36 + y * LAT])],
    },
  });
};

async function pocketOf(
  geojson: string | null,
  more = '',
  position = 'position: { lat: 36, lon: -86 }, ',
): Promise<PocketConfig | undefined> {
  const file = 'creek.geojson';
  if (geojson !== null) writeFileSync(join(folder, file), geojson);
  const path = join(folder, 'thawline.yaml');
  writeFileSync(
    path,
    `lakes:\n  - id: a\n    name: Lake A\n    position: { lat: 35.99, lon: -86 }\n    zone: America/Chicago\n    waterBody: highland-reservoir\n    meanDepth: 10 m\n    area: 10 km2\n    pockets:\n      - { id: draw, name: North Draw, ${position}${more}watershedOutline: ${geojson === null ? 'nowhere.geojson' : file} }\n`,
  );
  return (await loadConfig(path)).lakes[0]?.pockets[0];
}
const complaint = async (...words: Parameters<typeof pocketOf>): Promise<string> => {
  const thrown: unknown = await pocketOf(...words).then(
    () => new Error('was accepted'),
    (error: unknown) => error,
  );
  expect(thrown).toBeInstanceOf(ThawlineError);
  return thrown instanceof Error ? thrown.message : '';
};

describe('a watershed outline', () => {
  it('is the land of the pocket: 2 km by 3 km are 6 km2', async () => {
    expect((await pocketOf(land(-1, 0, 1, 3)))?.watershedKm2).toBeCloseTo(6, 1);
  });

  it('may begin a little beside the mouth', async () => {
    expect((await pocketOf(land(-1, 0.15, 1, 3)))?.watershedKm2).toBeCloseTo(5.7, 1);
  });

  it('agrees with a watershed that is named besides', async () => {
    expect((await pocketOf(land(-1, 0, 1, 3), 'watershed: 5.5 km2, '))?.watershedKm2).toBeCloseTo(6, 1);
  });

  it.each([
    ['lies elsewhere', land(3, 0, 5, 3), '', /position of North Draw lies 3\d{3} m outside of it/],
    [
      'differs from the watershed',
      land(-1, 0, 1, 3),
      'watershed: 2 km2, ',
      /encloses 6 km2, but watershed says 2 km2 \(200 % more\)/,
    ],
    ['is a garden', land(-0.01, -0.01, 0.01, 0.01), '', /encloses 0\.0004 km2; expected the land/],
    ['is no GeoJSON', 'a creek', '', /creek\.geojson: it is not GeoJSON/],
    ['is a line', '{"type":"LineString","coordinates":[[-86,36],[-86,36.1]]}', '', /it holds no area/],
    [
      'has latitude and longitude the wrong way round',
      land(-1, 0, 1, 3).replaceAll(/\[(-8[\d.]+),(3[\d.]+)\]/g, '[$2,$1]'),
      '',
      /latitude and longitude stand the wrong way round/,
    ],
  ])('is refused where it %s, with line and cure', async (_, geojson, more, said) => {
    const message = await complaint(geojson, more);
    expect(message).toMatch(/thawline\.yaml:\d+:\d+: lakes\.0\.pockets\.0\.watershedOutline: /);
    expect(message).toMatch(said);
  });

  it('is refused without a position of the pocket, and where the file is missing', async () => {
    expect(await complaint(land(-1, 0, 1, 3), '', '')).toMatch(/Give the pocket a position/);
    expect(await complaint(null)).toMatch(/nowhere\.geojson cannot be read/);
  });
});
