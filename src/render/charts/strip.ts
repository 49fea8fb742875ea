/** One strip of a small multiple: a title, a line or bars, its extremes and the value that matters now. */
import type { QuantityKind, UnitSystem } from '../../units/index.ts';
import { formatQuantity } from '../../units/index.ts';
import { COLOUR } from '../style.ts';
import { area, dot, label, path, rectangle, scale, type Point } from './svg.ts';

export const STRIP_HEIGHT = 116;
export const PLOT_LEFT = 14;
export const PLOT_RIGHT = 480;

export interface StripPoint {
  readonly x: number;
  readonly value: number | undefined;
  readonly low?: number;
  readonly high?: number;
  /** Drawn lighter and dashed. */
  readonly forecast: boolean;
}

export interface Strip {
  readonly title: string;
  readonly quantity: QuantityKind;
  readonly signed?: boolean;
  readonly colour: string;
  readonly style: 'line' | 'bars' | 'area';
  readonly points: readonly StripPoint[];
  /** Index of the point whose value is printed on the line. */
  readonly marked: number;
  /** Further measured points, as rings. */
  readonly readings?: readonly { readonly x: number; readonly value: number }[];
  readonly readingWords?: (value: string) => string;
  /** Second line behind the first, e.g. gusts. */
  readonly behind?: readonly StripPoint[];
  /** Words for a value of the line behind, e.g. `gusts 20 mph`. */
  readonly behindWords?: (value: string) => string;
  /** No value labels: the strip shows a course, not a measure. */
  readonly bare?: boolean;
}

type Known = StripPoint & { readonly value: number };
const known = (points: readonly StripPoint[]): Known[] =>
  points.filter((point): point is Known => point.value !== undefined);

/** Marks of the strip whose top is at `top`; '' when fewer than two values are known. */
export function drawStrip(strip: Strip, top: number, units: UnitSystem): string {
  const points = known(strip.points);
  if (points.length < 2) return '';
  const behind = known(strip.behind ?? []);
  const bottom = top + STRIP_HEIGHT - 12;
  const all = [
    ...points.flatMap(({ value, low, high }) => [value, low ?? value, high ?? value]),
    ...behind.map(({ value }) => value),
    ...(strip.readings ?? []).map(({ value }) => value),
    ...(strip.style === 'line' ? [] : [0]),
  ];
  const [least, most] = [Math.min(...all), Math.max(...all)];
  const roomAbove = (room: number): ((value: number) => number) =>
    scale(least, most === least ? least + 1 : most, bottom, top + room);
  const y = roomAbove(underTitle(strip, behind, (value) => roomAbove(ROOM)(value) - top) ? ROOM_LOW : ROOM);
  const at = ({ x, value }: { x: number; value: number }): Point => [x, y(value)];
  return [
    path(
      [
        [PLOT_LEFT - 6, bottom],
        [PLOT_RIGHT + 6, bottom],
      ],
      { colour: COLOUR.hairline, width: 1 },
    ),
    strip.bare === true ? '' : extremes(strip, points, y, units),
    band(points, y, strip.colour),
    line(behind, at, strip.colour, 0.45),
    strip.style === 'bars' ? bars(points, y, bottom, strip.colour) : '',
    strip.style === 'area'
      ? area(
          [[points[0]?.x ?? 0, bottom], ...points.map(at), [points.at(-1)?.x ?? 0, bottom]],
          strip.colour,
          0.35,
        )
      : '',
    strip.style === 'line' ? line(points, at, strip.colour, 1) : '',
    ...(strip.readings ?? []).map((reading) => dot(at(reading), 5, COLOUR.white, COLOUR.ink)),
    label(PLOT_LEFT - 6, top + 20, strip.title, { bold: true, colour: strip.colour }),
    strip.bare === true ? '' : markedValue(strip, at, units),
    nameHighest(behind, at, strip, strip.behindWords, -8, units),
    nameHighest((strip.readings ?? []).slice(-1), at, strip, strip.readingWords, 24, units),
  ].join('');
}

/** Space above the highest value: for its label, and for its label under the title. */
const ROOM = 42;
const ROOM_LOW = 58;
/** Half the width of a value's label. */
const LABEL_HALF = 60;

/** Where the title ends; a letter of the bold face is at most about three fifths of its size (measured). */
const titleEnd = (title: string): number => PLOT_LEFT - 6 + title.length * 0.6 * 20;

/** Whether a value printed on a line would run into the title. */
function underTitle(strip: Strip, behind: readonly Known[], height: (value: number) => number): boolean {
  if (strip.bare === true) return false;
  const gust = [...behind].sort((a, b) => b.value - a.value)[0];
  return [strip.points[strip.marked], strip.behindWords === undefined ? undefined : gust].some(
    (point) =>
      point?.value !== undefined &&
      point.x < titleEnd(strip.title) + LABEL_HALF &&
      height(point.value) < ROOM_LOW,
  );
}

/** Names a line or a ring on the spot, so that no legend is needed. */
function nameHighest<P extends { readonly x: number; readonly value: number }>(
  points: readonly P[],
  at: (point: P) => Point,
  strip: Strip,
  words: ((value: string) => string) | undefined,
  offset: number,
  units: UnitSystem,
): string {
  const [first] = points;
  if (first === undefined || words === undefined) return '';
  const top = points.reduce((most, point) => (point.value > most.value ? point : most), first);
  const [x, y] = at(top);
  const anchor = x > PLOT_RIGHT - 70 ? 'end' : x < PLOT_LEFT + 70 ? 'start' : 'middle';
  const value = formatQuantity(top.value, strip.quantity, units, strip.signed ?? false);
  return label(x, y + offset, words(value), { anchor, size: 19, colour: COLOUR.slate });
}

function line(
  points: readonly Known[],
  at: (point: Known) => Point,
  colour: string,
  opacity: number,
): string {
  const past = points.filter(({ forecast }) => !forecast);
  const last = past.at(-1);
  const ahead = points.filter(({ forecast }) => forecast);
  const joined = last === undefined ? ahead : [last, ...ahead];
  return (
    path(past.map(at), { colour, width: 3, opacity }) +
    path(joined.map(at), { colour, width: 2.5, dash: '7 5', opacity: 0.7 * opacity })
  );
}

function band(points: readonly Known[], y: (value: number) => number, colour: string): string {
  const ranged = points.filter(({ low, high }) => low !== undefined && high !== undefined);
  const upper = ranged.map(({ x, high }): Point => [x, y(high ?? 0)]);
  const lower = ranged.map(({ x, low }): Point => [x, y(low ?? 0)]).reverse();
  return area([...upper, ...lower], colour, 0.16);
}

function bars(
  points: readonly Known[],
  y: (value: number) => number,
  bottom: number,
  colour: string,
): string {
  const gap = (points[1]?.x ?? 0) - (points[0]?.x ?? 0);
  const width = Math.max(3, gap * 0.6);
  return points
    .filter(({ value }) => value > 0)
    .map(({ x, value, forecast }) => {
      const top = Math.min(y(value), bottom - 1);
      return forecast
        ? `<g opacity="0.5">${rectangle(x - width / 2, top, width, bottom - top, colour)}</g>`
        : rectangle(x - width / 2, top, width, bottom - top, colour);
    })
    .join('');
}

/** Greatest and least value in the right margin, each tied to its height by a dotted line. */
function extremes(
  strip: Strip,
  points: readonly Known[],
  y: (value: number) => number,
  units: UnitSystem,
): string {
  const values = points.map(({ value }) => value);
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const print = (value: number): string =>
    formatQuantity(value, strip.quantity, units, strip.signed ?? false);
  const wanted = strip.style === 'bars' || print(low) === print(high) ? [high] : [high, low];
  const apart =
    wanted.length === 2 && Math.abs(y(high) - y(low)) < 22 ? (22 - Math.abs(y(high) - y(low))) / 2 : 0;
  return wanted
    .map((value, i) => {
      const height = y(value);
      const shift = i === 0 ? -apart : apart;
      const dotted: readonly Point[] = [
        [PLOT_LEFT - 6, height],
        [PLOT_RIGHT + 6, height],
      ];
      return (
        path(dotted, { colour: COLOUR.slate, width: 1, dash: '1 4' }) +
        label(PLOT_RIGHT + 12, height + 6 + shift, print(value), { colour: COLOUR.slate, size: 19 })
      );
    })
    .join('');
}

function markedValue(strip: Strip, at: (point: Known) => Point, units: UnitSystem): string {
  const marked = strip.points[strip.marked];
  if (marked?.value === undefined) return '';
  const [x, y] = at({ ...marked, value: marked.value });
  const words = formatQuantity(marked.value, strip.quantity, units, strip.signed ?? false);
  const anchor = x > PLOT_RIGHT - 60 ? 'end' : x < PLOT_LEFT + 60 ? 'start' : 'middle';
  const point = strip.style === 'bars' ? '' : dot([x, y], 4, strip.colour, strip.colour);
  return point + label(x, y - 9, words, { bold: true, anchor, colour: strip.colour });
}
