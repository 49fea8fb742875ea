import { Hono } from 'hono';
import { html } from 'hono/html';
import type { WhatIfForm } from '../advice/whatIf/index.ts';
import { whatIfAnswer, type WhatIfAnswer } from '../schedule/index.ts';
import { expandQuantities, formatQuantity, type UnitSystem } from '../units/index.ts';
import { isKeptInBy, say, whatIfCards, whatIfPlan, type PlanPart, type Words } from '../words/index.ts';
import { show } from './answers.ts';
import type { WebDeps } from './deps.ts';
import { filled } from './filled.ts';
import { allWordsOf } from './language.ts';
import { namesIn, type Names } from './names.ts';
import type { Markup } from './page.ts';
import { conditionsForm, givenFields, whatIfFields } from './whatIfForm.ts';
import { isHourTime } from './whatIfHours.ts';

interface Answer extends WhatIfAnswer {
  readonly parts: readonly PlanPart[];
  readonly cards: ReturnType<typeof whatIfCards>;
}

function answer({ rules, config }: WebDeps, form: WhatIfForm, words: Words): Answer {
  const given = whatIfAnswer(form, rules, config.tackle, true, words);
  const text = words.ofRules(rules.texts);
  return {
    ...given,
    parts: whatIfPlan(given.advice.plan, text, words),
    cards: whatIfCards(given.advice, text, words),
  };
}

interface Told {
  readonly units: UnitSystem;
  readonly words: Words;
  readonly names: Names;
}

function resultBody({ advice, understood, parts, cards }: Answer, { units, words, names }: Told): Markup {
  const { result: w, figure, assumed } = words.whatIf;
  const told = (sentence: string): string => expandQuantities(sentence, units, words.page.joint);
  const { safety } = advice;
  const keptIn = isKeptInBy(advice);
  const open = advice.positions.filter(({ closedBy }) => closedBy === undefined);
  const depth = ([top, bottom]: readonly [number, number]): string =>
    `${formatQuantity(top, 'depth', units)} ${words.page.joint} ${formatQuantity(bottom, 'depth', units)}`;
  const { word, because } = advice.confidence;
  const { form } = words.whatIf;
  const called: Readonly<Record<string, string>> = { ...form.quantity, ...form.choice };
  return html`
    <h2>${w.safety}</h2>
    <p class="${safety.level > 1 ? 'warning' : ''}">${w.level(safety.level, safety.levelWords)}</p>
    <ul>
      ${safety.hazards.map((h) => html`<li><strong>${told(h.headline)}</strong> ${told(h.what)} ${words.page.hazard.when}: ${told(h.when)} ${told(h.doThis)}</li>`)}
    </ul>
    ${
      safety.notChecked.length === 0
        ? ''
        : html`<p class="note">${w.notChecked(safety.notChecked.map(told).join(' '))}</p>`
    }
    <p class="note">${told(safety.deferTo)}</p>
    ${
      parts.length === 0
        ? ''
        : html`<h2>${w.day}</h2>
            <ul class="plain">
              ${parts.map(
                ({ head, lines }) =>
                  html`<li>
                    ${lines.length === 0 ? told(head) : html`<strong>${told(head)}</strong>`}
                    ${lines.map((line) => html`<br />${told(line)}`)}
                  </li>`,
              )}
            </ul>`
    }
    <h2>${w.where}</h2>
    <p>${told(advice.phase.because)}</p>
    ${keptIn ? html`<p>${words.whatIf.leftOutToday}</p>` : ''}
    <ol>
      ${open.slice(0, keptIn ? 0 : 5).map(
        (p) =>
          html`<li>
            ${filled((name = '') => w.place(name, depth(p.depthM), p.because.map(told).join(' ')), html`<strong>${p.name}</strong>`)}
            <span class="note">${w.limitedBy(told(p.limitedBy))}</span>
          </li>`,
      )}
    </ol>
    <p>
      ${keptIn ? '' : told(advice.closeWords)}
      ${keptIn || advice.swap === null ? '' : told(advice.swap.sentence)}
    </p>
    <h2>${w.how}</h2>
    ${cards.map(
      ({ when, card }) => html`
        <p>
          ${filled(
            (lure = '') => w.worked(lure, names.place(card.place), told(card.because)),
            html`<strong>${when}${card.lureClass}</strong>`,
          )}
        </p>
        <ul>
          ${card.steps.map((step) => html`<li>${told(step)}</li>`)}
        </ul>
        ${card.misfit === undefined ? '' : html`<p class="warning">${told(card.misfit)}</p>`}
      `,
    )}
    <p>${w.confidence(w.confidenceOf[word], told(because))}</p>
    <h2>${w.understood}</h2>
    <ul>
      ${understood.understood.map((row) => {
        const { field, text } = figure(row);
        // A field of the form by its name there, one of the file alone as it is written.
        const name = called[field] ?? (row.field === null ? field : html`<code>${field}</code>`);
        return html`<li>${name}: ${told(text)}</li>`;
      })}
      ${understood.assumptions.map((fact) => html`<li>${w.assumed(told(say(assumed, fact)))}</li>`)}
    </ul>
  `;
}

const problemBody = (problems: readonly string[]): Markup => html`
  <div class="warning" role="alert">${problems.map((problem) => html`<p>${problem}</p>`)}</div>
`;

/** Advice for conditions that a visitor sets: nothing is stored, and the address holds the question. */
export function whatIfPages(deps: WebDeps): Hono {
  const app = new Hono();
  const result = (
    given: Record<string, string>,
    words: Words,
  ): { readonly body: Markup; readonly ok: boolean } => {
    const read = conditionsForm(given, words);
    if ('problems' in read) return { body: problemBody(read.problems), ok: false };
    const units = given['units'] === 'metric' ? 'metric' : 'us';
    const names = namesIn(words, deps.rules);
    return { body: resultBody(answer(deps, read.form, words), { units, words, names }), ok: true };
  };
  app.get('/what-if', (c) => {
    const words = allWordsOf(c);
    const w = words.whatIf;
    const given = givenFields(c.req.query());
    const asked = Object.keys(given).some((name) => name !== 'units' && !isHourTime(name));
    const { body, ok } = asked
      ? result(given, words)
      : { body: html`<p class="note">${w.empty}</p>`, ok: true };
    const page = html`
      ${whatIfFields(given, words)}
      <div id="result" aria-live="polite" aria-label="${w.answer}" role="region">${body}</div>
    `;
    return show(c, { title: w.title, body: page, live: w.script }, ok ? 200 : 400);
  });
  // A part of the page above, which its script asks for; opened by itself it is that page.
  app.get('/what-if/result', (c) =>
    c.req.header('accept') === 'text/html'
      ? c.html(result(givenFields(c.req.query()), allWordsOf(c)).body)
      : c.redirect(`/what-if${new URL(c.req.url).search}`),
  );
  return app;
}
