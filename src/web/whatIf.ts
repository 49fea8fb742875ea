import { Hono } from 'hono';
import { html } from 'hono/html';
import type { WhatIfForm } from '../advice/whatIf/index.ts';
import { whatIfAnswer, type WhatIfAnswer } from '../schedule/whatIfAnswer.ts';
import { expandQuantities, formatQuantity, type UnitSystem } from '../units/index.ts';
import { whatIfCards, whatIfPlan, type PlanPart } from '../words/index.ts';
import { show } from './answers.ts';
import type { WebDeps } from './deps.ts';
import type { Markup } from './page.ts';
import { conditionsForm, givenFields, whatIfFields } from './whatIfForm.ts';
import { isHourTime } from './whatIfHours.ts';

interface Answer extends WhatIfAnswer {
  readonly parts: readonly PlanPart[];
  readonly cards: ReturnType<typeof whatIfCards>;
}

function answer({ rules, config }: WebDeps, form: WhatIfForm): Answer {
  const given = whatIfAnswer(form, rules, config.tackle);
  return {
    ...given,
    parts: whatIfPlan(given.advice.plan, rules.text),
    cards: whatIfCards(given.advice, rules.text),
  };
}

function resultBody({ advice, understood, parts, cards }: Answer, units: UnitSystem): Markup {
  const say = (sentence: string): string => expandQuantities(sentence, units);
  const { safety, positions } = advice;
  const depth = ([top, bottom]: readonly [number, number]): string =>
    `${formatQuantity(top, 'depth', units)} to ${formatQuantity(bottom, 'depth', units)}`;
  return html`
    <h2>Safety first</h2>
    <p class="${safety.level > 1 ? 'warning' : ''}">Level ${safety.level}: ${safety.levelWords}</p>
    <ul>
      ${safety.hazards.map((h) => html`<li><strong>${say(h.headline)}</strong> ${say(h.what)} ${say(h.doThis)}</li>`)}
    </ul>
    ${
      safety.notChecked.length === 0
        ? ''
        : html`<p class="note">Not checked: ${safety.notChecked.map(say).join(' ')}</p>`
    }
    <p class="note">${say(safety.deferTo)}</p>
    ${
      parts.length === 0
        ? ''
        : html`<h2>The day</h2>
            <ul class="plain">
              ${parts.map(
                ({ head, lines }) =>
                  html`<li>
                    ${lines.length === 0 ? say(head) : html`<strong>${say(head)}</strong>`}
                    ${lines.map((line) => html`<br />${say(line)}`)}
                  </li>`,
              )}
            </ul>`
    }
    <h2>Where</h2>
    <p>${say(advice.phase.because)}</p>
    <ol>
      ${positions.slice(0, 5).map(
        (p) =>
          html`<li>
            <strong>${p.name}</strong>, ${depth(p.depthM)}: ${p.because.map(say).join(' ')}
            <span class="note">Limited by: ${say(p.limitedBy)}</span>
          </li>`,
      )}
    </ol>
    <p>${say(advice.closeWords)} ${advice.swap === null ? '' : say(advice.swap.sentence)}</p>
    <h2>How</h2>
    ${cards.map(
      ({ when, card }) => html`
        <p>
          <strong>${when}${card.lureClass.replaceAll('_', ' ')}</strong> at
          ${card.place.replaceAll('_', ' ')}: ${say(card.because)}
        </p>
        <ul>
          ${card.steps.map((step) => html`<li>${say(step)}</li>`)}
        </ul>
        ${card.misfit === undefined ? '' : html`<p class="warning">${say(card.misfit)}</p>`}
      `,
    )}
    <p>Confidence ${advice.confidence.word}: ${say(advice.confidence.because)}</p>
    <h2>What was understood</h2>
    <ul>
      ${understood.understood.map(({ field, text }) => html`<li>${field}: ${say(text)}</li>`)}
      ${understood.assumptions.map((assumed) => html`<li>Assumed: ${say(assumed)}</li>`)}
    </ul>
  `;
}

const problemBody = (problems: readonly string[]): Markup => html`
  <div class="warning" role="alert">${problems.map((problem) => html`<p>${problem}</p>`)}</div>
`;

/** Advice for conditions that a visitor sets: nothing is stored, and the address holds the question. */
export function whatIfPages(deps: WebDeps): Hono {
  const app = new Hono();
  const result = (given: Record<string, string>): { readonly body: Markup; readonly ok: boolean } => {
    const read = conditionsForm(given);
    if ('problems' in read) return { body: problemBody(read.problems), ok: false };
    const units = given['units'] === 'metric' ? 'metric' : 'us';
    return { body: resultBody(answer(deps, read.form), units), ok: true };
  };
  app.get('/what-if', (c) => {
    const given = givenFields(c.req.query());
    const asked = Object.keys(given).some((name) => name !== 'units' && !isHourTime(name));
    const { body, ok } = asked
      ? result(given)
      : {
          body: html`<p class="note">Fill in what you know; what you leave empty stays unknown.</p>`,
          ok: true,
        };
    const page = html`
      ${whatIfFields(given)}
      <div id="result" aria-live="polite" aria-label="Answer" role="region">${body}</div>
    `;
    return show(c, { title: 'What if', body: page, live: true }, ok ? 200 : 400);
  });
  // A part of the page above, which its script asks for; opened by itself it is that page.
  app.get('/what-if/result', (c) =>
    c.req.header('accept') === 'text/html'
      ? c.html(result(givenFields(c.req.query())).body)
      : c.redirect(`/what-if${new URL(c.req.url).search}`),
  );
  return app;
}
