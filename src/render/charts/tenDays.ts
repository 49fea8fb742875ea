/** Picture 1: ten days and the days ahead on one axis: air, lake temperature with band and readings, rain, level. */
import type { BriefingPage, Messages } from '../../words/index.ts';
import { dateWords } from '../../words/index.ts';
import { formatQuantity, type UnitSystem } from '../../units/index.ts';
import { DateTime } from 'luxon';
import { COLOUR } from '../style.ts';
import { drawStrip, PLOT_LEFT, PLOT_RIGHT, STRIP_HEIGHT, type Strip } from './strip.ts';
import { drawing, FORECAST_GROUND, label, path, rectangle, scale } from './svg.ts';

type Day = BriefingPage['series']['days'][number];
type Field = 'airMeanC' | 'waterC' | 'rainMm' | 'levelM';

export interface Drawn {
  readonly svg: string;
  /** Whole sentences that say what the picture shows, in the reader's units. */
  readonly alt: string;
  /** What the text part says of it, where the page around it says the rest. */
  readonly said?: string;
}

/** Days on the picture: the ten up to today and at most four ahead. */
function shownDays(doc: BriefingPage): { days: readonly Day[]; today: number } {
  const past = doc.series.days.filter(({ date }) => date <= doc.date).slice(-10);
  const ahead = doc.series.days.filter(({ date }) => date > doc.date).slice(0, 4);
  return { days: [...past, ...ahead], today: past.length - 1 };
}

export function tenDays(doc: BriefingPage, units: UnitSystem, m: Messages): Drawn | null {
  const { days, today } = shownDays(doc);
  if (days.length < 3) return null;
  const x = scale(0, days.length - 1, PLOT_LEFT + 12, PLOT_RIGHT - 12);
  const points = (field: Field): Strip['points'] =>
    days.map((day, i) => ({
      x: x(i),
      value: day[field],
      // Today's mean is half forecast; today's level is measured.
      forecast: day.forecast && !(field === 'levelM' && day.date <= doc.date),
      ...(field === 'waterC' && day.waterLowC !== undefined && day.waterHighC !== undefined
        ? { low: day.waterLowC, high: day.waterHighC }
        : {}),
    }));
  const strips: readonly Strip[] = [
    {
      title: m.pictures.air,
      quantity: 'temperature',
      colour: COLOUR.vermillion,
      style: 'line',
      points: points('airMeanC'),
      marked: today,
    },
    {
      title: m.pictures.water,
      quantity: 'temperature',
      colour: COLOUR.blue,
      style: 'line',
      points: points('waterC'),
      marked: today,
      readings: readingsAt(doc, days, x),
      readingWords: m.pictures.reading,
    },
    {
      title: m.pictures.rain,
      quantity: 'rain',
      colour: COLOUR.blue,
      style: 'bars',
      points: points('rainMm'),
      marked: -1,
    },
    {
      title: m.pictures.level,
      quantity: 'level',
      colour: COLOUR.ink,
      style: 'line',
      points: points('levelM'),
      marked: today,
    },
  ];
  const shown = strips.filter(({ points: all }) => all.filter(({ value }) => value !== undefined).length > 1);
  if (shown.length === 0) return null;
  const bottom = shown.length * STRIP_HEIGHT;
  const edge = days.length - 1 > today ? (x(today) + x(today + 1)) / 2 : null;
  const marks = [
    edge === null ? '' : rectangle(edge, 0, PLOT_RIGHT + 6 - edge, bottom, FORECAST_GROUND),
    edge === null
      ? ''
      : label((edge + PLOT_RIGHT + 6) / 2, 16, m.kind.forecast, {
          anchor: 'middle',
          size: 19,
          colour: COLOUR.slate,
        }),
    ...shown.map((strip, i) => drawStrip(strip, i * STRIP_HEIGHT, units)),
    ...days.map((day, i) => dayLabel(day, x(i), bottom, i === today, m)),
    path(
      [
        [x(today), bottom - 12],
        [x(today), bottom - 4],
      ],
      { width: 2 },
    ),
  ];
  return { svg: drawing(bottom + 34, marks), alt: altText(days, today, units, m) };
}

function dayLabel(day: Day, x: number, bottom: number, isToday: boolean, m: Messages): string {
  const weekday = DateTime.fromISO(day.date, { zone: 'utc' }).weekday;
  const words = (m.weekdays[weekday - 1] ?? '').slice(0, 2);
  return label(x, bottom + 18, words, {
    anchor: 'middle',
    size: 19,
    bold: isToday,
    colour: isToday ? COLOUR.ink : COLOUR.slate,
  });
}

function readingsAt(
  doc: BriefingPage,
  days: readonly Day[],
  x: (i: number) => number,
): { x: number; value: number }[] {
  return doc.series.readings.flatMap(({ atMs, waterC }) => {
    const local = DateTime.fromMillis(atMs, { zone: doc.lake.zone });
    const index = days.findIndex(({ date }) => date === local.toISODate());
    // A day's mark stands at its middle.
    return index < 0 ? [] : [{ x: x(index + (local.hour + local.minute / 60) / 24 - 0.5), value: waterC }];
  });
}

function altText(days: readonly Day[], today: number, units: UnitSystem, m: Messages): string {
  const past = days.slice(0, today + 1);
  const of = (field: Field): number[] => past.map((day) => day[field]).filter((value) => value !== undefined);
  const t = (value: number): string => formatQuantity(value, 'temperature', units);
  const sentences: string[] = [];
  const [air, water, level] = [of('airMeanC'), of('waterC'), of('levelM')];
  const lastAir = air.at(-1);
  if (lastAir !== undefined)
    sentences.push(m.pictures.airAlt(t(Math.min(...air)), t(Math.max(...air)), t(lastAir)));
  const [firstWater, lastWater] = [water[0], water.at(-1)];
  if (firstWater !== undefined && lastWater !== undefined)
    sentences.push(m.pictures.waterAlt(t(firstWater), t(lastWater)));
  sentences.push(...rainAlt(past, units, m));
  const [firstLevel, lastLevel] = [level[0], level.at(-1)];
  if (firstLevel !== undefined && lastLevel !== undefined) {
    sentences.push(m.pictures.levelAlt(formatQuantity(lastLevel - firstLevel, 'levelChange', units, true)));
  }
  if (days.length - 1 > today) sentences.push(m.pictures.aheadAlt);
  return m.pictures.tenDaysAlt(sentences.join(' '));
}

function rainAlt(past: readonly Day[], units: UnitSystem, m: Messages): string[] {
  const fallen = past.filter((day): day is Day & { rainMm: number } => day.rainMm !== undefined);
  if (fallen.length === 0) return [];
  const worst = fallen.reduce((most, day) => (day.rainMm > most.rainMm ? day : most));
  const total = fallen.reduce((sum, { rainMm }) => sum + rainMm, 0);
  const r = (value: number): string => formatQuantity(value, 'rain', units);
  return total < 0.2
    ? [m.pictures.noRainAlt]
    : [m.pictures.rainAlt(r(total), r(worst.rainMm), dateWords(worst.date, m))];
}
