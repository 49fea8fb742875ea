/** Picture 3: the day by local hours: light, wind with gusts, air, pocket minus main lake. */
import type { BriefingPage, Messages } from '../../words/index.ts';
import { clock } from '../../words/index.ts';
import { formatQuantity, type QuantityKind, type UnitSystem } from '../../units/index.ts';
import { COLOUR } from '../style.ts';
import { drawStrip, PLOT_LEFT, PLOT_RIGHT, STRIP_HEIGHT, type Strip } from './strip.ts';
import { drawing, FORECAST_GROUND, label, path, rectangle, scale } from './svg.ts';
import type { Drawn } from './tenDays.ts';

type Hour = BriefingPage['series']['hours'][number];
type Field = 'windMs' | 'gustMs' | 'airC' | 'pocketMinusMainC';

export function dayByHours(doc: BriefingPage, units: UnitSystem, m: Messages): Drawn | null {
  const { hours, sun } = doc.series;
  const [first, last] = [hours[0], hours.at(-1)];
  if (first === undefined || last === undefined || hours.length < 6) return null;
  const { zone } = doc.lake;
  const x = scale(first.atMs, last.atMs, PLOT_LEFT, PLOT_RIGHT);
  const points = (field: Field): Strip['points'] =>
    // One solid line: at issue nearly all of the day is still to come, so the ground is shaded instead.
    hours.map((hour) => ({ x: x(hour.atMs), value: hour[field], forecast: false }));
  const strongest = (field: Field): number => {
    const values = hours.map((hour) => hour[field] ?? -Infinity);
    return values.indexOf(Math.max(...values));
  };
  const light = hours.some(({ shortwaveWm2 }) => shortwaveWm2 !== undefined);
  const strips: readonly Strip[] = [
    {
      title: m.pictures.light,
      quantity: 'irradiance',
      colour: COLOUR.slate,
      style: 'area',
      bare: true,
      marked: -1,
      points: hours.map((hour) => ({
        x: x(hour.atMs),
        value: light ? hour.shortwaveWm2 : Math.max(0, hour.sunAltitudeDeg),
        forecast: false,
      })),
    },
    {
      title: m.pictures.wind,
      quantity: 'windSpeed',
      colour: COLOUR.ink,
      style: 'line',
      points: points('windMs'),
      behind: points('gustMs'),
      behindWords: m.pictures.gusts,
      marked: strongest('windMs'),
    },
    {
      title: m.pictures.airHours,
      quantity: 'temperature',
      colour: COLOUR.vermillion,
      style: 'line',
      points: points('airC'),
      marked: strongest('airC'),
    },
    {
      title: m.pictures.pocket,
      quantity: 'temperatureDifference',
      signed: true,
      colour: COLOUR.blue,
      style: 'line',
      points: points('pocketMinusMainC'),
      marked: strongest('pocketMinusMainC'),
    },
  ];
  const shown = strips.filter(({ points: all }) => all.filter(({ value }) => value !== undefined).length > 1);
  const bottom = shown.length * STRIP_HEIGHT;
  const sunMarks = [sun.riseMs, sun.setMs].flatMap((ms) =>
    ms === null || ms < first.atMs || ms > last.atMs ? [] : [sunLine(x(ms), clock(ms, zone), bottom)],
  );
  const ticks = hours
    .filter(({ atMs }) => Number(clock(atMs, zone).slice(0, 2)) % 3 === 0)
    .map(({ atMs }) =>
      label(x(atMs), bottom + 18, clock(atMs, zone).slice(0, 2), {
        anchor: 'middle',
        size: 19,
        colour: COLOUR.slate,
      }),
    );
  const issue = x(Math.min(Math.max(doc.issuedMs, first.atMs), last.atMs));
  return {
    svg: drawing(bottom + 34, [
      rectangle(issue, 0, PLOT_RIGHT + 6 - issue, bottom, FORECAST_GROUND),
      label(PLOT_RIGHT + 12, 18, m.kind.forecast, { size: 19, colour: COLOUR.slate }),
      ...sunMarks,
      ...shown.map((strip, i) => drawStrip(strip, i * STRIP_HEIGHT, units)),
      ...ticks,
    ]),
    alt: altText(doc, units, m),
  };
}

const sunLine = (x: number, words: string, bottom: number): string =>
  path(
    [
      [x, 24],
      [x, bottom - 12],
    ],
    { colour: COLOUR.slate, width: 1, dash: '2 4' },
  ) + label(x, 18, words, { anchor: 'middle', size: 19, colour: COLOUR.slate });

function altText(doc: BriefingPage, units: UnitSystem, m: Messages): string {
  const { hours, sun } = doc.series;
  const { zone } = doc.lake;
  const q = (value: number, kind: QuantityKind, signed = false): string =>
    formatQuantity(value, kind, units, signed);
  const sentences: string[] = [];
  if (sun.riseMs !== null && sun.setMs !== null) {
    sentences.push(m.pictures.lightAlt(clock(sun.riseMs, zone), clock(sun.setMs, zone)));
  }
  const wind = span(hours, 'windMs');
  if (wind !== null) {
    sentences.push(
      m.pictures.windAlt(q(wind.low, 'windSpeed'), q(wind.high, 'windSpeed'), clock(wind.atMs, zone)),
    );
  }
  const air = span(hours, 'airC');
  if (air !== null)
    sentences.push(m.pictures.airHoursAlt(q(air.low, 'temperature'), q(air.high, 'temperature')));
  const pocket = span(hours, 'pocketMinusMainC');
  if (pocket !== null) {
    sentences.push(
      m.pictures.pocketAlt(q(pocket.high, 'temperatureDifference', true), clock(pocket.atMs, zone)),
    );
  }
  return m.pictures.hoursAlt(sentences.join(' '));
}

/** Least and greatest value of the day and when the greatest comes. */
function span(hours: readonly Hour[], field: Field): { low: number; high: number; atMs: number } | null {
  const known = hours.flatMap((hour) => {
    const value = hour[field];
    return value === undefined ? [] : [{ value, atMs: hour.atMs }];
  });
  const [first] = known;
  if (first === undefined) return null;
  const top = known.reduce((most, hour) => (hour.value > most.value ? hour : most));
  return { low: Math.min(...known.map(({ value }) => value)), high: top.value, atMs: top.atMs };
}
