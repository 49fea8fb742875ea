/**
 * Draws the outline of the invented lake of the demonstration: `npx tsx scripts/make-outline.ts` writes the same bytes
 * each time. Arms are thick lines with ragged edges; the shore is where their union ends (marching squares).
 */
import { writeFileSync } from 'node:fs';

const POSITION = { latDeg: 35.9, lonDeg: -86.4 };
/** 6,200 acres. */
const AREA_M2 = 6200 * 4046.8564224;
const CELL_M = 40;
const DEGREE_M = (Math.PI / 180) * 6_371_008.8;

type Spot = readonly [eastM: number, northM: number];
interface Arm {
  readonly through: readonly Spot[];
  /** Half width at its first and last spot, m. */
  readonly half: readonly [number, number];
}

/** The river comes from the north-east, the dam lies in the south-west. */
const ARMS: readonly Arm[] = [
  {
    through: [
      [-3600, -2900],
      [-2300, -1700],
      [-300, -300],
      [1300, 500],
      [2500, 1900],
    ],
    half: [900, 640],
  },
  {
    through: [
      [2500, 1900],
      [3300, 2900],
      [4700, 3400],
      [5400, 4500],
    ],
    half: [640, 150],
  },
  {
    through: [
      [-1200, -900],
      [-2300, 500],
      [-2500, 1700],
      [-3300, 2700],
    ],
    half: [560, 110],
  },
  {
    through: [
      [-2400, 900],
      [-3500, 900],
      [-4200, 1300],
    ],
    half: [240, 90],
  },
  {
    through: [
      [500, 100],
      [1700, -1100],
      [2000, -2200],
      [3000, -2900],
    ],
    half: [470, 110],
  },
  {
    through: [
      [1750, -1200],
      [2900, -1300],
      [3500, -1000],
    ],
    half: [230, 80],
  },
  {
    through: [
      [1400, 700],
      [800, 1900],
      [1000, 2700],
    ],
    half: [330, 90],
  },
  {
    through: [
      [2600, 1500],
      [3800, 1100],
      [4300, 600],
    ],
    half: [300, 100],
  },
  {
    through: [
      [-2700, -2200],
      [-3900, -1500],
      [-4400, -700],
    ],
    half: [330, 100],
  },
  {
    through: [
      [-1700, -1500],
      [-1300, -2600],
      [-1500, -3200],
    ],
    half: [300, 90],
  },
];
const ISLANDS: readonly { readonly at: Spot; readonly halfM: number }[] = [
  { at: [-500, -520], halfM: 190 },
  { at: [-2900, -2350], halfM: 150 },
];

/** The same ragged edge each time: a few waves that never meet in step. */
const ragged = ([x, y]: Spot): number =>
  1 +
  0.16 * Math.sin(x / 310 + y / 530) +
  0.12 * Math.sin(x / 170 - y / 140 + 1.3) +
  0.07 * Math.sin(x / 83 + y / 91 + 0.4);

/** How deep in the water a spot lies, in half widths; below 0 on land. */
function depthAt(spot: Spot): number {
  let most = -Infinity;
  for (const { through, half } of ARMS) {
    const count = through.length - 1;
    through.slice(1).forEach((to, i) => {
      const from = through[i] ?? to;
      const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
      const t = Math.min(
        1,
        Math.max(0, ((spot[0] - from[0]) * dx + (spot[1] - from[1]) * dy) / (dx * dx + dy * dy)),
      );
      const width = half[0] + ((i + t) / count) * (half[1] - half[0]);
      const off = Math.hypot(spot[0] - from[0] - t * dx, spot[1] - from[1] - t * dy);
      most = Math.max(most, width * ragged(spot) - off);
    });
  }
  for (const { at, halfM } of ISLANDS)
    most = Math.min(most, Math.hypot(spot[0] - at[0], spot[1] - at[1]) - halfM * ragged(spot));
  return most;
}

const SIZE_M = 7200;
const key = (spot: Spot): string => `${spot[0].toFixed(3)},${spot[1].toFixed(3)}`;

/** Pieces of shore cell by cell, each with the water on its left, joined to rings. */
function rings(): Spot[][] {
  const next = new Map<string, Spot>();
  const start = new Map<string, Spot>();
  for (let x = -SIZE_M; x < SIZE_M; x += CELL_M) {
    for (let y = -SIZE_M; y < SIZE_M; y += CELL_M) {
      const corners: Spot[] = [
        [x, y],
        [x + CELL_M, y],
        [x + CELL_M, y + CELL_M],
        [x, y + CELL_M],
      ];
      const depth = corners.map(depthAt);
      // Two triangles a cell: no case in which it is not clear what joins what.
      for (const [a, b, c] of [
        [0, 1, 2],
        [0, 2, 3],
      ] as const) {
        const cut = (p: number, q: number): Spot => {
          const [low, high] = [Math.min(p, q), Math.max(p, q)];
          const [from, to] = [corners[low] ?? [0, 0], corners[high] ?? [0, 0]];
          const [dp, dq] = [depth[low] ?? 0, depth[high] ?? 0];
          const t = dp / (dp - dq);
          return [from[0] + t * (to[0] - from[0]), from[1] + t * (to[1] - from[1])];
        };
        const order = [a, b, c];
        const wet = order.filter((i) => (depth[i] ?? 0) > 0);
        if (wet.length === 0 || wet.length === 3) continue;
        const odd = order.findIndex((i) => (depth[i] ?? 0) > 0 === (wet.length === 1));
        const [p, q, r] = [order[odd] ?? 0, order[(odd + 1) % 3] ?? 0, order[(odd + 2) % 3] ?? 0];
        const [one, other] = [cut(p, q), cut(p, r)];
        const [from, to] = wet.length === 1 ? [one, other] : [other, one];
        next.set(key(from), to);
        start.set(key(from), from);
      }
    }
  }
  const found: Spot[][] = [];
  while (start.size > 0) {
    const [[first, spot] = ['', [0, 0] as Spot]] = start;
    const ring: Spot[] = [spot];
    start.delete(first);
    for (let to = next.get(first); to !== undefined && key(to) !== first; to = next.get(key(to))) {
      ring.push(to);
      start.delete(key(to));
    }
    found.push(ring);
  }
  return found;
}

const areaM2 = (ring: readonly Spot[]): number =>
  ring.reduce((sum, [x, y], i) => {
    const [px, py] = ring.at(i - 1) ?? [0, 0];
    return sum + (px * y - x * py) / 2;
  }, 0);

const all = rings().sort((a, b) => areaM2(b) - areaM2(a));
const [shore, ...rest] = all;
const islands = rest.filter((ring) => areaM2(ring) < -5000);
if (shore === undefined) throw new Error('no shore');
const water = [shore, ...islands].reduce((sum, ring) => sum + areaM2(ring), 0);
const scale = Math.sqrt(AREA_M2 / water);
const position = ([east, north]: Spot): [number, number] => [
  Number(
    (POSITION.lonDeg + (east * scale) / (DEGREE_M * Math.cos((POSITION.latDeg * Math.PI) / 180))).toFixed(5),
  ),
  Number((POSITION.latDeg + (north * scale) / DEGREE_M).toFixed(5)),
];
/** Every third point: 100 m apart. */
const thinned = (ring: readonly Spot[]): [number, number][] => {
  const kept = ring.filter((_, i) => i % 3 === 0).map(position);
  return [...kept, ...kept.slice(0, 1)];
};
const coordinates = [shore, ...islands].map(thinned);
const feature = {
  type: 'Feature',
  properties: { name: 'Ossarly Lake', note: 'invented, for demonstration' },
  geometry: { type: 'Polygon', coordinates },
};
writeFileSync('config/ossarly.geojson', `${JSON.stringify(feature)}\n`);
process.stdout.write(
  `config/ossarly.geojson: ${coordinates.length} rings, ${coordinates.flat().length} points, scale ${scale.toFixed(3)}\n`,
);
