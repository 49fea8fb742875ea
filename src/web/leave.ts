import { Hono } from 'hono';
import { html } from 'hono/html';
import {
  askToLeave,
  eraseByLink,
  leaveByLetter,
  leaveByOneClick,
  PATHS,
  peekLink,
  readToken,
} from '../delivery/index.ts';
import { showPrivate, showProblem } from './answers.ts';
import type { WebDeps } from './deps.ts';
import { field, tokenForm } from './forms.ts';
import { speakTo, wordsOf } from './language.ts';
import type { Page } from './page.ts';
import type { Words } from '../words/index.ts';

const ERASE = `${PATHS.leaveSure}/erase`;

const gone = ({ leave: m }: Words['web']): Page => ({
  title: m.goneTitle,
  body: html`<p>${m.gone} <a href="${PATHS.subscribe}">${m.back}</a></p>`,
});

/**
 * Three ways out, none of which acts on a GET: the header's one-click address (RFC 8058), the link in the body, which
 * may be in a friend's hands and only makes a letter go to the reader, and the link in that letter.
 */
export function leavePages(deps: WebDeps): Hono {
  const app = new Hono();
  const context = () => ({ nowMs: deps.now(), secret: deps.secret });
  app.get(PATHS.leave, async (c) => {
    const token = c.req.query('t') ?? '';
    const found = await peekLink(deps.record, token, 'leave-ask', context());
    if (!found.ok) return showProblem(c, found.problem);
    const { leave: m } = speakTo(c, found.value);
    return showPrivate(c, {
      title: m.title,
      body: html`<p>${m.forwarded}</p>
        ${tokenForm(PATHS.leave, token, m.send)}`,
    });
  });
  app.post(PATHS.leave, async (c) => {
    const found = await askToLeave(deps.record, field(await c.req.formData(), 't'), context());
    if (!found.ok) return showProblem(c, found.problem);
    const { leave: m } = wordsOf(c);
    return showPrivate(c, { title: m.sentTitle, body: html`<p>${m.sent}</p>` });
  });
  app.get(PATHS.leaveSure, async (c) => {
    const token = c.req.query('t') ?? '';
    const found = await peekLink(deps.record, token, 'leave-sure', context());
    if (!found.ok) return showProblem(c, found.problem);
    const { leave: m } = speakTo(c, found.value);
    const body = html`<p>${m.sure(found.value.address)}</p>
      ${tokenForm(PATHS.leaveSure, token, m.yes)}
      <p>${m.orErase}</p>
      ${tokenForm(ERASE, token, m.erase, true)}`;
    return showPrivate(c, { title: m.title, body });
  });
  app.post(ERASE, async (c) => {
    const found = await eraseByLink(deps.record, field(await c.req.formData(), 't'), context());
    if (!found.ok) return showProblem(c, found.problem);
    const { leave: m } = speakTo(c, found.value);
    return showPrivate(c, { title: m.erasedTitle, body: html`<p>${m.erased}</p>` });
  });
  app.post(PATHS.leaveSure, async (c) => {
    const found = await leaveByLetter(deps.record, field(await c.req.formData(), 't'), context());
    return found.ok ? showPrivate(c, gone(wordsOf(c))) : showProblem(c, found.problem);
  });
  app.get(PATHS.oneClick, (c) => {
    const token = c.req.query('t') ?? '';
    const read = readToken(token, 'leave-now', deps.now(), deps.secret);
    if (!read.ok) return showProblem(c, read.problem);
    const action = `${PATHS.oneClick}?t=${encodeURIComponent(token)}`;
    const { leave: m } = wordsOf(c);
    const body = html`<p>${m.unchanged}</p>
      ${tokenForm(action, token, m.stop)}`;
    return showPrivate(c, { title: m.title, body });
  });
  app.post(PATHS.oneClick, async (c) => {
    const found = await leaveByOneClick(deps.record, c.req.query('t') ?? '', context());
    return found.ok ? showPrivate(c, gone(wordsOf(c))) : showProblem(c, found.problem);
  });
  return app;
}
