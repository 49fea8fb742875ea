/** Drawings for a page of the web, where they stay drawings: sharp at every width, in the reader's colour scheme. */
import type { UnitSystem } from '../units/index.ts';
import type { BriefingPage, Words } from '../words/index.ts';
import { dayClock } from './charts/dayClock.ts';
import { lakeMap, mapLines, mapSvg } from './charts/lakeMap.ts';
import type { Drawn } from './charts/tenDays.ts';
import { waterLine } from './charts/waterLine.ts';
import { clockOf } from './clock.ts';
import { escapeHtml } from './escape.ts';

const figure = (drawn: Drawn | null): string =>
  drawn === null
    ? ''
    : `<figure>${drawn.svg.replace('<svg ', `<svg role="img" aria-label="${escapeHtml(drawn.alt)}" `)}</figure>`;

/** The day on one clock as markup; '' where nothing of the day is known. @param page in the reader's units */
export const dayFigure = (page: BriefingPage, units: UnitSystem, words: Words): string =>
  figure(dayClock(page, { units, clock: clockOf(units, page.lake.clock) }, words));

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
    svg: `<figure class="map">${mapSvg(wide, 'for-wide')}${mapSvg(narrow, 'for-narrow')}</figure>`,
    alt: wide.alt,
  };
}

/** Every hour that the map can show, in words. @param page in the reader's units */
export const mapHourLines = (page: BriefingPage, units: UnitSystem, words: Words) =>
  mapLines(page, { units, clock: clockOf(units, page.lake.clock), width: 600 }, words);
