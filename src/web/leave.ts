import { Hono } from 'hono';
import { html } from 'hono/html';
import { askToLeave, leaveByLetter, leaveByOneClick, PATHS, peekLink, readToken } from '../delivery/index.ts';
import { eraseReader } from '../record/delivery/readers.ts';
import { showPrivate, showProblem } from './answers.ts';
import type { WebDeps } from './deps.ts';
import { field, tokenForm } from './forms.ts';

const ERASE = `${PATHS.leaveSure}/erase`;

const GONE = {
  title: 'No more mails',
  body: html`<p>You will get no more briefings. <a href="${PATHS.subscribe}">Come back any time.</a></p>`,
};

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
    return showPrivate(c, {
      title: 'Stop these mails?',
      body: html`<p>
          The mail may have been forwarded to you. So we send its first reader one mail with the link that
          ends it; it is theirs to follow.
        </p>
        ${tokenForm(PATHS.leave, token, 'Send that mail')}`,
    });
  });
  app.post(PATHS.leave, async (c) => {
    const found = await askToLeave(deps.record, field(await c.req.formData(), 't'), context());
    if (!found.ok) return showProblem(c, found.problem);
    return showPrivate(c, {
      title: 'A mail is on its way',
      body: html`<p>The link in it ends the briefings for the address it was sent to.</p>`,
    });
  });
  app.get(PATHS.leaveSure, async (c) => {
    const token = c.req.query('t') ?? '';
    const found = await peekLink(deps.record, token, 'leave-sure', context());
    if (!found.ok) return showProblem(c, found.problem);
    const body = html`<p>End the briefings for ${found.value.address}?</p>
      ${tokenForm(PATHS.leaveSure, token, 'Yes, stop them')}
      <p>Or stop them and erase the address from the record and from all that waits to be sent:</p>
      ${tokenForm(ERASE, token, 'Stop them and erase my address', true)}`;
    return showPrivate(c, { title: 'Stop these mails?', body });
  });
  app.post(ERASE, async (c) => {
    const token = field(await c.req.formData(), 't');
    const found = await peekLink(deps.record, token, 'leave-sure', context());
    if (!found.ok) return showProblem(c, found.problem);
    await eraseReader(deps.record, found.value.id);
    const words = html`<p>The address is no longer known here.</p>`;
    return showPrivate(c, { title: 'Erased', body: words });
  });
  app.post(PATHS.leaveSure, async (c) => {
    const found = await leaveByLetter(deps.record, field(await c.req.formData(), 't'), context());
    return found.ok ? showPrivate(c, GONE) : showProblem(c, found.problem);
  });
  app.get(PATHS.oneClick, (c) => {
    const token = c.req.query('t') ?? '';
    const read = readToken(token, 'leave-now', deps.now(), deps.secret);
    if (!read.ok) return showProblem(c, read.problem);
    const action = `${PATHS.oneClick}?t=${encodeURIComponent(token)}`;
    const body = html`<p>Following the link has changed nothing yet.</p>
      ${tokenForm(action, token, 'Stop the mails')}`;
    return showPrivate(c, { title: 'Stop these mails?', body });
  });
  app.post(PATHS.oneClick, async (c) => {
    const found = await leaveByOneClick(deps.record, c.req.query('t') ?? '', context());
    return found.ok ? showPrivate(c, GONE) : showProblem(c, found.problem);
  });
  return app;
}
