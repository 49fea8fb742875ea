/** A lake's day in a few lines, for who opens the web and not the mail. */
import { html, raw } from 'hono/html';
import type { LakeConfig } from '../config/index.ts';
import type { ArchivedBriefing } from '../record/schedule/index.ts';
import { ashoreAllDay, isKeptIn } from '../briefing/index.ts';
import { PATHS, permalink } from '../delivery/index.ts';
import { clockOf, inClock, inUnits, liveDayFigure, waterFigure } from '../render/index.ts';
import { formatQuantity, type UnitSystem } from '../units/index.ts';
import {
  clock,
  dateWords,
  dateWordsAt,
  languageOf,
  readArchived,
  toPage,
  wordsFor,
  type Words,
} from '../words/index.ts';
import { mapPath } from './lakeMap.ts';
import type { Markup } from './page.ts';

/** How a page was asked for. */
interface Asked {
  readonly units: UnitSystem;
  readonly words: Words;
  readonly nowMs: number;
}

/**
 * The front of the newest issue: danger, plan, when to be in, water, what changed; and how old it is. Among other lakes
 * with the lake's name and its water as a small line, on the lake's own page with the day by the hour.
 */
export function lakeFront(
  lake: LakeConfig,
  newest: ArchivedBriefing | undefined,
  { units, words: ours, nowMs }: Asked,
  among: 'lakes' | 'itself',
): Markup {
  const w = ours.archive.front;
  const home = `${PATHS.archive}/${encodeURIComponent(lake.id)}`;
  if (newest === undefined)
    return html`<section class="front">
      ${among === 'lakes' ? html`<h2><a href="${home}">${lake.name}</a></h2>` : ''}
      <p class="note">${w.nothing}</p>
    </section>`;
  const document = readArchived(newest.documentJson);
  const words = wordsFor(languageOf(document));
  const page = inUnits(toPage(document, words), units);
  const { front } = page;
  const over = page.validUntilMs < nowMs;
  const moment = (ms: number): string =>
    inClock(
      ours.archive.moment(dateWordsAt(ms, lake.zone, ours.page), clock(ms, lake.zone)),
      clockOf(units, lake.clock),
      ours.page,
    );
  return html`<section class="front">
    ${among === 'lakes' ? html`<h2><a href="${permalink(newest)}">${lake.name}</a></h2>` : ''}
    ${over ? html`<p class="warning">${w.over(moment(page.validUntilMs))}</p>` : ''}
    ${
      front === undefined
        ? html`<p>${page.bottomLine}</p>`
        : html`<p class="danger-${page.safety.level}">${[front.danger, ...front.hazards].join(' ')}</p>
            <ul class="plain">
              ${front.plan.map(({ when, place, what }) => html`<li><strong>${when}</strong> ${place}; ${what}</li>`)}
            </ul>
            <p>${front.beIn}</p>
            <p>
              ${front.water.map(({ value, what }) => `${value} ${what}`.trim()).join('; ')}. ${front.changed}
              ${front.sure}
            </p>`
    }
    ${raw(among === 'lakes' ? waterFigure(page, units, words) : liveDayFigure(page, units, words, nowMs))}
    <p class="note">
      ${w.issued(moment(newest.issuedMs))}
      <a href="${permalink(newest)}">${w.whole}</a
      >${among === 'lakes' ? html`, <a href="${home}">${w.earlier}</a>` : ''}${
        page.map === undefined ? '' : html`, <a href="${mapPath(lake.id)}">${w.map}</a>`
      }
    </p>
  </section>`;
}

/** Mornings of about a month at a glance: water, level of danger and first place of each. */
export function monthTable(list: readonly ArchivedBriefing[], units: UnitSystem, words: Words): Markup {
  const w = words.archive;
  const day = ({ localDate }: ArchivedBriefing): string =>
    w.dayOfYear(dateWords(localDate, words.page), Number(localDate.slice(0, 4)));
  const rows = list.map((kept) => {
    const page = toPage(readArchived(kept.documentJson), words);
    const water = page.conditions.find(({ id }) => id === 'waterC')?.now;
    const first = page.plan?.blocks[0]?.title ?? page.positions[0]?.name ?? '';
    return { kept, page, water, first };
  });
  return html`<table>
    <thead>
      <tr>
        <th scope="col">${w.columns.day}</th>
        <th scope="col">${w.columns.water}</th>
        <th scope="col">${w.columns.danger}</th>
        <th scope="col">${w.columns.first}</th>
      </tr>
    </thead>
    <tbody>
      ${rows.map(
        ({ kept, page, water, first }) =>
          html`<tr>
            <th scope="row">
              <a href="${permalink(kept)}">${day(kept)}</a
              >${kept.edition === 'morning' ? '' : `, ${w.edition[kept.edition]}`}
            </th>
            <td>${water == null ? words.page.unknown : formatQuantity(water.value, 'temperature', units)}</td>
            <td>${w.danger(page.safety.level)}</td>
            <td>${ashoreAllDay(page) ? w.ashore : isKeptIn(page) ? w.closedDay : first}</td>
          </tr>`,
      )}
    </tbody>
  </table>`;
}
