/** A lake's day in a few lines, for who opens the web and not the mail. */
import { html } from 'hono/html';
import { DateTime } from 'luxon';
import type { LakeConfig } from '../config/types.ts';
import { PATHS } from '../delivery/index.ts';
import type { ArchivedBriefing } from '../record/schedule/briefings.ts';
import { inUnits } from '../render/index.ts';
import { formatQuantity, type UnitSystem } from '../units/index.ts';
import { readArchived, toPage, wordsFor } from '../words/index.ts';
import type { Markup } from './page.ts';
import { permalink } from './renderings.ts';

/** The front of the newest issue: danger, plan, when to be in, water, what changed; and how old it is. */
export function lakeFront(
  lake: LakeConfig,
  newest: ArchivedBriefing | undefined,
  units: UnitSystem,
  nowMs: number,
): Markup {
  const home = `${PATHS.archive}/${encodeURIComponent(lake.id)}`;
  if (newest === undefined)
    return html`<section class="front">
      <h2><a href="${home}">${lake.name}</a></h2>
      <p class="note">Nothing has been issued yet.</p>
    </section>`;
  const page = inUnits(toPage(readArchived(newest.documentJson), wordsFor('en')), units);
  const { front } = page;
  const over = page.validUntilMs < nowMs;
  const moment = (ms: number): string =>
    DateTime.fromMillis(ms, { zone: lake.zone }).toFormat('ccc d LLL, HH:mm');
  return html`<section class="front">
    <h2><a href="${permalink(newest)}">${lake.name}</a></h2>
    ${over ? html`<p class="warning">Not of today: valid to ${moment(page.validUntilMs)}.</p>` : ''}
    ${
      front === undefined
        ? html`<p>${page.bottomLine}</p>`
        : html`<p class="${page.safety.level > 1 ? 'warning' : ''}">
              ${[front.danger, ...front.hazards].join(' ')}
            </p>
            <ul class="plain">
              ${front.plan.map(({ when, place, what }) => html`<li><strong>${when}</strong> ${place}; ${what}</li>`)}
            </ul>
            <p>${front.beIn}</p>
            <p>
              ${front.water.map(({ value, what }) => `${value} ${what}`.trim()).join('; ')}. ${front.changed}
              ${front.sure}
            </p>`
    }
    <p class="note">Issued ${moment(newest.issuedMs)}. <a href="${home}">Earlier days</a></p>
  </section>`;
}

/** Mornings of about a month at a glance: water, level of danger and first place of each. */
export function monthTable(list: readonly ArchivedBriefing[], units: UnitSystem): Markup {
  const rows = list.map((kept) => {
    const page = toPage(readArchived(kept.documentJson), wordsFor('en'));
    const water = page.conditions.find(({ id }) => id === 'waterC')?.now;
    const first = page.plan?.blocks[0]?.title ?? page.positions[0]?.name ?? '';
    return { kept, page, water, first };
  });
  return html`<table>
    <thead>
      <tr>
        <th scope="col">Day</th>
        <th scope="col">Water</th>
        <th scope="col">Danger</th>
        <th scope="col">First place</th>
      </tr>
    </thead>
    <tbody>
      ${rows.map(
        ({ kept, page, water, first }) =>
          html`<tr>
            <th scope="row">
              <a href="${permalink(kept)}">${DateTime.fromISO(kept.localDate).toFormat('ccc d LLL yyyy')}</a
              >${kept.edition === 'morning' ? '' : `, ${kept.edition}`}
            </th>
            <td>${water == null ? 'not known' : formatQuantity(water.value, 'temperature', units)}</td>
            <td>${page.safety.level} of 4</td>
            <td>${page.safety.level === 4 ? 'ashore' : first}</td>
          </tr>`,
      )}
    </tbody>
  </table>`;
}
