import { describe, expect, it } from 'vitest';
import { readOutline, spotOf } from '../../src/shape/index.ts';

const near = { latDeg: 35.9, lonDeg: -86.4 };

type Position = readonly [number, number];
/** A closed ring of positions around the lake, from steps in degrees. */
const ring = (steps: readonly Position[]): Position[] => {
  const positions = steps.map(([lon, lat]): Position => [near.lonDeg + lon, near.latDeg + lat]);
  return [...positions, ...positions.slice(0, 1)];
};
const square = ring([
  [-0.01, -0.01],
  [0.01, -0.01],
  [0.01, 0.01],
  [-0.01, 0.01],
]);
const island = ring([
  [-0.002, -0.002],
  [0.002, -0.002],
  [0.002, 0.002],
  [-0.002, 0.002],
]);
const polygon = (...coordinates: Position[][]): string => JSON.stringify({ type: 'Polygon', coordinates });

function circle(count: number, radiusDeg: number): Position[] {
  return ring(
    Array.from({ length: count }, (_, i): Position => {
      const angle = (2 * Math.PI * i) / count;
      return [
        (radiusDeg * Math.cos(angle)) / Math.cos((near.latDeg * Math.PI) / 180),
        radiusDeg * Math.sin(angle),
      ];
    }),
  );
}

describe('an outline is read from GeoJSON', () => {
  it('as a Polygon, a MultiPolygon, a feature and a collection, with the same area', () => {
    const bare = readOutline(polygon(square), near);
    const multi = JSON.stringify({ type: 'MultiPolygon', coordinates: [[square]] });
    const feature = JSON.stringify({
      type: 'Feature',
      properties: {},
      geometry: { type: 'Polygon', coordinates: [square] },
    });
    const collection = JSON.stringify({
      type: 'FeatureCollection',
      features: [
        { type: 'Feature', properties: {}, geometry: { type: 'Point', coordinates: [0, 0] } },
        JSON.parse(feature) as unknown,
      ],
    });
    for (const text of [multi, feature, collection])
      expect(readOutline(text, near).areaM2).toBeCloseTo(bare.areaM2, 6);
  });

  it('with the area of a spherical rectangle: R² Δλ (sin φ2 − sin φ1)', () => {
    // Area of a zone of the sphere between two parallels (Archimedes, On the Sphere and Cylinder I), R = 6 371 008.8 m,
    // the mean radius of GRS80 (IUGG; Moritz 2000, J. Geodesy 74, 128).
    const rad = Math.PI / 180;
    const exact =
      6_371_008.8 ** 2 *
      0.02 *
      rad *
      (Math.sin((near.latDeg + 0.01) * rad) - Math.sin((near.latDeg - 0.01) * rad));
    // The library takes the radius of the equator of WGS 84 for its sphere: 0.22 % more.
    expect(readOutline(polygon(square), near).areaM2 / exact).toBeCloseTo(1, 2);
  });

  it('with an island taken out, whichever way round its points run', () => {
    const whole = readOutline(polygon(square), near).areaM2;
    const less = readOutline(polygon(square, island), near).areaM2;
    const reversed = readOutline(polygon([...square].reverse(), [...island].reverse()), near);
    expect(less / whole).toBeCloseTo(1 - 0.04, 3);
    expect(reversed.areaM2).toBeCloseTo(less, 3);
    expect(reversed.rings).toHaveLength(2);
  });

  it('and of a circle of 2 km radius with the area of a circle', () => {
    const radiusM = spotOf(near, near.latDeg + 0.018, near.lonDeg)[1];
    const read = readOutline(polygon(circle(720, 0.018)), near);
    expect(read.areaM2 / (Math.PI * radiusM ** 2)).toBeCloseTo(1, 2);
  });

  it('with 100,000 points simplified to at most 2,000, the area kept within a thousandth', () => {
    const fine = readOutline(polygon(circle(100_000, 0.05)), near);
    const coarse = readOutline(polygon(circle(1500, 0.05)), near);
    expect(fine.pointsRead).toBe(100_000);
    expect(fine.pointsKept).toBeLessThanOrEqual(2000);
    expect(fine.areaM2 / coarse.areaM2).toBeCloseTo(1, 3);
  });
});

describe('an outline that cannot be right is refused with a sentence', () => {
  const refusal = (text: string): string => {
    try {
      readOutline(text, near);
      return 'nothing refused';
    } catch (error) {
      return error instanceof Error ? error.message : '';
    }
  };

  it('where its shore crosses itself', () => {
    const bow = ring([
      [-0.01, -0.01],
      [0.01, 0.01],
      [0.01, -0.01],
      [-0.01, 0.01],
    ]);
    expect(refusal(polygon(bow))).toMatch(
      /crosses itself near latitude 35\.\d+, longitude -86\.\d+\. Mend it/,
    );
  });
  it('where an island crosses the shore', () => {
    const across = ring([
      [0.005, -0.002],
      [0.02, -0.002],
      [0.02, 0.002],
      [0.005, 0.002],
    ]);
    expect(refusal(polygon(square, across))).toMatch(/crosses itself/);
  });
  it('where latitude and longitude stand the wrong way round', () => {
    const turned = square.map(([lon, lat]): Position => [lat, lon]);
    expect(refusal(polygon(turned))).toMatch(/wrong way round; expected \[longitude, latitude\]/);
  });
  it('where a latitude beyond 90 tells the same', () => {
    const east = { latDeg: 45, lonDeg: 120 };
    const turned: Position[] = [
      [45, 120],
      [45.1, 120],
      [45.1, 120.1],
      [45, 120],
    ];
    expect(() => readOutline(polygon(turned), east)).toThrow(/wrong way round/);
  });
  it('where it names another coordinate system', () => {
    const crs = { type: 'name', properties: { name: 'urn:ogc:def:crs:EPSG::26916' } };
    expect(refusal(JSON.stringify({ type: 'Polygon', crs, coordinates: [square] }))).toMatch(
      /EPSG::26916"; expected longitude and latitude of WGS 84/,
    );
    const wgs84 = { type: 'name', properties: { name: 'urn:ogc:def:crs:OGC:1.3:CRS84' } };
    expect(refusal(JSON.stringify({ type: 'Polygon', crs: wgs84, coordinates: [square] }))).toBe(
      'nothing refused',
    );
  });
  it('where it holds metres', () => {
    const metres: Position[] = [
      [553_000, 3_970_000],
      [554_000, 3_970_000],
      [554_000, 3_971_000],
      [553_000, 3_970_000],
    ];
    expect(refusal(polygon(metres))).toMatch(/no longitude and latitude/);
  });
  it('where it lies elsewhere', () => {
    const away = square.map(([lon, lat]): Position => [lon - 20, lat]);
    expect(refusal(polygon(away))).toMatch(/lies around latitude 35\.90, longitude -106\.40, but the lake/);
  });
  it.each([
    ['{"type":"FeatureCollection","features":[]}', /no area: expected a Polygon or MultiPolygon/],
    ['{"type":"Polygon","coordinates":[]}', /no area/],
    ['{"type":"Polygon","coordinates":[[[1,2],[1,2]]]}', /has 2 positions; expected at least four/],
    ['{"type":"LineString","coordinates":[[1,2],[2,3]]}', /no area/],
    [
      '{"type":"Polygon","coordinates":[[["a",2],[1,2],[1,3],[1,2]]]}',
      /position 1 of the shore is not two numbers/,
    ],
    ['<kml/>', /not GeoJSON/],
    ['', /not GeoJSON/],
  ])('where it holds nothing to read: %s', (text, expected) => {
    expect(refusal(text)).toMatch(expected);
  });
});
