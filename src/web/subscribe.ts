import { setTimeout as pause } from 'node:timers/promises';
import { Hono } from 'hono';
import { html } from 'hono/html';
import { confirmSubscription, PATHS, peekLink, requestSubscription } from '../delivery/index.ts';
import { ThawlineError } from '../units/index.ts';
import { refusalWords, type Words } from '../words/index.ts';
import { show, showPrivate, showProblem } from './answers.ts';
import type { WebDeps } from './deps.ts';
import { field, tokenForm } from './forms.ts';
import { allWordsOf, speakTo, wordsOf } from './language.ts';
import type { Markup } from './page.ts';
import { readWishes, wishesFields } from './wishesForm.ts';

/** Longer than looking up and writing take: the time of an answer must not tell whether an address is known. */
const ANSWER_MS = 250;

async function inEqualTime<T>(work: Promise<T>, answerMs = ANSWER_MS): Promise<T> {
  const [done] = await Promise.allSettled([work, pause(answerMs)]);
  if (done.status === 'rejected') throw done.reason;
  return done.value;
}

/** Asking for the briefing and confirming it: nobody is mailed who did not ask from their own mailbox. */
export function subscribePages(deps: WebDeps): Hono {
  const app = new Hono();
  const { lakes } = deps.config;
  const knownLakes = lakes.map(({ id }) => id);
  const form = (
    { subscribe: m, wishes: w }: Words['web'],
    problem?: string,
    address = '',
    wishes?: ReturnType<typeof readWishes>,
  ): Markup => html`
    <p>${m.lead}</p>
    ${problem === undefined ? '' : html`<p class="warning" role="alert">${problem}</p>`}
    <form method="post" action="${PATHS.subscribe}">
      <label
        >${m.address}
        <input type="email" name="address" required autocomplete="email" maxlength="254" value="${address}"
      /></label>
      <div class="trap" aria-hidden="true">
        <label>${m.trap} <input type="text" name="website" tabindex="-1" autocomplete="off" /></label>
      </div>
      ${wishesFields(lakes, w, wishes)}
      <button>${m.send}</button>
    </form>
  `;
  app.get(PATHS.subscribe, (c) => {
    const words = wordsOf(c);
    return show(c, { title: words.subscribe.title, body: form(words) });
  });
  app.post(PATHS.subscribe, async (c) => {
    const words = wordsOf(c);
    const { subscribe: m } = words;
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
      return show(
        c,
        { title: m.title, body: form(words, refusalWords(error, allWordsOf(c)), address, wishes) },
        400,
      );
    }
    if (answer === 'full') {
      c.header('Retry-After', '3600');
      return show(c, { title: m.title, body: form(words, m.full, address, wishes) }, 503);
    }
    return showPrivate(c, {
      title: m.takenTitle,
      body: html`<p>${m.taken}</p>`,
    });
  });
  app.get(PATHS.confirm, async (c) => {
    const token = c.req.query('t') ?? '';
    const found = await peekLink(deps.record, token, 'confirm', { nowMs: deps.now(), secret: deps.secret });
    if (!found.ok) return showProblem(c, found.problem);
    const { subscribe: m } = speakTo(c, found.value);
    return showPrivate(c, {
      title: m.confirmTitle,
      body: html`<p>${m.confirm(found.value.address)}</p>
        ${tokenForm(PATHS.confirm, token, m.yes)}`,
    });
  });
  app.post(PATHS.confirm, async (c) => {
    const token = field(await c.req.formData(), 't');
    const found = await confirmSubscription(deps.record, token, { nowMs: deps.now(), secret: deps.secret });
    if (!found.ok) return showProblem(c, found.problem);
    const { subscribe: m } = speakTo(c, found.value);
    return showPrivate(c, {
      title: m.doneTitle,
      body: html`<p>${m.done}</p>`,
    });
  });
  return app;
}
