/** The one-minute page behind the signed link of the mail: how was it? A GET shows nothing of what was told before. */
import { Hono, type Context } from 'hono';
import { html } from 'hono/html';
import type { LakeConfig } from '../config/index.ts';
import { takeOutings } from '../schedule/outings/index.ts';
import { localDateAt } from '../units/time/index.ts';
import { PATHS, peekLink } from '../delivery/index.ts';
import { readOuting } from '../outings/index.ts';
import { outingsOf } from '../record/index.ts';
import { ThawlineError } from '../units/index.ts';
import { refusalWords, saidQuestion } from '../words/index.ts';
import { showPrivate, showProblem } from './answers.ts';
import type { WebDeps } from './deps.ts';
import { filled } from './filled.ts';
import { field } from './forms.ts';
import { allWordsOf, allWordsTo, speakTo } from './language.ts';
import { namesIn } from './names.ts';
import { emptyFields, outingForm, readFields, type OutingFields } from './outingForm.ts';
import { OUTING_SCRIPT, OUTING_WORKER } from './outingScript.ts';
import { lakeOfReader, questionsOf } from './ownLake.ts';
import type { Markup } from './page.ts';

const SCRIPT = { 'content-type': 'text/javascript; charset=utf-8' };

export function outingPages(deps: WebDeps): Hono {
  const app = new Hono();
  const context = () => ({ nowMs: deps.now(), secret: deps.secret });
  const page = (c: Context, title: string, body: Markup, status: 200 | 400 = 200) =>
    showPrivate(c, { title, body, outing: allWordsOf(c).outingPage.script }, status);

  const form = (
    c: Context,
    of: { readonly lake: LakeConfig; readonly token: string; readonly fields: OutingFields },
    complaints: readonly string[] = [],
    asks = false,
  ) => {
    const { lake, token, fields } = of;
    const words = allWordsOf(c);
    const w = words.outingPage;
    const names = namesIn(words, deps.rules);
    const body = html`
      ${
        complaints.length === 0
          ? ''
          : html`<div class="warning" role="alert">
              <p>${asks ? w.isRight : w.notKept}</p>
              <ul>
                ${complaints.map((one) => html`<li>${one}</li>`)}
              </ul>
            </div>`
      }
      ${outingForm(fields, { lake, token, today: localDateAt(deps.now(), lake.zone), made: deps.now(), names, asks, words: w.form })}
      <p class="note">${filled(w.private, html`<em>${words.web.settings.title}</em>`)}</p>
    `;
    return page(c, w.title(lake.name), body, complaints.length === 0 ? 200 : 400);
  };

  const refused = (c: Context, error: unknown) => {
    if (!(error instanceof ThawlineError) || error.code !== 'usage') throw error;
    const words = allWordsOf(c);
    const said = refusalWords(error, words);
    return page(c, words.outingPage.refused, html`<p class="warning" role="alert">${said}</p>`, 400);
  };

  app.get('/outing.js', (c) => c.body(OUTING_SCRIPT, 200, SCRIPT));
  app.get('/outing-worker.js', (c) => c.body(OUTING_WORKER, 200, SCRIPT));

  app.get(PATHS.outing, async (c) => {
    const token = c.req.query('t') ?? '';
    const found = await peekLink(deps.record, token, 'outing', context());
    if (!found.ok) return showProblem(c, found.problem);
    const reader = found.value;
    speakTo(c, reader);
    try {
      const lake = lakeOfReader(deps, c.req.query('lake') ?? reader.lakes[0] ?? '', reader);
      const [last] = (await outingsOf(deps.record, { readerId: reader.id })).slice(-1);
      const today = localDateAt(deps.now(), lake.zone);
      const fields = emptyFields(reader.units, today, last?.shared ?? false);
      return await form(c, { lake, token, fields });
    } catch (error) {
      return refused(c, error);
    }
  });

  app.post(PATHS.outing, async (c) => {
    const data = await c.req.formData();
    const token = field(data, 't');
    const found = await peekLink(deps.record, token, 'outing', context());
    if (!found.ok) return showProblem(c, found.problem);
    const reader = found.value;
    const words = allWordsTo(c, reader);
    const w = words.outingPage;
    let lake: LakeConfig;
    try {
      lake = lakeOfReader(deps, field(data, 'lake'), reader);
    } catch (error) {
      return refused(c, error);
    }
    const nowMs = deps.now();
    const fields = readFields(data);
    const again = { lake, token, fields };
    const read = readOuting(fields.written, { lake, readerId: reader.id, nowMs });
    if (!('outing' in read)) return form(c, again, read.problems.map(words.outingProblem));
    const questions = fields.sure || read.reading === undefined ? [] : await questionsOf(deps, read.reading);
    if (questions.length > 0) {
      const asked = questions.map((one) => saidQuestion(one, fields.units, words));
      return form(c, again, asked, true);
    }
    try {
      await takeOutings(deps.record, lake, reader, [read], nowMs);
    } catch (error) {
      if (!(error instanceof ThawlineError) || error.code !== 'usage') throw error;
      return form(c, again, [refusalWords(error, words)]);
    }
    const { outing, reading } = read;
    const more = `${PATHS.outing}?t=${encodeURIComponent(token)}&lake=${encodeURIComponent(lake.id)}`;
    return page(
      c,
      w.kept,
      html`<p role="status" data-outing-kept>
          ${w.keptLine(outing.date, outing.hours.toFixed(1), outing.fish, outing.shared, reading !== undefined)}
        </p>
        <p><a href="${more}">${w.another}</a></p>`,
    );
  });
  return app;
}
