import { Hono } from 'hono';
import { html } from 'hono/html';
import {
  askToLeave,
  changeByLink,
  PATHS,
  peekLink,
  readToken,
  revokeLinks,
  signToken,
  type Reader,
} from '../delivery/index.ts';
import { ThawlineError } from '../units/index.ts';
import { showPrivate, showProblem } from './answers.ts';
import type { WebDeps } from './deps.ts';
import { field, tokenForm } from './forms.ts';
import type { Markup } from './page.ts';
import { OWN_OUTINGS } from './ownOutings.ts';
import { readWishes, wishesFields } from './wishesForm.ts';

const LEAVE = `${PATHS.settings}/leave`;
const REVOKE = `${PATHS.settings}/revoke`;

/** A reader's own settings behind the signed link of their mails; no password, no account. */
export function settingsPages(deps: WebDeps): Hono {
  const app = new Hono();
  const { lakes } = deps.config;
  const context = () => ({ nowMs: deps.now(), secret: deps.secret });
  const body = (reader: Reader, token: string, notice: Markup | string): Markup => html`
    ${notice}
    <p class="note">
      This link opens these settings for whoever has it. If you forwarded a mail with it, make all links sent
      so far worthless below.
    </p>
    <form method="post" action="${PATHS.settings}">
      <input type="hidden" name="t" value="${token}" />
      ${wishesFields(lakes, reader)}
      <button>Save</button>
    </form>
    <h2>Outings</h2>
    <p><a href="${OWN_OUTINGS}?t=${encodeURIComponent(token)}">What you told of your days</a></p>
    <h2>Links</h2>
    ${tokenForm(REVOKE, token, 'Make all links sent so far worthless', true)}
    <h2>Leave</h2>
    <p>We send you a mail with the link that ends the briefings and, if you wish, erases your address.</p>
    ${tokenForm(LEAVE, token, 'Send me that mail', true)}
  `;
  app.get(PATHS.settings, async (c) => {
    const token = c.req.query('t') ?? '';
    const found = await peekLink(deps.record, token, 'settings', context());
    if (!found.ok) return showProblem(c, found.problem);
    return showPrivate(c, { title: 'Your settings', body: body(found.value, token, '') });
  });
  app.post(PATHS.settings, async (c) => {
    const data = await c.req.formData();
    const token = field(data, 't');
    try {
      const knownLakes = lakes.map(({ id }) => id);
      const found = await changeByLink(deps.record, token, readWishes(data), { ...context(), knownLakes });
      if (!found.ok) return await showProblem(c, found.problem);
      const notice = html`<p role="status"><strong>Saved.</strong></p>`;
      return await showPrivate(c, { title: 'Your settings', body: body(found.value, token, notice) });
    } catch (error) {
      if (!(error instanceof ThawlineError) || error.code !== 'usage') throw error;
      const found = await peekLink(deps.record, token, 'settings', context());
      if (!found.ok) return showProblem(c, found.problem);
      const notice = html`<p class="warning" role="alert">Not saved. ${error.message}</p>`;
      return showPrivate(c, { title: 'Your settings', body: body(found.value, token, notice) }, 400);
    }
  });
  app.post(REVOKE, async (c) => {
    const token = field(await c.req.formData(), 't');
    const found = await peekLink(deps.record, token, 'settings', context());
    if (!found.ok) return showProblem(c, found.problem);
    await revokeLinks(deps.record, found.value.id);
    const words = html`<p>The next mail brings fresh ones.</p>`;
    return showPrivate(c, { title: 'All earlier links are worthless now', body: words });
  });
  app.post(LEAVE, async (c) => {
    const token = field(await c.req.formData(), 't');
    const read = readToken(token, 'settings', deps.now(), deps.secret);
    if (!read.ok) return showProblem(c, read.problem);
    // A forwarded mail must not be able to end its first reader's briefings: the same letter as from the mail's foot.
    const ask = signToken({ ...read.claim, purpose: 'leave-ask' }, deps.secret);
    const found = await askToLeave(deps.record, ask, context());
    if (!found.ok) return showProblem(c, found.problem);
    const words = html`<p>The link in it ends the briefings.</p>`;
    return showPrivate(c, { title: 'A mail is on its way', body: words });
  });
  return app;
}
