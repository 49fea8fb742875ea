import { Hono } from 'hono';
import { html } from 'hono/html';
import {
  askForOutings,
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
import { refusalWords, type Words } from '../words/index.ts';
import { showPrivate, showProblem } from './answers.ts';
import type { WebDeps } from './deps.ts';
import { field, tokenForm } from './forms.ts';
import { allWordsOf, speakTo, wordsOf } from './language.ts';
import type { Markup } from './page.ts';
import { readWishes, wishesFields } from './wishesForm.ts';

const LEAVE = `${PATHS.settings}/leave`;
const ASK = `${PATHS.ownOutings}/ask`;
const REVOKE = `${PATHS.settings}/revoke`;

/** A reader's own settings behind the signed link of their mails; no password, no account. */
export function settingsPages(deps: WebDeps): Hono {
  const app = new Hono();
  const { lakes } = deps.config;
  const context = () => ({ nowMs: deps.now(), secret: deps.secret });
  const body = (
    { settings: m, wishes }: Words['web'],
    reader: Reader,
    token: string,
    notice: Markup | string = '',
  ): Markup => html`
    ${notice}
    <p class="note">${m.note}</p>
    <form method="post" action="${PATHS.settings}">
      <input type="hidden" name="t" value="${token}" />
      ${wishesFields(lakes, wishes, reader)}
      <button>${m.save}</button>
    </form>
    <h2>${m.outings}</h2>
    <p>${m.toldNote}</p>
    ${tokenForm(ASK, token, m.toldSend, true)}
    <h2>${m.links}</h2>
    ${tokenForm(REVOKE, token, m.revoke, true)}
    <h2>${m.leave}</h2>
    <p>${m.leaveNote}</p>
    ${tokenForm(LEAVE, token, m.leaveSend, true)}
  `;
  app.get(PATHS.settings, async (c) => {
    const token = c.req.query('t') ?? '';
    const found = await peekLink(deps.record, token, 'settings', context());
    if (!found.ok) return showProblem(c, found.problem);
    const words = speakTo(c, found.value);
    return showPrivate(c, { title: words.settings.title, body: body(words, found.value, token) });
  });
  app.post(PATHS.settings, async (c) => {
    const data = await c.req.formData();
    const token = field(data, 't');
    try {
      const knownLakes = lakes.map(({ id }) => id);
      const found = await changeByLink(deps.record, token, readWishes(data), { ...context(), knownLakes });
      if (!found.ok) return await showProblem(c, found.problem);
      const words = speakTo(c, found.value);
      const { title, saved } = words.settings;
      const notice = html`<p role="status"><strong>${saved}</strong></p>`;
      return await showPrivate(c, { title, body: body(words, found.value, token, notice) });
    } catch (error) {
      if (!(error instanceof ThawlineError) || error.code !== 'usage') throw error;
      const found = await peekLink(deps.record, token, 'settings', context());
      if (!found.ok) return showProblem(c, found.problem);
      const words = speakTo(c, found.value);
      const { title, notSaved } = words.settings;
      const notice = html`<p class="warning" role="alert">
        ${notSaved(refusalWords(error, allWordsOf(c)))}
      </p>`;
      return showPrivate(c, { title, body: body(words, found.value, token, notice) }, 400);
    }
  });
  app.post(REVOKE, async (c) => {
    const token = field(await c.req.formData(), 't');
    const found = await peekLink(deps.record, token, 'settings', context());
    if (!found.ok) return showProblem(c, found.problem);
    await revokeLinks(deps.record, found.value.id);
    const { settings: m } = speakTo(c, found.value);
    return showPrivate(c, { title: m.revokedTitle, body: html`<p>${m.revoked}</p>` });
  });
  app.post(ASK, async (c) => {
    const found = await askForOutings(deps.record, field(await c.req.formData(), 't'), context());
    if (!found.ok) return showProblem(c, found.problem);
    const { settings: m } = speakTo(c, found.value);
    return showPrivate(c, { title: m.leaveTitle, body: html`<p>${m.toldSent}</p>` });
  });
  app.post(LEAVE, async (c) => {
    const token = field(await c.req.formData(), 't');
    const read = readToken(token, 'settings', deps.now(), deps.secret);
    if (!read.ok) return showProblem(c, read.problem);
    // A forwarded mail must not be able to end its first reader's briefings: the same letter as from the mail's foot.
    const ask = signToken({ ...read.claim, purpose: 'leave-ask' }, deps.secret);
    const found = await askToLeave(deps.record, ask, context());
    if (!found.ok) return showProblem(c, found.problem);
    const { settings: m } = wordsOf(c);
    return showPrivate(c, { title: m.leaveTitle, body: html`<p>${m.leaveSent}</p>` });
  });
  return app;
}
