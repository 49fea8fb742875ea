/** Small tools for drawing by hand: marks, labels and scales in a 600-unit wide frame. */
import { escapeHtml, unescapeHtml } from '../escape.ts';
import { COLOUR } from '../style.ts';
import { widthOf } from './letters.ts';

export const WIDTH = 600;

/** Ground under everything that has not happened yet. */
export const FORECAST_GROUND = '#F2F4F5';

export type Point = readonly [x: number, y: number];

/** Two decimals are below what a pixel shows and keep the bytes the same on every machine. */
const n = (value: number): string => String(Math.round(value * 100) / 100);

interface LabelOptions {
  readonly size?: number;
  readonly anchor?: 'start' | 'middle' | 'end';
  readonly colour?: string;
  readonly bold?: boolean;
  /** White outline; leave out on a coloured ground. */
  readonly halo?: boolean;
}

/** Words on a white halo, so that a line behind them does not cross them out. */
export function label(x: number, y: number, words: string, options: LabelOptions = {}): string {
  const { size = 20, anchor = 'start', colour = COLOUR.ink, bold = false, halo = true } = options;
  return (
    `<text x="${n(x)}" y="${n(y)}" font-family="Inter" font-size="${size}" font-weight="${bold ? 700 : 400}" ` +
    `text-anchor="${anchor}" fill="${colour}"` +
    (halo ? ` stroke="${COLOUR.white}" stroke-width="4" stroke-linejoin="round" paint-order="stroke"` : '') +
    `>${escapeHtml(words)}</text>`
  );
}

const LABEL = /<text ([^<>]*)>([^<>]*)</g;
const SIZE = /font-size="([\d.]+)"/;
const WEIGHT = /font-weight="(\d+)"/;

/**
 * The drawing with every label as wide as the pictures' font sets it, whatever font a browser takes: labels stay where
 * they were laid out, and none runs into another or out of the frame.
 */
export const inWidthsLaidOut = (svg: string): string =>
  svg.replace(LABEL, (mark, attributes: string, words: string) => {
    const [size, weight] = [SIZE, WEIGHT].map((pattern) => Number(pattern.exec(attributes)?.[1]));
    const width = size && weight ? widthOf(unescapeHtml(words), size, weight >= 700) : null;
    return width === null || width === 0
      ? mark
      : `<text ${attributes} textLength="${n(width)}" lengthAdjust="spacingAndGlyphs">${words}<`;
  });

interface StrokeOptions {
  readonly colour?: string;
  readonly width?: number;
  readonly dash?: string;
  readonly opacity?: number;
}

export function path(points: readonly Point[], options: StrokeOptions = {}): string {
  if (points.length < 2) return '';
  const { colour = COLOUR.ink, width = 2, dash, opacity = 1 } = options;
  const d = points.map(([x, y], i) => `${i === 0 ? 'M' : 'L'}${n(x)} ${n(y)}`).join('');
  return (
    `<path d="${d}" fill="none" stroke="${colour}" stroke-width="${width}" stroke-linejoin="round"` +
    `${dash === undefined ? '' : ` stroke-dasharray="${dash}"`}${opacity === 1 ? '' : ` stroke-opacity="${opacity}"`}/>`
  );
}

export function area(points: readonly Point[], colour: string, opacity = 1): string {
  if (points.length < 3) return '';
  const d = points.map(([x, y], i) => `${i === 0 ? 'M' : 'L'}${n(x)} ${n(y)}`).join('');
  return `<path d="${d}Z" fill="${colour}" fill-opacity="${opacity}"/>`;
}

export const rectangle = (x: number, y: number, width: number, height: number, colour: string): string =>
  `<rect x="${n(x)}" y="${n(y)}" width="${n(width)}" height="${n(height)}" fill="${colour}"/>`;

/** Ground of hours that are closed: lines askew, so that it is told without colour. */
export function hatched(x: number, y: number, width: number, height: number): string {
  const lines: string[] = [];
  for (let at = -height; at < width; at += 12) {
    const [from, to] = [Math.max(at, 0), Math.min(at + height, width)];
    lines.push(`M${n(x + from)} ${n(y + height - (from - at))}L${n(x + to)} ${n(y + height - (to - at))}`);
  }
  return (
    `<path d="${lines.join('')}" stroke="${COLOUR.vermillion}" stroke-width="1.2" stroke-opacity="0.55" fill="none"/>` +
    `<rect x="${n(x)}" y="${n(y)}" width="${n(width)}" height="${n(height)}" fill="none" stroke="${COLOUR.vermillion}" stroke-width="1.2"/>`
  );
}

export const dot = ([x, y]: Point, radius: number, fill: string, stroke: string = COLOUR.ink): string =>
  `<circle cx="${n(x)}" cy="${n(y)}" r="${radius}" fill="${fill}" stroke="${stroke}" stroke-width="2"/>`;

/** Linear scale from a domain to pixels; a domain without width maps to the middle. */
export const scale =
  (from: number, to: number, start: number, end: number) =>
  (value: number): number =>
    to === from ? (start + end) / 2 : start + ((value - from) / (to - from)) * (end - start);

/** Whole drawing on solid white: mail programs that invert colours must not leave ink on black. */
export const drawing = (height: number, marks: readonly string[]): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDTH} ${n(height)}" width="${WIDTH}" height="${n(height)}">` +
  `<rect width="100%" height="100%" fill="${COLOUR.white}"/>${marks.join('')}</svg>`;
