/** The day by the hour on the what-if page: a small table, a column an hour, a cell empty where nothing is known. */
import { html } from 'hono/html';
import type { Words } from '../words/index.ts';
import type { Markup } from './page.ts';

type HourWords = Words['whatIf']['hours'];

const COLUMNS = ['06:00', '09:00', '12:00', '15:00', '18:00'] as const;

const ROWS = [
  { field: 'air', example: '48 F' },
  { field: 'wind', example: '6 mph' },
  { field: 'windFrom', example: 'SW' },
  { field: 'gust', example: '12 mph' },
  { field: 'cloud', example: '60 %' },
  { field: 'rain', example: '0.1 in' },
  { field: 'thunder', example: '20 %' },
  { field: 'pocket', example: '51 F' },
  { field: 'generation', example: 'on' },
] as const satisfies readonly { readonly field: keyof HourWords['row']; readonly example: string }[];

const nameOf = (column: number, field: string): string => `hour${column + 1}.${field}`;

/** Names of every field of the table. */
export const HOUR_NAMES: readonly string[] = COLUMNS.flatMap((_, column) =>
  ['at', ...ROWS.map(({ field }) => field)].map((field) => nameOf(column, field)),
);

/** Whether a field only says when its column begins. */
export const isHourTime = (name: string): boolean => /^hour\d\.at$/.test(name);

export type Given = Readonly<Record<string, string>>;

/** The columns that say something, as the `hours` of the conditions, and the column that each came from. */
export function writtenHours(given: Given): {
  readonly hours: readonly Readonly<Record<string, string>>[];
  readonly columns: readonly number[];
} {
  const told = COLUMNS.flatMap((usual, column) => {
    const cells = ROWS.flatMap(({ field }) => {
      const text = given[nameOf(column, field)];
      return text === undefined ? [] : [[field, text] as const];
    });
    const at = given[nameOf(column, 'at')] ?? usual;
    return cells.length === 0 ? [] : [{ column, hour: { at, ...Object.fromEntries(cells) } }];
  });
  return { hours: told.map(({ hour }) => hour), columns: told.map(({ column }) => column) };
}

/** What a cell of the table is called in an answer. */
export function cellWords(given: Given, column: number, field: string | undefined, w: HourWords): string {
  const at = given[nameOf(column, 'at')] ?? COLUMNS[column] ?? '';
  const row = ROWS.find((one) => one.field === field);
  return row === undefined ? w.hour(column + 1) : w.cellAt(w.row[row.field], at);
}

const cell = (
  given: Given,
  column: number,
  { field, example }: (typeof ROWS)[number],
  w: HourWords,
): Markup => html`
  <td>
    <input
      type="text"
      size="5"
      name="${nameOf(column, field)}"
      value="${given[nameOf(column, field)] ?? ''}"
      placeholder="${column === 0 ? example : ''}"
      aria-label="${w.cellFrom(w.row[field], given[nameOf(column, 'at')] ?? COLUMNS[column] ?? '')}"
    />
  </td>
`;

/** The table of the form. */
export const hourTable = (given: Given, w: HourWords): Markup => html`
  <fieldset>
    <legend>${w.legend}</legend>
    <p class="note">${w.note}</p>
    <div class="strip">
      <table>
        <thead>
          <tr>
            <th scope="col">${w.from}</th>
            ${COLUMNS.map(
              (usual, column) => html`
                <td>
                  <input
                    type="text"
                    size="5"
                    name="${nameOf(column, 'at')}"
                    value="${given[nameOf(column, 'at')] ?? usual}"
                    aria-label="${w.hourTime(column + 1)}"
                  />
                </td>
              `,
            )}
          </tr>
        </thead>
        <tbody>
          ${ROWS.map(
            (row) =>
              html`<tr>
                <th scope="row">${w.row[row.field]}</th>
                ${COLUMNS.map((_, column) => cell(given, column, row, w))}
              </tr>`,
          )}
        </tbody>
      </table>
    </div>
    <div class="pair">
      <label
        >${w.begin}
        <input
          type="text"
          name="fishing.from"
          value="${given['fishing.from'] ?? ''}"
          placeholder="${w.firstLight}"
        />
      </label>
      <label
        >${w.end}
        <input type="text" name="fishing.to" value="${given['fishing.to'] ?? ''}" placeholder="${w.dusk}" />
      </label>
    </div>
  </fieldset>
`;
