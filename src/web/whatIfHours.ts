/** The day by the hour on the what-if page: a small table, a column an hour, a cell empty where nothing is known. */
import { html } from 'hono/html';
import type { Markup } from './page.ts';

const COLUMNS = ['06:00', '09:00', '12:00', '15:00', '18:00'] as const;

const ROWS = [
  { field: 'air', words: 'Air', example: '48 F' },
  { field: 'wind', words: 'Wind', example: '6 mph' },
  { field: 'windFrom', words: 'Wind from', example: 'SW' },
  { field: 'gust', words: 'Gusts', example: '12 mph' },
  { field: 'cloud', words: 'Cloud', example: '60 %' },
  { field: 'rain', words: 'Rain of each hour', example: '0.1 in' },
  { field: 'thunder', words: 'Chance of thunder', example: '20 %' },
  { field: 'pocket', words: 'Warmest pocket', example: '51 F' },
  { field: 'generation', words: 'Turbines, on or off', example: 'on' },
] as const;

const nameOf = (column: number, field: string): string => `hour${column + 1}.${field}`;

/** Names of every field of the table. */
export const HOUR_NAMES: readonly string[] = COLUMNS.flatMap((_, column) =>
  ['at', ...ROWS.map(({ field }) => field)].map((field) => nameOf(column, field)),
);

/** Whether a field only says when its column begins. */
export const isHourTime = (name: string): boolean => /^hour\d\.at$/.test(name);

type Given = Readonly<Record<string, string>>;

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
export function cellWords(given: Given, column: number, field: string | undefined): string {
  const at = given[nameOf(column, 'at')] ?? COLUMNS[column] ?? '';
  const row = ROWS.find((one) => one.field === field);
  return row === undefined ? `Hour ${column + 1}` : `${row.words} at ${at}`;
}

const cell = (given: Given, column: number, { field, words, example }: (typeof ROWS)[number]): Markup => html`
  <td>
    <input
      type="text"
      size="5"
      name="${nameOf(column, field)}"
      value="${given[nameOf(column, field)] ?? ''}"
      placeholder="${column === 0 ? example : ''}"
      aria-label="${words} from ${given[nameOf(column, 'at')] ?? COLUMNS[column] ?? ''}"
    />
  </td>
`;

/** The table of the form. */
export const hourTable = (given: Given): Markup => html`
  <fieldset>
    <legend>The day by the hour</legend>
    <p class="note">A cell holds until the next one that is filled in. What stays empty is not known.</p>
    <div class="strip">
      <table>
        <thead>
          <tr>
            <th scope="col">From</th>
            ${COLUMNS.map(
              (usual, column) => html`
                <td>
                  <input
                    type="text"
                    size="5"
                    name="${nameOf(column, 'at')}"
                    value="${given[nameOf(column, 'at')] ?? usual}"
                    aria-label="Hour ${column + 1}, local time"
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
                <th scope="row">${row.words}</th>
                ${COLUMNS.map((_, column) => cell(given, column, row))}
              </tr>`,
          )}
        </tbody>
      </table>
    </div>
    <div class="pair">
      <label
        >You begin at
        <input
          type="text"
          name="fishing.from"
          value="${given['fishing.from'] ?? ''}"
          placeholder="first light"
        />
      </label>
      <label
        >You are off the water at
        <input type="text" name="fishing.to" value="${given['fishing.to'] ?? ''}" placeholder="dusk" />
      </label>
    </div>
  </fieldset>
`;
