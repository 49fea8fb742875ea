/** The cast to scale, cut along the cast and seen from above, with its numbers on it. */
import type { Messages, PageCast, Words } from '../../words/index.ts';
import { formatQuantity, item, type QuantityKind, type UnitSystem } from '../../units/index.ts';
import { COLOUR } from '../style.ts';
import { area, dot, drawing, label, path, rectangle, scale, WIDTH, type Point } from './svg.ts';
import type { Drawn } from './tenDays.ts';
import { rangeWords } from '../present.ts';

const TOP = 74;
const SIDE = 54;

/** Depth of the bottom at a distance from the landing point, m; the bank is a plane. */
const bottomAt = (cast: PageCast, x: number): number =>
  cast.castDepthM + ((cast.boatDepthM - cast.castDepthM) * x) / Math.max(cast.castLengthM, 1e-6);

/** Where the lure goes, as the document has it; issues before kept no way, so of theirs only the depth is drawn. */
function wayOf(cast: PageCast, at: (point: Point) => Point): string {
  if (cast.path !== undefined) {
    const corners = cast.path.map(({ alongM, depthM }) => at([alongM, depthM]));
    return path(corners, { colour: COLOUR.vermillion, width: 3 });
  }
  if (cast.contactFromM !== null) return '';
  const { castDepthM, boatDepthM, castLengthM, runningDepthM } = cast;
  const clearFromM =
    castDepthM >= runningDepthM
      ? 0
      : (castLengthM * (runningDepthM - castDepthM)) / Math.max(boatDepthM - castDepthM, 1e-6);
  if (clearFromM >= castLengthM) return '';
  return path([at([clearFromM, runningDepthM]), at([castLengthM, runningDepthM])], {
    colour: COLOUR.vermillion,
    width: 3,
    dash: '6 5',
  });
}

/** A lure that stays at its depth for this share of the way or more runs at it (our choice); else it only gets there. */
const RUNS_SHARE = 0.25;
/** Depths nearer than this are one, m. */
const SAME_DEPTH_M = 0.01;

/** How deep the lure goes, in words that are true of what is drawn; '' where an issue before does not say. */
function depthWords(cast: PageCast, units: UnitSystem, m: Messages): string {
  const { family, path: way, contactFromM: from, contactToM: to } = cast;
  const touches = from !== null && to !== null;
  if (family === 'surface') return m.pictures.onTop;
  if (family === 'bottom') {
    const [start, end] = touches ? [from, to] : [0, 0];
    return m.pictures.lies(rangeWords(bottomAt(cast, start), bottomAt(cast, end), 'depth', units, m));
  }
  if (way === undefined)
    return touches ? '' : m.pictures.runs(formatQuantity(cast.runningDepthM, 'depth', units));
  const deepestM = Math.max(...way.map(({ depthM }) => depthM));
  const level = way.filter(({ depthM }) => deepestM - depthM < SAME_DEPTH_M).map(({ alongM }) => alongM);
  const levelM = Math.max(...level) - Math.min(...level);
  const deepest = formatQuantity(deepestM, 'depth', units);
  return levelM >= RUNS_SHARE * cast.castLengthM ? m.pictures.runs(deepest) : m.pictures.atMost(deepest);
}

/** Section and plan view under each other, both to the one scale that the bar shows. */
export function castDrawing(cast: PageCast, units: UnitSystem, words: Words): Drawn | null {
  const side = castFromTheSide(cast, units, words.page);
  if (side === null) return null;
  const above = castFromAbove(cast, units, words);
  const top = side.height + 6;
  return {
    svg: drawing(top + ABOVE, [...side.marks, `<g transform="translate(0 ${top})">${above.join('')}</g>`]),
    alt: `${side.alt} ${words.front.planView.alt(formatQuantity(cast.castAngleDeg, 'castAngle', units))}`,
  };
}

/** Height of the view from above. */
const ABOVE = 190;

/** Lengths that the scale bar may show, m: round numbers of the reader's unit. */
const BARS_M = { metric: [5, 2, 1], us: [20 * 0.3048, 10 * 0.3048, 5 * 0.3048] } as const;
/** The bar stands beside a caption: it has this share of the cast's length. */
const BAR_SHARE = 0.35;

const barM = (castM: number, units: UnitSystem): number => {
  const [long, middle, short] = BARS_M[units];
  return [long, middle].find((m) => m <= castM * BAR_SHARE) ?? short;
};

/** Strokes end out of sight: beyond the window by more than their width. */
const MARGIN = 10;

/**
 * The bank and the ground behind it, cut to the window: what reaches far beyond it is drawn there too, which took the
 * drawing library many times the rest of the picture.
 */
function cutByBank(
  foot: Point,
  ashore: Point,
): { readonly ground: readonly Point[]; readonly bank: readonly Point[] } {
  const [left, top, right, bottom] = [-MARGIN, -MARGIN, WIDTH + MARGIN, ABOVE - 44 + MARGIN];
  const corners: readonly Point[] = [
    [left, top],
    [right, top],
    [right, bottom],
    [left, bottom],
  ];
  const inland = ([x, y]: Point): number => (x - foot[0]) * ashore[0] + (y - foot[1]) * ashore[1];
  const ground: Point[] = [];
  const bank: Point[] = [];
  corners.forEach((corner, i) => {
    const next = item(corners, (i + 1) % corners.length);
    const [here, there] = [inland(corner), inland(next)];
    if (here >= 0) ground.push(corner);
    if (here >= 0 === there >= 0) return;
    const share = here / (here - there);
    const crossing: Point = [
      corner[0] + share * (next[0] - corner[0]),
      corner[1] + share * (next[1] - corner[1]),
    ];
    ground.push(crossing);
    bank.push(crossing);
  });
  return { ground, bank };
}

/**
 * Seen from above, with the cast lying as in the section: the bank runs at the cast's angle past the landing point, at
 * the distance at which a plane bank is as deep as the water the lure lands in.
 */
function castFromAbove(cast: PageCast, units: UnitSystem, words: Words): string[] {
  const w = words.front.planView;
  const x = scale(0, cast.castLengthM, SIDE, WIDTH - SIDE - 20);
  const perMetre = x(1) - x(0);
  const line = ABOVE - 62;
  const turn = (cast.castAngleDeg * Math.PI) / 180;
  const slope = Math.tan((Math.max(cast.bankDeg, 0.5) * Math.PI) / 180);
  const offM = cast.castDepthM / slope;
  // The way from the water to the bank.
  const ashore: Point = [-Math.sin(turn), -Math.cos(turn)];
  const foot: Point = [x(0) + ashore[0] * offM * perMetre, line + ashore[1] * offM * perMetre];
  const land = cutByBank(foot, ashore);
  const barLengthM = barM(cast.castLengthM, units);
  const bar = barLengthM * perMetre;
  const angle = formatQuantity(cast.castAngleDeg, 'castAngle', units);
  return [
    `<svg x="0" y="0" width="${WIDTH}" height="${ABOVE - 44}" viewBox="0 0 ${WIDTH} ${ABOVE - 44}">` +
      rectangle(0, 0, WIDTH, ABOVE - 44, '#DCE9F1') +
      area(land.ground, '#E9E5DC') +
      path(land.bank, { colour: COLOUR.ink, width: 2.5 }) +
      path(
        [
          [x(cast.castLengthM), line],
          [x(0), line],
        ],
        { colour: COLOUR.vermillion, width: 3 },
      ) +
      dot([x(0), line], 5, COLOUR.vermillion, COLOUR.vermillion) +
      boat(x(cast.castLengthM), line + 4) +
      '</svg>',
    label(x(cast.castLengthM / 2), line + 24 > ABOVE - 48 ? line - 10 : line + 26, angle, {
      anchor: 'middle',
      size: 19,
      bold: true,
      halo: false,
    }),
    label(8, ABOVE - 16, w.cut, { size: 18, colour: COLOUR.slate, halo: false }),
    path(
      [
        [WIDTH - 12 - bar, ABOVE - 30],
        [WIDTH - 12, ABOVE - 30],
      ],
      { width: 4 },
    ),
    label(WIDTH - 12, ABOVE - 8, w.scale(formatQuantity(barLengthM, 'distance', units)), {
      anchor: 'end',
      size: 18,
      halo: false,
    }),
  ];
}

function castFromTheSide(
  cast: PageCast,
  units: UnitSystem,
  m: Messages,
): { readonly marks: readonly string[]; readonly height: number; readonly alt: string } | null {
  const length = cast.castLengthM;
  // A lure worked under the boat has no cast to draw.
  if (length < 3) return null;
  const x = scale(0, length, SIDE, WIDTH - SIDE - 20);
  const perMetre = x(1) - x(0);
  const y = (depth: number): number => TOP + depth * perMetre;
  const at = ([metres, depth]: Point): Point => [x(metres), y(depth)];
  const deepest = Math.max(cast.boatDepthM, cast.castDepthM);
  const height = y(deepest) + 74;
  const slope = (cast.boatDepthM - cast.castDepthM) / length;
  const beyond = (metres: number): Point => [metres, Math.max(0, cast.castDepthM + slope * metres)];
  const [left, right] = [-(SIDE / perMetre), length + (SIDE + 20) / perMetre];
  const bottom = [
    beyond(left),
    ...(slope > 0 && -cast.castDepthM / slope > left ? [beyond(-cast.castDepthM / slope)] : []),
    beyond(right),
  ].map(at);
  const marks = [
    area([[x(left), y(0)], [x(right), y(0)], ...[...bottom].reverse()], '#DCE9F1'),
    area([...bottom, [x(right), height], [x(left), height]], '#E9E5DC'),
    path(
      [
        [x(left), y(0)],
        [x(right), y(0)],
      ],
      { colour: COLOUR.blue, width: 2 },
    ),
    path(bottom, { colour: COLOUR.ink, width: 2.5 }),
    path([[x(length), y(0) - 22], at([0, 0])], { colour: COLOUR.slate, width: 1, dash: '2 3' }),
    wayOf(cast, at),
    contactMark(cast, at, units, m),
    boat(x(length), y(0)),
    dot(at([0, 0]), 4, COLOUR.vermillion, COLOUR.vermillion),
    ...numbers(cast, x, y, height, units, m),
  ];
  return { marks, height, alt: altText(cast, units, m) };
}

function numbers(
  cast: PageCast,
  x: (metres: number) => number,
  y: (depth: number) => number,
  height: number,
  units: UnitSystem,
  m: Messages,
): string[] {
  const q = (value: number, kind: QuantityKind): string => formatQuantity(value, kind, units);
  const length = cast.castLengthM;
  const deep = depthWords(cast, units, m);
  return [
    label(x(0) - 40, y(0) - 14, m.pictures.lands(q(cast.castDepthM, 'landing')), { size: 19 }),
    label(WIDTH - 8, y(0) - 40, m.pictures.boat(q(cast.boatDepthM, 'depth')), { anchor: 'end', size: 19 }),
    label(
      x(length / 2),
      20,
      m.pictures.castLength(q(length, 'distance'), q(cast.castAngleDeg, 'castAngle')),
      {
        anchor: 'middle',
        size: 19,
        colour: COLOUR.slate,
      },
    ),
    ...(deep === ''
      ? []
      : [
          label(WIDTH - 8, height - 12, deep, {
            anchor: 'end',
            size: 19,
            bold: true,
            colour: COLOUR.vermillion,
            halo: false,
          }),
        ]),
    label(12, height - 12, m.pictures.bank(q(cast.bankDeg, 'angle')), {
      size: 19,
      colour: COLOUR.slate,
      halo: false,
    }),
  ];
}

/** Half the width of the words at a stretch on the bottom, px. */
const HALF_WORDS_PX = 140;

function contactMark(cast: PageCast, at: (point: Point) => Point, units: UnitSystem, m: Messages): string {
  const { contactFromM: from, contactToM: to } = cast;
  if (from === null || to === null) return '';
  const [start, end] = [at([from, bottomAt(cast, from)]), at([to, bottomAt(cast, to)])];
  const x = Math.max((start[0] + end[0]) / 2, 175);
  // Under the ground at its own end, or a short stretch on a steep bank would have its words across the bottom line.
  const downPerPx = (end[1] - start[1]) / Math.max(end[0] - start[0], 1);
  const y = Math.max(start[1], end[1], start[1] + downPerPx * (x + HALF_WORDS_PX - start[0]));
  const words = m.pictures.touches(rangeWords(from, to, 'distance', units, m));
  return (
    path([start, end], { colour: COLOUR.vermillion, width: 7 }) +
    label(x, y + 30, words, {
      anchor: 'middle',
      size: 19,
      bold: true,
      colour: COLOUR.vermillion,
      halo: false,
    })
  );
}

/** Hull only: about 5 m long would hide the water on a short cast, so it is a mark, not to scale. */
const boat = (x: number, y: number): string =>
  area(
    [
      [x - 20, y - 12],
      [x + 30, y - 12],
      [x + 24, y + 3],
      [x - 10, y + 3],
    ],
    COLOUR.ink,
  );

function altText(cast: PageCast, units: UnitSystem, m: Messages): string {
  const q = (value: number, kind: QuantityKind): string => formatQuantity(value, kind, units);
  const { contactFromM: from, contactToM: to } = cast;
  const touches = from !== null && to !== null;
  return m.pictures.castAlt(
    q(cast.boatDepthM, 'depth'),
    q(cast.castLengthM, 'distance'),
    q(cast.castDepthM, 'landing'),
    depthWords(cast, units, m),
    q(cast.bankDeg, 'angle'),
    touches
      ? m.pictures.contactAlt(rangeWords(from, to, 'distance', units, m))
      : cast.family === 'bottom'
        ? ''
        : m.pictures.noContactAlt,
  );
}
