/** Every rule with what it rests on: sentence, weight, kind of evidence, source; and the credits of what was measured. */
import { Hono } from 'hono';
import { html } from 'hono/html';
import type { RuleBook } from '../config/rules.ts';
import { agreement, type FishVerdict } from '../config/rulesFish.ts';
import { outingReport } from '../schedule/outings/report.ts';
import { expandQuantities } from '../units/index.ts';
import { kindsOfRules } from '../verification/index.ts';
import { GRADES, type Grade, type Species } from '../vocabulary/index.ts';
import { outingParts, wordsFor } from '../words/index.ts';
import { show, unitsOf } from './answers.ts';
import type { WebDeps } from './deps.ts';
import type { Markup } from './page.ts';

const KIND: Readonly<Record<Grade, string>> = {
  measured: 'measured elsewhere',
  'published-direct': 'published',
  'published-indirect': 'published, of something near it',
  mixed: 'published evidence on both sides',
  'common-practice': 'common practice, no source',
};
const SAYS: Readonly<Record<ReturnType<typeof agreement>, string>> = {
  agrees: 'fish agree',
  against: 'fish contradict it',
  open: 'fish leave it open',
};
interface Row {
  readonly id: string;
  /** Its id where the contributions of a day are listed. */
  readonly spokenAs: string;
  readonly sentence: string;
  readonly weights: string;
  readonly grade: Grade;
  readonly source: string;
}

const signed = (points: number): string => `${points > 0 ? '+' : ''}${points}`;

function rowsOf(rules: RuleBook): Row[] {
  const named = (place: string): string => rules.text[`place.${place}.name`] ?? place;
  const modifiers = rules.positions.modifiers.map(({ id, sentence, points, grade, source }): Row => ({
    id,
    spokenAs: id,
    sentence,
    weights: Object.entries(points)
      .map(([place, value]) => `${named(place)} ${signed(value)}`)
      .join(', '),
    grade,
    source,
  }));
  const bases = rules.positions.places.flatMap(({ id, base }) =>
    Object.entries(base).map(([phase, cell]): Row => ({
      id: `${id}.${phase}`,
      spokenAs: `base.${id}.${phase}`,
      sentence: cell.sentence,
      weights: `${named(id)} ${signed(cell.points)}`,
      grade: cell.grade,
      source: cell.source,
    })),
  );
  return [...modifiers, ...bases];
}

const times = (ratio: number): string => (ratio >= 99 ? '99 times or more' : `${ratio.toFixed(2)} times`);

/** One rule beside the fish: how many sites it spoke of, whether they agree, how much, and the total without it. */
function verdictOf(
  { species, n, ratio, low, high, without }: FishVerdict,
  whole: Partial<Record<Species, number>>,
): string {
  const all = whole[species];
  const total =
    all === undefined ? '' : `; pairs in order without it ${without.toFixed(3)}, with it ${all.toFixed(3)}`;
  const size = `a point goes with ${times(ratio)} the catch (${low.toFixed(2)} to ${high >= 99 ? '99 or more' : high.toFixed(2)})`;
  return `${species}, n = ${n}: ${SAYS[agreement({ low, high })]}, ${size}${total}.`;
}

/** What readers of each lake told, where there is enough of it to be said; of the others nothing. */
async function toldOf(deps: WebDeps): Promise<Markup[]> {
  const { text } = deps.rules;
  const told: Markup[] = [];
  for (const lake of deps.config.lakes) {
    const report = await outingReport(deps.record, lake.id, { asOfMs: deps.now() });
    if (!report.enough) continue;
    const parts = outingParts(report, 'shared', wordsFor('en'), (kind) => text[`place.${kind}.name`] ?? kind);
    told.push(
      html`<h2 id="outings-${lake.id}">${lake.name}</h2>
        ${parts.map(
          ({ heading, lines }) =>
            html`<h3>${heading}</h3>
              <ul>
                ${lines.map((line) => html`<li>${line}</li>`)}
              </ul>`,
        )}`,
    );
  }
  return told;
}

export function evidencePages(deps: WebDeps): Hono {
  const app = new Hono();
  const { sources } = deps.rules.positions;
  const { fish } = deps.rules;
  const learned = new Set(
    deps.rules.positions.modifiers.flatMap(({ id, grade }) => (grade === 'measured' ? [id] : [])),
  );
  const verdicts = new Map<string, string[]>();
  for (const verdict of fish?.verdicts ?? [])
    verdicts.set(verdict.rule, [
      ...(verdicts.get(verdict.rule) ?? []),
      verdictOf(verdict, (learned.has(verdict.rule) ? fish?.whole : (fish?.trade ?? fish?.whole)) ?? {}),
    ]);
  const saying = (wanted: ReturnType<typeof agreement>): number =>
    (fish?.verdicts ?? []).filter((verdict) => agreement(verdict) === wanted).length;
  const { counted } = deps.rules.positions;
  const contradicted = [...new Set(counted.flatMap((one) => one.contradicted))];
  const givesWay =
    counted.length === 0
      ? ''
      : html`Where fish were counted, ${Math.round(100 * (counted[0]?.keep ?? 1))} % of what those others say
        of a counted kind of place is left, and nothing of
        ${contradicted.map((rule, i) => html`${i > 0 ? ', ' : ''}<code>${rule}</code>`)}, which fish
        contradict there.`;
  const { hazards } = kindsOfRules(deps.rules);
  app.get('/evidence', async (c) => {
    const told = await toldOf(deps);
    const rows = rowsOf(deps.rules);
    const units = unitsOf(c);
    const part = (grade: Grade): Markup | string => {
      const own = rows.filter((row) => row.grade === grade);
      if (own.length === 0) return '';
      return html`<h2 id="${grade}">${KIND[grade]} (${own.length})</h2>
        <ul class="plain">
          ${own.map(
            ({ id, spokenAs, sentence, weights, source }) =>
              html`<li>
                ${expandQuantities(sentence, units)}<br />
                <span class="note"><code>${id}</code>: ${weights}. ${source}</span>${(
                  verdicts.get(spokenAs) ?? []
                ).map((line) => html`<br /><span class="note">${line}</span>`)}
              </li>`,
          )}
        </ul>`;
    };
    return show(c, {
      title: 'What each rule rests on',
      body: html`
        <p>
          Places are ranked by ${rows.length} rules. Each has a sentence, a weight in points and a kind of
          evidence; a total ranks places and is no chance of a catch. How well the totals do where fish were
          counted stands in README, good or bad.
        </p>
        <ul>
          ${GRADES.filter((grade) => rows.some((row) => row.grade === grade)).map(
            (grade) =>
              html`<li>
                <a href="#${grade}">${KIND[grade]}</a>: ${rows.filter((row) => row.grade === grade).length}
              </li>`,
          )}
        </ul>
        <p>
          Beside these stand what was measured here, on your own lake (“How we have done” in its briefings,
          with the number of mornings), and what is ours: ${hazards.ours} of
          ${hazards.ours + hazards.published} hazards have thresholds chosen for this program, printed in
          <code>config/rules/safety.yaml</code>.
        </p>
        ${
          fish === undefined
            ? ''
            : html`<p>
                Where fish were sampled at random (${fish.events} sites of river pools, June to October), each
                rule that spoke at 30 sites or more was set beside the catch: ${saying('agrees')} times fish
                agree, ${saying('open')} times they leave it open, ${saying('against')} times they contradict.
                Of two sites, the one scored higher held more bass in
                ${Object.entries(fish.unseen)
                  .map(([species, share]) => `${(100 * share).toFixed(1)} % (${species})`)
                  .join(' and ')}
                of pairs in years left out; one half is chance. Rules named <code>survey</code> are shown
                beside the years they were learned from; the others as they would rank alone. ${givesWay}
              </p>`
        }
        ${GRADES.map(part)} ${told}
        <h2>Sources</h2>
        <dl>
          ${Object.entries(sources).map(
            ([id, words]) =>
              html`<dt>${id}</dt>
                <dd>${words}</dd>`,
          )}
        </dl>
        <p class="note">
          Catches: these data are a product of the U.S. Army Corps of Engineers’ Upper Mississippi River
          Restoration Program (UMRR) Long Term Resource Monitoring (LTRM) element, implemented by the U.S.
          Geological Survey in collaboration with the five Upper Mississippi River System states of Illinois,
          Iowa, Minnesota, Missouri and Wisconsin. Provided without warranty; processed here, errors are ours.
        </p>
      `,
    });
  });
  return app;
}
