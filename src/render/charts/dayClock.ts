/** The day on one clock: light, wind, rain, air, the pocket against the lake, closed hours, and the plan as bars. */
import { DateTime } from 'luxon';
import { clock, type BriefingPage, type Words } from '../../words/index.ts';
import { formatQuantity, type QuantityKind, type UnitSystem } from '../../units/index.ts';
import { HOUR_MS } from '../../units/time/index.ts';
import { inClock, type ClockStyle } from '../clock.ts';
import { COLOUR } from '../style.ts';
import { fromWhere, known, most, type Hour } from './hours.ts';
import { area, dot, drawing, hatched, label, path, rectangle, scale, WIDTH, type Point } from './svg.ts';
import type { Drawn } from './tenDays.ts';
import { weatherWords } from './weatherWords.ts';

const LEFT = 86;
const RIGHT = WIDTH - 12;
const SIZE = 20;
const LINE = 26;
/** Height of a block's bar. */
const BAR = 22;
/** Width of a letter of the font, of its size (measured on the widest usual words). */
const LETTER = 0.58;

export interface ClockView {
  readonly units: UnitSystem;
  readonly clock: ClockStyle;
  /** Now, epoch ms: every hour gets a ground of its own, of which that of the present one shows. A picture has none. */
  readonly nowMs?: number;
}

interface Frame {
  readonly hours: readonly Hour[];
  readonly x: (ms: number) => number;
  readonly q: (value: number, kind: QuantityKind, signed?: boolean) => string;
  readonly time: (ms: number) => string;
  readonly w: Words['front'];
  readonly m: Words['page'];
  readonly units: UnitSystem;
}

/** One lane: its marks drawn from a top, and how high it is. */
interface Lane {
  /** One line, or a second below it. */
  readonly title: string;
  readonly height: number;
  readonly draw: (top: number) => string;
}

/** First light to dusk and what of the plan lies outside, in whole hours; null where nothing of the day is known. */
function spanOf(doc: BriefingPage): readonly [number, number] | null {
  const { sun, hours } = doc.series;
  const first = [sun.dawnMs ?? sun.riseMs, doc.plan?.fishing?.fromMs].filter((ms) => ms != null);
  const last = [sun.duskMs ?? sun.setMs, doc.plan?.fishing?.toMs].filter((ms) => ms != null);
  const from = first.length > 0 ? Math.min(...first) : hours[0]?.atMs;
  const to = last.length > 0 ? Math.max(...last) : hours.at(-1)?.atMs;
  if (from === undefined || to === undefined || to <= from) return null;
  return [Math.floor(from / HOUR_MS) * HOUR_MS, Math.ceil(to / HOUR_MS) * HOUR_MS];
}

export function dayClock(doc: BriefingPage, view: ClockView, words: Words): Drawn | null {
  const span = spanOf(doc);
  if (span === null || doc.status === 'nil') return null;
  const [from, to] = span;
  const hours = doc.series.hours.filter(({ atMs }) => atMs >= from && atMs <= to);
  if (hours.length < 4) return null;
  const frame: Frame = {
    hours,
    x: scale(from, to, LEFT, RIGHT),
    q: (value, kind, signed = false) => formatQuantity(value, kind, view.units, signed),
    time: (ms) => inClock(clock(ms, doc.lake.zone), view.clock, words.page),
    w: words.front,
    m: words.page,
    units: view.units,
  };
  const lanes = [
    lightLane(doc, frame),
    windLane(frame),
    rainLane(frame),
    lineLane(frame, words.front.lanes.air, 'airC', 'temperature', COLOUR.vermillion),
    // Marked at the hour that the words beside it name.
    lineLane(
      frame,
      words.front.lanes.pocket,
      'pocketMinusMainC',
      'temperatureDifference',
      COLOUR.blue,
      doc.pockets[0]?.warmest?.atMs,
    ),
    releaseLane(frame),
    planLane(doc, frame),
  ].filter((lane) => lane !== null);
  let top = 6;
  // The plan is the last lane.
  let barsTop = top;
  const drawn: string[] = [];
  for (const lane of lanes) {
    drawn.push(
      ...lane.title
        .split('\n')
        .map((line, i) =>
          label(0, top + 22 + i * LINE, line, { bold: i === 0, size: SIZE, colour: COLOUR.slate }),
        ),
      lane.draw(top),
      path(
        [
          [0, top + lane.height],
          [WIDTH, top + lane.height],
        ],
        { colour: COLOUR.hairline, width: 1 },
      ),
    );
    barsTop = top + 4;
    top += lane.height + 8;
  }
  const closed = (doc.plan?.closed ?? []).flatMap(({ fromMs, toMs }) => {
    const [a, b] = [frame.x(Math.max(fromMs, from)), frame.x(Math.min(toMs, to))];
    // A tint behind every lane, hatched only beside the blocks: no line runs through a label.
    return b > a
      ? [
          `<g opacity="0.12">${rectangle(a, 0, b - a, top - 8, COLOUR.vermillion)}</g>`,
          hatched(a, barsTop, b - a, BAR),
        ]
      : [];
  });
  const ticks = hourTicks(doc.lake.zone, from, to).map((ms) =>
    label(frame.x(ms), top + 16, shortHour(frame.time(ms)), {
      anchor: frame.x(ms) > RIGHT - 24 ? 'end' : frame.x(ms) < LEFT + 14 ? 'start' : 'middle',
      size: SIZE,
      colour: COLOUR.slate,
    }),
  );
  return {
    svg: drawing(top + 26, [
      ...(view.nowMs === undefined ? [] : hourGrounds(frame, to, view.nowMs, top - 8)),
      ...closed,
      ...drawn,
      ...ticks,
    ]),
    alt: altText(doc, frame),
    said: weatherLines(doc, frame).join(' '),
  };
}

/** Whether it is this hour. */
export const isNow = (hourMs: number, nowMs: number): boolean => nowMs >= hourMs && nowMs < hourMs + HOUR_MS;

/** Ground of each hour with a bar at its head, so that it is told without colour; hidden are all but the present one. */
const hourGrounds = ({ hours, x }: Frame, to: number, nowMs: number, height: number): string[] =>
  hours
    .filter(({ atMs }) => atMs < to)
    .map(({ atMs }) => {
      const [left, width] = [x(atMs), x(atMs + HOUR_MS) - x(atMs)];
      return (
        `<g data-hour="${atMs}"${isNow(atMs, nowMs) ? '' : ' hidden=""'}>` +
        `${rectangle(left, 0, width, height, COLOUR.fill)}${rectangle(left, 0, width, 5, COLOUR.ink)}` +
        `${rectangle(left, height - 3, width, 6, COLOUR.ink)}</g>`
      );
    });

/** The hours that the strip shows, each in a line: wind, air, rain, and what the plan has. */
export function hourLines(
  doc: BriefingPage,
  { units, clock: style }: ClockView,
  words: Words,
): readonly { readonly atMs: number; readonly words: string }[] {
  const [from, to] = spanOf(doc) ?? [0, 0];
  const { now } = words.archive.front;
  const { lanes } = words.front;
  const lasts = (atMs: number) => (of: { readonly fromMs: number; readonly toMs: number }) =>
    of.fromMs < atMs + HOUR_MS && of.toMs > atMs;
  return doc.series.hours
    .filter(({ atMs }) => atMs >= from && atMs < to)
    .map(({ atMs, windMs, gustMs, windDirDeg, airC, rainMm }) => {
      const wind =
        windMs === undefined
          ? []
          : [
              now.wind(
                `${fromWhere(windDirDeg, words.front)} ${formatQuantity(windMs, 'windSpeed', units)}`.trim(),
              ),
              ...(gustMs === undefined ? [] : [lanes.gusts(formatQuantity(gustMs, 'windSpeed', units))]),
            ];
      const said = [
        ...wind,
        ...(airC === undefined ? [] : [now.air(formatQuantity(airC, 'temperature', units))]),
        ...(rainMm === undefined || rainMm < 0.1 ? [] : [now.rain(formatQuantity(rainMm, 'rain', units))]),
        ...(doc.plan?.blocks ?? []).filter(lasts(atMs)).map(({ title }) => title),
        ...(doc.plan?.closed ?? []).filter(lasts(atMs)).map(({ words: why }) => `${lanes.closed}: ${why}`),
      ];
      const time = inClock(clock(atMs, doc.lake.zone), style, words.page);
      return { atMs, words: said.length === 0 ? '' : now.line(time, [...new Set(said)].join('; ')) };
    })
    .filter(({ words: line }) => line !== '');
}

/** `06:00` -> `6`, `6 pm` stays. */
const shortHour = (time: string): string => time.replace(/^0?(\d+):00$/, '$1');

function hourTicks(zone: string, from: number, to: number): number[] {
  const ticks: number[] = [];
  for (let ms = from; ms <= to; ms += HOUR_MS)
    if (DateTime.fromMillis(ms, { zone }).hour % 3 === 0) ticks.push(ms);
  return ticks;
}

/** Words beside a place on the axis, kept inside the frame. */
function at(x: number, y: number, words: string, colour: string = COLOUR.ink, bold = false): string {
  const width = words.length * SIZE * LETTER;
  const left = Math.min(Math.max(LEFT, x - width / 2), RIGHT - width);
  return label(left, y, words, { size: SIZE, colour, bold, halo: false });
}

function lightLane(doc: BriefingPage, { hours, x, time, w }: Frame): Lane | null {
  const { sun } = doc.series;
  const [up, down] = [sun.dawnMs ?? sun.riseMs, sun.duskMs ?? sun.setMs];
  if (up == null || down == null) return null;
  const high = Math.max(1, ...hours.map(({ sunAltitudeDeg }) => sunAltitudeDeg));
  return {
    title: w.lanes.light,
    height: 34 + LINE,
    draw: (top) => {
      const y = scale(0, high, top + 32, top + 4);
      const arc = hours
        .filter(({ sunAltitudeDeg }) => sunAltitudeDeg > 0)
        .map(({ atMs, sunAltitudeDeg }): Point => [x(atMs), y(sunAltitudeDeg)]);
      const ends: Point[] = [[x(up), top + 32], ...arc, [x(down), top + 32]];
      const [left, right] = [time(up), time(down)];
      return (
        area(ends, COLOUR.slate, 0.14) +
        path(ends, { colour: COLOUR.slate, width: 1.5 }) +
        label(Math.max(LEFT, x(up)), top + 34 + LINE - 8, left, { size: SIZE, halo: false }) +
        label(Math.min(RIGHT, x(down)), top + 34 + LINE - 8, right, {
          size: SIZE,
          anchor: 'end',
          halo: false,
        })
      );
    },
  };
}

/** Arrows fly with the wind, longer in stronger wind; calm is a dot. */
function arrow(cx: number, cy: number, fromDeg: number, length: number): string {
  const angle = ((fromDeg + 180) * Math.PI) / 180;
  const [dx, dy] = [Math.sin(angle), -Math.cos(angle)];
  const tip: Point = [cx + (dx * length) / 2, cy + (dy * length) / 2];
  const tail: Point = [cx - (dx * length) / 2, cy - (dy * length) / 2];
  const side = (turn: number): Point => [
    tip[0] - 8 * Math.sin(angle + turn),
    tip[1] + 8 * Math.cos(angle + turn),
  ];
  return path([tail, tip], { width: 2.2 }) + path([side(0.5), tip, side(-0.5)], { width: 2.2 });
}

function windLane({ hours, x, q, w }: Frame): Lane | null {
  const wind = known(hours, 'windMs');
  const top = most(wind);
  if (top === undefined || wind.length < 3) return null;
  const gust = most(known(hours, 'gustMs'));
  const strongest = hours.find(({ atMs }) => atMs === top.atMs);
  const first = hours.find(({ windMs }) => windMs !== undefined);
  const gustWords = gust === undefined ? '' : `, ${w.lanes.gusts(q(gust.value, 'windSpeed'))}`;
  const peak = `${fromWhere(strongest?.windDirDeg, w)} ${q(top.value, 'windSpeed')}${gustWords}`.trim();
  const start = `${fromWhere(first?.windDirDeg, w)} ${q(first?.windMs ?? 0, 'windSpeed')}`.trim();
  return {
    title: w.lanes.wind,
    height: 38 + LINE,
    draw: (y) => {
      const shown = hours.filter((_, i) => i % 2 === 0);
      const arrows = shown.map(({ atMs, windMs, windDirDeg }) => {
        if (windMs === undefined) return '';
        const cx = Math.min(Math.max(x(atMs), LEFT + 12), RIGHT - 12);
        if (windDirDeg === undefined || windMs < 0.8) return dot([cx, y + 20], 2.5, COLOUR.ink);
        return arrow(cx, y + 20, windDirDeg, Math.min(34, 12 + 2.4 * windMs));
      });
      const peakWidth = peak.length * SIZE * LETTER;
      const peakLeft = Math.min(Math.max(LEFT, x(top.atMs) - peakWidth / 2), RIGHT - peakWidth);
      const roomLeft = peakLeft > LEFT + start.length * SIZE * LETTER + 16;
      return (
        arrows.join('') +
        at(x(top.atMs), y + 38 + LINE - 8, peak, COLOUR.ink, true) +
        (roomLeft ? label(LEFT, y + 38 + LINE - 8, start, { size: SIZE, halo: false }) : '')
      );
    },
  };
}

function rainLane({ hours, x, q, time, w }: Frame): Lane | null {
  const rain = known(hours, 'rainMm');
  if (rain.length < 3) return null;
  const sum = rain.reduce((total, { value }) => total + value, 0);
  if (sum < 0.2)
    return {
      title: w.lanes.rain,
      height: LINE + 4,
      draw: (top) => label(LEFT, top + 22, w.lanes.dry, { size: SIZE, colour: COLOUR.slate, halo: false }),
    };
  const worst = most(rain);
  const first = rain.find(({ value }) => value >= 0.1);
  return {
    title: w.lanes.rain,
    height: 36 + LINE,
    draw: (top) => {
      const y = scale(0, worst?.value ?? 1, 0, 32);
      const width = Math.max(4, (x(HOUR_MS) - x(0)) * 0.7);
      const bars = rain
        .filter(({ value }) => value > 0)
        .map(({ atMs, value }) =>
          rectangle(
            Math.min(x(atMs), RIGHT - width),
            top + 34 - Math.max(2, y(value)),
            width,
            Math.max(2, y(value)),
            COLOUR.blue,
          ),
        );
      const words = `${q(sum, 'rain')}${first === undefined ? '' : `, ${time(first.atMs)}`}`;
      return bars.join('') + at(x(worst?.atMs ?? 0), top + 36 + LINE - 8, words, COLOUR.blue, true);
    },
  };
}

/** A quantity as a line, its least and greatest value written below it. */
function lineLane(
  { hours, x, q, time }: Frame,
  title: string,
  field: 'airC' | 'pocketMinusMainC',
  kind: QuantityKind,
  colour: string,
  markedMs?: number,
): Lane | null {
  const points = known(hours, field);
  const top = points.find(({ atMs }) => atMs === markedMs) ?? most(points);
  if (top === undefined || points.length < 3) return null;
  const signed = kind === 'temperatureDifference';
  const values = points.map(({ value }) => value);
  const greatest = Math.max(...values);
  const least = Math.min(...values, signed ? 0 : Infinity);
  const first = points[0];
  return {
    title,
    height: 42 + LINE,
    draw: (y) => {
      const height = scale(least, Math.max(greatest, least + 1), y + 38, y + 6);
      const zero = signed
        ? path(
            [
              [LEFT, height(0)],
              [RIGHT, height(0)],
            ],
            { colour: COLOUR.hairline, width: 1.5, dash: '3 4' },
          )
        : '';
      const peak = `${q(top.value, kind, signed)}, ${time(top.atMs)}`;
      const start = first === undefined ? '' : q(first.value, kind, signed);
      const peakLeft = Math.min(
        Math.max(LEFT, x(top.atMs) - (peak.length * SIZE * LETTER) / 2),
        RIGHT - peak.length * SIZE * LETTER,
      );
      return (
        zero +
        path(
          points.map(({ atMs, value }): Point => [x(atMs), height(value)]),
          { colour, width: 3 },
        ) +
        dot([x(top.atMs), height(top.value)], 4, colour, colour) +
        at(x(top.atMs), y + 42 + LINE - 8, peak, colour, true) +
        (peakLeft > LEFT + start.length * SIZE * LETTER + 16
          ? label(LEFT, y + 42 + LINE - 8, start, { size: SIZE, colour, halo: false })
          : '')
      );
    },
  };
}

interface Run {
  readonly fromMs: number;
  readonly toMs: number;
  readonly by: 'gauge' | 'operator' | 'weekday';
}

/** Stretches of hours in which water runs through the dam, each known in one way. */
function runs(hours: readonly Hour[]): Run[] {
  const found: Run[] = [];
  for (const { atMs, generationOn, generationBy: by } of hours) {
    if (by === undefined || (generationOn ?? 0) < 0.5) continue;
    const last = found.at(-1);
    if (last !== undefined && last.toMs === atMs && last.by === by)
      found[found.length - 1] = { ...last, toMs: atMs + HOUR_MS };
    else found.push({ fromMs: atMs, toMs: atMs + HOUR_MS, by });
  }
  return found;
}

const runWords = ({ fromMs, toMs, by }: Run, { time, w }: Frame): string =>
  `${w.span(time(fromMs), time(toMs))} (${w.releaseBy[by]})`;

/** Hours of release; what is only usual on such a weekday is drawn pale. */
function releaseLane(frame: Frame): Lane | null {
  const { hours, x, w } = frame;
  const all = runs(hours);
  if (all.length === 0) return null;
  return {
    title: w.lanes.release,
    height: 14 + LINE,
    draw: (top) => {
      const bars = all.map(({ fromMs, toMs, by }) => {
        const bar = rectangle(x(fromMs), top + 4, Math.min(RIGHT, x(toMs)) - x(fromMs), 12, COLOUR.blue);
        return by === 'weekday' ? `<g opacity="0.45">${bar}</g>` : bar;
      });
      const longest = all.reduce((best, run) =>
        run.toMs - run.fromMs > best.toMs - best.fromMs ? run : best,
      );
      return (
        bars.join('') + at(x(longest.fromMs), top + 14 + LINE - 4, runWords(longest, frame), COLOUR.blue)
      );
    },
  };
}

/** Bars of the blocks; every name on a line of its own, under the start of its bar. */
function planLane(doc: BriefingPage, { x, time, w }: Frame): Lane | null {
  const { plan } = doc;
  if (plan == null || (plan.blocks.length === 0 && plan.closed.length === 0)) return null;
  const rows = [
    ...plan.blocks.map((block, i) => ({
      fromMs: block.fromMs,
      words: `${time(block.fromMs)} ${block.title}`,
      colour: i % 2 === 0 ? COLOUR.blue : COLOUR.ink,
    })),
    ...plan.closed.map((closed) => ({
      fromMs: closed.fromMs,
      words: `${time(closed.fromMs)} ${w.lanes.closed}: ${closed.words}`,
      colour: COLOUR.vermillion,
    })),
  ].sort((a, b) => a.fromMs - b.fromMs);
  return {
    title: w.lanes.plan,
    height: 30 + rows.length * LINE,
    draw: (top) =>
      plan.blocks
        .map(({ fromMs, toMs }, i) =>
          rectangle(x(fromMs), top + 4, x(toMs) - x(fromMs) - 2, BAR, i % 2 === 0 ? COLOUR.blue : COLOUR.ink),
        )
        .join('') +
      rows
        .map(({ fromMs, words, colour }, i) => {
          const width = words.length * SIZE * LETTER;
          const left = Math.max(LEFT, Math.min(x(fromMs), RIGHT - width));
          return label(left, top + 30 + (i + 1) * LINE - 8, fitted(words), {
            size: SIZE,
            colour,
            bold: true,
            halo: false,
          });
        })
        .join(''),
  };
}

/** A name too long for the frame ends in dots; it stands in full in the words beside the picture. */
function fitted(words: string): string {
  const longest = Math.floor((RIGHT - LEFT) / (SIZE * LETTER));
  return words.length <= longest ? words : `${words.slice(0, longest - 1)}…`;
}

function altText(doc: BriefingPage, frame: Frame): string {
  const { time, w } = frame;
  const parts: string[] = [];
  for (const { fromMs, toMs, placeWords, lure } of doc.plan?.blocks ?? [])
    parts.push(w.blockAlt(time(fromMs), time(toMs), placeWords, lure));
  for (const { fromMs, toMs, words } of doc.plan?.closed ?? [])
    parts.push(w.closedAlt(time(fromMs), time(toMs), words));
  return w.stripAlt([...parts, ...weatherLines(doc, frame)].join(' '));
}

/** Wind, rain and hours of release, a sentence each. */
function weatherLines(doc: BriefingPage, frame: Frame): string[] {
  const released = runs(frame.hours);
  return [
    ...weatherWords(frame.hours, doc.issuedMs, frame),
    ...(released.length === 0
      ? []
      : [frame.w.releaseAlt(released.map((run) => runWords(run, frame)).join('; '))]),
  ];
}
