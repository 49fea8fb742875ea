import { setTimeout as pause } from 'node:timers/promises';
import { Hono } from 'hono';
import { html } from 'hono/html';
import { confirmSubscription, PATHS, peekLink, requestSubscription } from '../delivery/index.ts';
import { ThawlineError } from '../units/index.ts';
import { show, showPrivate, showProblem } from './answers.ts';
import type { WebDeps } from './deps.ts';
import { field, tokenForm } from './forms.ts';
import type { Markup } from './page.ts';
import { readWishes, wishesFields } from './wishesForm.ts';

/** Longer than looking up and writing take: the time of an answer must not tell whether an address is known. */
const ANSWER_MS = 250;

async function inEqualTime<T>(work: Promise<T>, answerMs = ANSWER_MS): Promise<T> {
  const [done] = await Promise.allSettled([work, pause(answerMs)]);
  if (done.status === 'rejected') throw done.reason;
  return done.value;
}

const TITLE = 'The briefing by mail, every morning';

/** Asking for the briefing and confirming it: nobody is mailed who did not ask from their own mailbox. */
export function subscribePages(deps: WebDeps): Hono {
  const app = new Hono();
  const { lakes } = deps.config;
  const knownLakes = lakes.map(({ id }) => id);
  const form = (problem?: string, address = '', wishes?: ReturnType<typeof readWishes>): Markup => html`
    <p>
      What the weather, the rain and the level have done to the water, where that puts the fish, and what can
      hurt you. No account: a mail asks you to confirm, and every mail has a way out.
    </p>
    ${problem === undefined ? '' : html`<p class="warning" role="alert">${problem}</p>`}
    <form method="post" action="${PATHS.subscribe}">
      <label
        >Your mail address
        <input type="email" name="address" required autocomplete="email" maxlength="254" value="${address}"
      /></label>
      <div class="trap" aria-hidden="true">
        <label>Leave this empty <input type="text" name="website" tabindex="-1" autocomplete="off" /></label>
      </div>
      ${wishesFields(lakes, wishes)}
      <button>Send me the confirmation</button>
    </form>
  `;
  app.get(PATHS.subscribe, (c) => show(c, { title: TITLE, body: form() }));
  app.post(PATHS.subscribe, async (c) => {
    const data = await c.req.formData();
    const address = field(data, 'address');
    const wishes = readWishes(data);
    let answer: 'taken' | 'full' = 'taken';
    try {
      // The trap field is filled by programs only; they get the usual answer and nothing happens.
      if (field(data, 'website') === '') {
        const asked = requestSubscription(deps.record, address, wishes, { nowMs: deps.now(), knownLakes });
        answer = await inEqualTime(asked, deps.answerMs);
      }
    } catch (error) {
      if (!(error instanceof ThawlineError) || error.code !== 'usage') throw error;
      return show(c, { title: TITLE, body: form(error.message, address, wishes) }, 400);
    }
    if (answer === 'full') {
      c.header('Retry-After', '3600');
      const words =
        'So many have asked within this hour that no more confirmations go out. Please try again in an hour.';
      return show(c, { title: TITLE, body: form(words, address, wishes) }, 503);
    }
    return showPrivate(c, {
      title: 'Look into your mailbox',
      body: html`<p>
        If this address does not get the briefing yet, a mail with a link is on its way to it. The link works
        for two days. Nothing else is sent until you follow it.
      </p>`,
    });
  });
  app.get(PATHS.confirm, async (c) => {
    const token = c.req.query('t') ?? '';
    const found = await peekLink(deps.record, token, 'confirm', { nowMs: deps.now(), secret: deps.secret });
    if (!found.ok) return showProblem(c, found.problem);
    return showPrivate(c, {
      title: 'One click more',
      body: html`<p>Send the briefing to ${found.value.address}?</p>
        ${tokenForm(PATHS.confirm, token, 'Yes, send it')}`,
    });
  });
  app.post(PATHS.confirm, async (c) => {
    const token = field(await c.req.formData(), 't');
    const found = await confirmSubscription(deps.record, token, { nowMs: deps.now(), secret: deps.secret });
    if (!found.ok) return showProblem(c, found.problem);
    return showPrivate(c, {
      title: 'You will get the briefing',
      body: html`<p>
        The next one comes at the next time of issue. A link in each mail leads to your settings and to the
        way out.
      </p>`,
    });
  });
  return app;
}
