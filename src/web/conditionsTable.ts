/** What the day's plan rests on, beside it on the page of its lake. */
import { html } from 'hono/html';
import { conditionRows } from '../render/index.ts';
import type { UnitSystem } from '../units/index.ts';
import type { BriefingPage, Words } from '../words/index.ts';
import type { Markup } from './page.ts';

/** The figures of the issue, each with its age, its range and how it is known. @param page in the reader's units */
export const conditionsTable = (page: BriefingPage, units: UnitSystem, words: Words): Markup => html`
  <h2>${words.page.headings.conditions}</h2>
  <table class="conditions">
    <tbody>
      ${conditionRows(page, units, words).map(
        ({ label, now, detail, stale }) =>
          html`<tr>
            <th scope="row">${label}</th>
            <td>
              ${stale ? now : html`<strong>${now}</strong>`}${detail === '' ? '' : html` <span class="note">${detail}</span>`}
            </td>
          </tr>`,
      )}
    </tbody>
  </table>
`;
