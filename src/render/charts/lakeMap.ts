/**
 * The lake as a line drawing at one hour: outline, blocks of the plan with their hours, wind, banks that it reaches, waves
 * as strokes, ramps, pockets tinted by their difference. Colours are the page's own, so that both schemes can draw it.
 */
import { fetchWaves } from '../../science/index.ts';
import { bothWaysAlong, edgesOf, isInside, nearestBank, towards, type Spot } from '../../shape/index.ts';
import { betweenDeg, eighthOf, formatQuantity, type UnitSystem } from '../../units/index.ts';
import { clock, type BriefingPage, type PageMap, type Words } from '../../words/index.ts';
import { inClock } from '../clock.ts';
import { escapeHtml } from '../escape.ts';
import { COLOUR } from '../style.ts';
import type { ClockView } from './dayClock.ts';
import { LabelRoom } from './labelRoom.ts';
import { label, path, type Point } from './svg.ts';
import type { Drawn } from './tenDays.ts';

/** Widths that it is drawn for, and the size of its letters there. */
const SIZES = { 600: 19, 375: 13 } as const;
export type MapWidth = keyof typeof SIZES;

export interface MapView extends ClockView {
  readonly width: MapWidth;
  /** Hour that is drawn; the windiest of the light when left out. */
  readonly atMs?: number;
}

type Hour = BriefingPage['series']['hours'][number];

/** Civil light. */
const LIGHT_DEG = -6;
/** Wind within this of the side a bank looks to reaches it, from open water at least so long; degrees, m. */
const ONTO_DEG = 60;
const OPEN_M = 150;
/** Wind that matters at a bank, m/s (common practice, no source). */
const REACHES_MS = 2.7;
/** Waves from which one, two and three strokes are drawn, m. */
const WAVE_CLASSES_M = [0.1, 0.25, 0.5] as const;
/** A pocket is tinted from this difference on, K. */
const TINT_K = 0.4;

/** Hours of light whose wind is known: those that can be drawn. */
function mapHours({ series }: BriefingPage): (Hour & { windMs: number; windDirDeg: number })[] {
  return series.hours.filter(
    (hour): hour is Hour & { windMs: number; windDirDeg: number } =>
      hour.sunAltitudeDeg > LIGHT_DEG && hour.windMs !== undefined && hour.windDirDeg !== undefined,
  );
}

interface Frame {
  readonly doc: BriefingPage;
  readonly map: PageMap;
  readonly width: number;
  readonly size: number;
  readonly scale: number;
  readonly at: (spot: Spot) => Point;
  readonly height: number;
  readonly hour: (Hour & { windMs: number; windDirDeg: number }) | undefined;
  readonly q: (value: number, kind: Parameters<typeof formatQuantity>[1], signed?: boolean) => string;
  readonly time: (ms: number) => string;
  readonly units: UnitSystem;
  readonly w: Words['lake']['map'];
  readonly sides: Words['front']['sides'];
}

/** A lake more than this high for its width is drawn narrower. */
const HIGHEST = 0.95;
const MARGIN = 0.045;

function frameOf(doc: BriefingPage, map: PageMap, view: MapView, words: Words): Frame | null {
  const spots = map.rings.flat();
  if (spots.length < 3) return null;
  const [xs, ys] = [spots.map(([x]) => x), spots.map(([, y]) => y)];
  const [left, right, low, high] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  const { width } = view;
  const margin = MARGIN * width;
  const room = width - 2 * margin;
  const scale = Math.min(room / (right - left), (HIGHEST * width) / (high - low));
  const inset = (width - scale * (right - left)) / 2;
  const hours = mapHours(doc);
  const windiest = [...hours].sort((a, b) => b.windMs - a.windMs)[0];
  return {
    doc,
    map,
    width,
    size: SIZES[view.width],
    scale,
    at: ([x, y]) => [inset + (x - left) * scale, margin + (high - y) * scale],
    height: 2 * margin + scale * (high - low),
    hour: view.atMs === undefined ? windiest : hours.find(({ atMs }) => atMs === view.atMs),
    q: (value, kind, signed = false) => formatQuantity(value, kind, view.units, signed),
    time: (ms) => inClock(clock(ms, doc.lake.zone), view.clock, words.page),
    units: view.units,
    w: words.lake.map,
    sides: words.front.sides,
  };
}

const n = (value: number): string => String(Math.round(value * 10) / 10);
const d = (points: readonly Point[]): string =>
  points.map(([x, y], i) => `${i === 0 ? 'M' : 'L'}${n(x)} ${n(y)}`).join('');

/** The map at an hour; null for a lake without an outline, or an issue that is nil. @param doc in the reader's units */
export function lakeMap(doc: BriefingPage, view: MapView, words: Words): Drawn | null {
  if (doc.map === undefined || doc.status === 'nil') return null;
  const frame = frameOf(doc, doc.map, view, words);
  if (frame === null) return null;
  const room = new LabelRoom(
    { left: 2, top: 2, right: frame.width - 2, bottom: frame.height - 2 },
    shorePoints(frame),
  );
  const marks = [
    water(frame),
    inWater(frame, waves(frame) + tints(frame)),
    shores(frame),
    reachedBanks(frame),
  ];
  const named = names(frame, room);
  const { svg: key, height } = legend(frame, frame.height);
  return {
    svg:
      `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${frame.width} ${n(height)}" width="${frame.width}" height="${n(height)}">` +
      `<rect width="100%" height="100%" fill="${COLOUR.white}"/>${marks.join('')}${named}${key}</svg>`,
    alt: mapWords(frame).join(' '),
  };
}

/** Points of the shores, as close as letters are. */
const shorePoints = ({ map, at, size, scale }: Frame): Point[] =>
  edgesOf(map.rings).flatMap(([a, b]) => {
    const count = Math.max(1, Math.ceil((Math.hypot(b[0] - a[0], b[1] - a[1]) * scale) / (size / 2)));
    return Array.from({ length: count }, (_, i) =>
      at([a[0] + (i / count) * (b[0] - a[0]), a[1] + (i / count) * (b[1] - a[1])]),
    );
  });

const outlinePath = ({ map, at }: Frame): string =>
  map.rings.map((ring) => `${d(ring.map((spot) => at(spot)))}Z`).join('');

const water = (frame: Frame): string =>
  `<path d="${outlinePath(frame)}" fill="${COLOUR.blue}" fill-opacity="0.1" fill-rule="evenodd"/>`;
const shores = (frame: Frame): string =>
  `<path d="${outlinePath(frame)}" fill="none" stroke="${COLOUR.ink}" stroke-width="1.4" stroke-linejoin="round"/>`;

/** Banks that the wind of the hour reaches over open water: a thick line. */
function reachedBanks(frame: Frame): string {
  const { map, hour, at } = frame;
  if (hour === undefined || hour.windMs < REACHES_MS) return '';
  const open = bothWaysAlong(map, hour.windDirDeg);
  const pieces = edgesOf(map.rings).flatMap(([a, b]) => {
    // The water lies left of an edge.
    const faces = (Math.atan2(-(b[1] - a[1]), b[0] - a[0]) * 180) / Math.PI;
    if (betweenDeg((faces + 360) % 360, hour.windDirDeg) > ONTO_DEG) return [];
    const [east, north] = towards(faces);
    const off: Spot = [(a[0] + b[0]) / 2 + 4 * east, (a[1] + b[1]) / 2 + 4 * north];
    if (!isInside(map.rings, off) || open(off)[0] < OPEN_M) return [];
    return [d([at(a), at(b)])];
  });
  return `<path d="${pieces.join('')}" fill="none" stroke="${COLOUR.vermillion}" stroke-width="4.5" stroke-linecap="round"/>`;
}

const waveClass = (waveM: number): number => WAVE_CLASSES_M.filter((from) => waveM >= from).length;

/** Strokes across the wind, more of them in higher waves: told without colour. */
function waves(frame: Frame): string {
  const { map, hour, at, scale, width } = frame;
  if (hour === undefined) return '';
  const step = width / 21;
  const [east, north] = towards(hour.windDirDeg + 90);
  const [downEast, downNorth] = towards(hour.windDirDeg + 180);
  const half = step * 0.27;
  const open = bothWaysAlong(map, hour.windDirDeg);
  const strokes: string[] = [];
  const spots = map.rings.flat();
  const [left, right] = [Math.min(...spots.map(([x]) => x)), Math.max(...spots.map(([x]) => x))];
  const [low, high] = [Math.min(...spots.map(([, y]) => y)), Math.max(...spots.map(([, y]) => y))];
  const cell = step / scale;
  let row = 0;
  for (let y = low + cell / 2; y < high; y += cell * 0.87, row += 1) {
    for (let x = left + (row % 2 === 0 ? cell / 2 : cell); x < right; x += cell) {
      const spot: Spot = [x, y];
      if (!isInside(map.rings, spot)) continue;
      const [fetchM] = open(spot);
      const count = waveClass(fetchWaves(hour.windMs, fetchM).heightM);
      const [px, py] = at(spot);
      for (let i = 0; i < count; i += 1) {
        const off = (i - (count - 1) / 2) * step * 0.2;
        const [cx, cy] = [px + off * downEast, py - off * downNorth];
        strokes.push(
          d([
            [cx - half * east, cy + half * north],
            [cx + half * east, cy - half * north],
          ]),
        );
      }
    }
  }
  return `<path d="${strokes.join('')}" stroke="${COLOUR.blue}" stroke-width="1.3" stroke-opacity="0.8" fill="none"/>`;
}

/** The water of a pocket in the tint of its difference: warmer or colder than the lake. */
function tints(frame: Frame): string {
  const { map, at, width } = frame;
  const tinted = map.places.filter(({ minusMainC }) => Math.abs(minusMainC ?? 0) >= TINT_K);
  if (tinted.length === 0) return '';
  return tinted
    .map(({ at: spot, minusMainC = 0 }) => {
      const [x, y] = at(spot);
      const colour = minusMainC > 0 ? COLOUR.vermillion : COLOUR.blue;
      return `<circle cx="${n(x)}" cy="${n(y)}" r="${n(width / 20)}" fill="${colour}" fill-opacity="0.4"/>`;
    })
    .join('');
}

/** Marks cut at the shore. */
function inWater(frame: Frame, marks: string): string {
  const id = `water-${frame.width}`;
  return (
    `<clipPath id="${id}"><path d="${outlinePath(frame)}" clip-rule="evenodd"/></clipPath>` +
    `<g clip-path="url(#${id})">${marks}</g>`
  );
}

/** A block of the plan and the place of the map that it is fished at. */
interface MappedBlock {
  readonly number: number;
  readonly hours: string;
  readonly title: string;
  readonly at: Spot | null;
}

function blocksOf({ doc, map, time }: Frame): MappedBlock[] {
  return (doc.plan?.blocks ?? []).map(({ title, fromMs, toMs }, i) => ({
    number: i + 1,
    hours: `${time(fromMs)}–${time(toMs)}`,
    title,
    at: map.places.find(({ named }) => named === title)?.at ?? null,
  }));
}

/** Width of a letter of the font, of its size, bold. */
const LETTER = 0.6;

/** Names, numbers and hours beside their places, none across another. */
function names(frame: Frame, room: LabelRoom): string {
  const { map, at, size, q } = frame;
  const blocks = blocksOf(frame);
  const drawn: string[] = [];
  const spots = map.places.map((place) => ({
    place,
    point: at(place.at),
    own: blocks.filter((block) => block.at === place.at),
  }));
  for (const { point, place } of spots) {
    const [x, y] = point;
    const r = size * 0.42;
    room.take({ left: x - r, right: x + r, top: y - r, bottom: y + r });
    drawn.push(
      place.kind === 'ramp'
        ? rampMark(x, y, r)
        : `<circle cx="${n(x)}" cy="${n(y)}" r="${n(size * 0.26)}" fill="${COLOUR.ink}"/>`,
    );
  }
  // Places of the plan first: they must find room.
  for (const { place, point, own } of [...spots].sort((a, b) => b.own.length - a.own.length)) {
    const warm = place.minusMainC !== undefined && Math.abs(place.minusMainC) >= TINT_K;
    const lines = [
      ...own.map(({ number, hours }) => ({ words: `${number}: ${hours}`, bold: true })),
      { words: place.named, bold: own.length > 0 },
      ...(warm ? [{ words: q(place.minusMainC ?? 0, 'temperatureDifference', true), bold: false }] : []),
    ];
    const width = Math.max(...lines.map(({ words }) => words.length)) * size * LETTER;
    const height = lines.length * size * 1.18;
    const box = room.place(point, width, height, size * 0.7);
    if (box === null) continue;
    lines.forEach(({ words, bold }, i) => {
      drawn.push(label(box.left, box.top + size * (0.92 + 1.18 * i), words, { size, bold }));
    });
  }
  return drawn.join('');
}

/** A wedge that runs down to the water. */
const rampMark = (x: number, y: number, r: number): string =>
  `<path d="M${n(x - r)} ${n(y - r)}L${n(x + r)} ${n(y - r)}L${n(x)} ${n(y + r)}Z" fill="${COLOUR.white}" stroke="${COLOUR.ink}" stroke-width="1.6"/>`;

function arrow(cx: number, cy: number, deg: number, length: number, width: number): string {
  const [east, north] = towards(deg);
  const tip: Point = [cx + (east * length) / 2, cy - (north * length) / 2];
  const tail: Point = [cx - (east * length) / 2, cy + (north * length) / 2];
  const barb = (turn: number): Point => {
    const [e, m] = towards(deg + turn);
    return [tip[0] + e * length * 0.34, tip[1] - m * length * 0.34];
  };
  return path([tail, tip], { width }) + path([barb(150), tip, barb(210)], { width });
}

/** Lengths that a scale bar may have, by the unit's own metres. */
const NICE = [0.1, 0.2, 0.25, 0.5, 1, 2, 5, 10, 20, 50];

function scaleBar({ units, width, scale }: Frame): { readonly px: number; readonly words: string } {
  const [unitM, symbol] = units === 'us' ? [1609.344, 'mi'] : [1000, 'km'];
  const most = (width * 0.24) / scale / unitM;
  const size = NICE.findLast((one) => one <= most) ?? 0.1;
  return { px: size * unitM * scale, words: `${size} ${symbol}` };
}

/** North, scale, the wind of the hour, what the marks mean, and blocks that lie on no place of the map. */
function legend(frame: Frame, top: number): { readonly svg: string; readonly height: number } {
  const { size, width, hour, q, w } = frame;
  const line = size * 1.4;
  const parts: string[] = [
    path(
      [
        [0, top],
        [width, top],
      ],
      { colour: COLOUR.hairline, width: 1 },
    ),
  ];
  let y = top + line * 1.15;
  const words = (x: number, text: string, bold = false): void => {
    parts.push(label(x, y, text, { size, bold, halo: false }));
  };
  parts.push(arrow(size * 0.8, y - size * 0.35, 0, size * 1.1, 2));
  words(size * 1.6, w.north, true);
  const bar = scaleBar(frame);
  const barLeft = size * 3.6;
  parts.push(
    path(
      [
        [barLeft, y - size * 0.6],
        [barLeft, y - size * 0.1],
        [barLeft + bar.px, y - size * 0.1],
        [barLeft + bar.px, y - size * 0.6],
      ],
      { width: 2 },
    ),
  );
  words(barLeft + bar.px + size * 0.5, bar.words);
  y += line;
  if (hour !== undefined) {
    parts.push(arrow(size * 0.9, y - size * 0.35, hour.windDirDeg + 180, size * 1.1, 2.4));
    words(size * 2.2, windWords(frame), true);
    y += line;
  }
  const key = (draw: (x: number) => string, text: string): void => {
    parts.push(draw(size * 0.2));
    words(size * 2.2, text);
    y += line;
  };
  const stroke = (x: number, from: Point, to: Point, colour: string, thick: number): string =>
    path(
      [
        [x + from[0], y + from[1]],
        [x + to[0], y + to[1]],
      ],
      { colour, width: thick },
    );
  if (hour !== undefined && hour.windMs >= REACHES_MS)
    key((x) => stroke(x, [0, -size * 0.35], [size * 1.5, -size * 0.35], COLOUR.vermillion, 4.5), w.keyBanks);
  const steps = WAVE_CLASSES_M.map((waveM) => q(waveM, 'waveHeight'));
  if (hour !== undefined)
    key(
      (x) =>
        [0.15, 0.35, 0.55]
          .map((at) => stroke(x, [0, -size * at], [size * 1.5, -size * at], COLOUR.blue, 1.3))
          .join(''),
      w.keyWaves(steps[0] ?? '', steps[1] ?? '', steps[2] ?? ''),
    );
  if (frame.map.places.some(({ kind }) => kind === 'ramp'))
    key((x) => rampMark(x + size * 0.7, y - size * 0.35, size * 0.42), w.keyRamp);
  for (const block of blocksOf(frame).filter((one) => one.at === null)) {
    words(size * 0.2, fitted(`${block.number}: ${block.hours} ${block.title}`, width, size));
    y += line;
  }
  return { svg: parts.join(''), height: y - line * 0.35 };
}

function fitted(words: string, width: number, size: number): string {
  const most = Math.floor((width - size) / (size * 0.56));
  return words.length <= most ? words : `${words.slice(0, most - 1)}…`;
}

const windWords = ({ hour, q, time, w, sides }: Frame): string =>
  hour === undefined
    ? ''
    : w.wind(time(hour.atMs), sides[eighthOf(hour.windDirDeg)] ?? '', q(hour.windMs, 'windSpeed'));

/** Highest waves of the hour at the places, by name. */
function wavesAt({ map, hour }: Frame): { readonly name: string; readonly waveM: number }[] {
  if (hour === undefined) return [];
  return map.places.flatMap(({ named, waves: own }) => {
    const found = own.find(({ atMs }) => atMs === hour.atMs);
    return found === undefined ? [] : [{ name: named, waveM: found.waveM }];
  });
}

/** What the map shows, in sentences. */
function mapWords(frame: Frame): string[] {
  const { doc, map, hour, q, w, sides, time } = frame;
  const there = wavesAt(frame);
  const low = there.filter(({ waveM }) => waveM < WAVE_CLASSES_M[0]).map(({ name }) => name);
  const rough = there.filter(({ waveM }) => waveM >= WAVE_CLASSES_M[0]);
  return [
    w.title(doc.lake.name, hour === undefined ? '' : time(hour.atMs)),
    ...(hour === undefined ? [w.noWind] : [`${windWords(frame)}.`]),
    ...(hour === undefined || hour.windMs < REACHES_MS
      ? []
      : [w.reaches(sides[(eighthOf(hour.windDirDeg) + 4) % 8] ?? '')]),
    ...(rough.length === 0
      ? []
      : [w.rough(rough.map(({ name, waveM }) => w.at(name, q(waveM, 'waveHeight'))).join(', '))]),
    ...(low.length === 0 ? [] : [w.low(low.join(', '), q(WAVE_CLASSES_M[0], 'waveHeight'))]),
    ...blocksOf(frame).map(({ number, hours, title, at }) =>
      w.block(String(number), title, hours, at === null),
    ),
    ...map.places
      .filter(({ kind }) => kind === 'ramp')
      .map(({ named, at }) => w.ramp(named, sides[eighthOf(nearestBank(map, at).facesDeg)] ?? '')),
    ...map.places.flatMap(({ named, minusMainC }) =>
      minusMainC === undefined || Math.abs(minusMainC) < TINT_K
        ? []
        : [w.pocket(named, q(minusMainC, 'temperatureDifference', true))],
    ),
  ];
}

/** One line for each hour that can be drawn: the list beside the map. */
export function mapLines(doc: BriefingPage, view: MapView, words: Words): { atMs: number; words: string }[] {
  const { map } = doc;
  if (map === undefined) return [];
  return mapHours(doc).flatMap(({ atMs }) => {
    const frame = frameOf(doc, map, { ...view, atMs }, words);
    if (frame === null) return [];
    const there = wavesAt(frame).map(({ name, waveM }) =>
      waveM < WAVE_CLASSES_M[0]
        ? frame.w.lowAt(name, frame.q(WAVE_CLASSES_M[0], 'waveHeight'))
        : frame.w.at(name, frame.q(waveM, 'waveHeight')),
    );
    return [{ atMs, words: [windWords(frame), ...there].join('; ') }];
  });
}

/** For a page of the web. */
export const mapSvg = ({ svg, alt }: Drawn, className: string): string =>
  svg.replace('<svg ', `<svg role="img" class="${className}" aria-label="${escapeHtml(alt)}" `);
