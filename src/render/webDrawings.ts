/** Drawings for a page of the web, where they stay drawings: sharp at every width, in the reader's colour scheme. */
import type { UnitSystem } from '../units/index.ts';
import type { BriefingPage, Words } from '../words/index.ts';
import { dayClock, hourLines, isNow } from './charts/dayClock.ts';
import { lakeMap, mapLines, mapSvg } from './charts/lakeMap.ts';
import { inWidthsLaidOut } from './charts/svg.ts';
import type { Drawn } from './charts/tenDays.ts';
import { waterLine } from './charts/waterLine.ts';
import { clockOf } from './clock.ts';
import { escapeHtml } from './escape.ts';

const figure = (drawn: Drawn | null): string =>
  drawn === null
    ? ''
    : `<figure>${inWidthsLaidOut(drawn.svg).replace('<svg ', `<svg role="img" aria-label="${escapeHtml(drawn.alt)}" `)}</figure>`;

/**
 * The day on one clock as markup, the present hour marked on it and told in a line below; '' where nothing of the day is
 * known. A script may show the next hour's mark and line in place of this one's: `data-hour` says whose each is.
 *
 * @param page in the reader's units
 * @param nowMs epoch ms
 */
export function liveDayFigure(page: BriefingPage, units: UnitSystem, words: Words, nowMs: number): string {
  const view = { units, clock: clockOf(units, page.lake.clock), nowMs };
  const drawn = figure(dayClock(page, view, words));
  if (drawn === '') return '';
  const lines = hourLines(page, view, words).map(
    ({ atMs, words: line }) =>
      `<p data-hour="${atMs}"${isNow(atMs, nowMs) ? '' : ' hidden=""'}>${escapeHtml(line)}</p>`,
  );
  return `<div data-strip="${nowMs}">${drawn}${lines.join('')}</div>`;
}

/** The lake's ten days as a small line; '' where too few are known. @param page in the reader's units */
export const waterFigure = (page: BriefingPage, units: UnitSystem, words: Words): string =>
  figure(waterLine(page, units, words));

/** The map of an hour for a wide and for a narrow screen, of which the style sheet shows one; '' where there is none. */
export function mapFigure(
  page: BriefingPage,
  units: UnitSystem,
  words: Words,
  atMs?: number,
): { readonly svg: string; readonly alt: string } | null {
  const view = { units, clock: clockOf(units, page.lake.clock), ...(atMs === undefined ? {} : { atMs }) };
  const wide = lakeMap(page, { ...view, width: 600 }, words);
  const narrow = lakeMap(page, { ...view, width: 375 }, words);
  if (wide === null || narrow === null) return null;
  return {
    svg: `<figure class="map">${inWidthsLaidOut(mapSvg(wide, 'for-wide') + mapSvg(narrow, 'for-narrow'))}</figure>`,
    alt: wide.alt,
  };
}

/** Every hour that the map can show, in words. @param page in the reader's units */
export const mapHourLines = (page: BriefingPage, units: UnitSystem, words: Words) =>
  mapLines(page, { units, clock: clockOf(units, page.lake.clock), width: 600 }, words);
