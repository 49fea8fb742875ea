import { html } from 'hono/html';
import type { Markup } from './page.ts';

/** A text field of a posted form; '' when it is absent or a file. */
export function field(data: FormData, name: string): string {
  const value = data.get(name);
  return typeof value === 'string' ? value : '';
}

/** A button that posts a link's token: what a GET may only ask for. */
export const tokenForm = (action: string, token: string, words: string, quiet = false): Markup => html`
  <form method="post" action="${action}">
    <input type="hidden" name="t" value="${token}" />
    <p><button class="${quiet ? 'quiet' : ''}">${words}</button></p>
  </form>
`;
