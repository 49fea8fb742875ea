/** Every rule with what it rests on: sentence, weight, kind of evidence, source; and the credits of what was measured. */
import { Hono } from 'hono';
import { html } from 'hono/html';
import { agreement, type FishVerdict, type RuleBook, type RuleText } from '../config/index.ts';
import { outingReport } from '../schedule/outings/index.ts';
import { expandQuantities } from '../units/index.ts';
import { kindsOfRules } from '../verification/index.ts';
import { GRADES, SPECIES, type Grade, type Species } from '../vocabulary/index.ts';
import { outingParts, placeNamed, type Words } from '../words/index.ts';
import { show, unitsOf } from './answers.ts';
import type { WebDeps } from './deps.ts';
import { filled } from './filled.ts';
import { allWordsOf } from './language.ts';
import { namesIn } from './names.ts';
import type { Markup } from './page.ts';

type EvidenceWords = Words['evidence'];
type Rule = Pick<Row, 'id' | 'sentence' | 'grade' | 'source'>;

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

function rowsOf(rules: RuleBook, text: RuleText): Row[] {
  const row = (spokenAs: string, points: Readonly<Record<string, number | undefined>>, rule: Rule): Row => ({
    id: rule.id,
    spokenAs,
    sentence: text[spokenAs] ?? rule.sentence,
    weights: Object.entries(points)
      .flatMap(([place, value]) =>
        value === undefined ? [] : [`${placeNamed(text, place)} ${signed(value)}`],
      )
      .join(', '),
    grade: rule.grade,
    source: rule.source,
  });
  const modifiers = rules.positions.modifiers.map((rule) => row(rule.id, rule.points, rule));
  const bases = rules.positions.places.flatMap(({ id, base }) =>
    Object.entries(base).map(([phase, cell]) =>
      row(`base.${id}.${phase}`, { [id]: cell.points }, { ...cell, id: `${id}.${phase}` }),
    ),
  );
  return [...modifiers, ...bases];
}

/** A ratio is shown up to here. */
const MOST_TIMES = 99;

/** One rule beside the fish: how many sites it spoke of, whether they agree, how much, and the total without it. */
function verdictOf(
  { species, n, ratio, low, high, without }: FishVerdict,
  whole: Partial<Record<Species, number>>,
  w: EvidenceWords,
): string {
  const all = whole[species];
  return w.verdict({
    species,
    n,
    says: agreement({ low, high }),
    ratio: ratio >= MOST_TIMES ? w.timesOrMore(MOST_TIMES) : w.times(ratio.toFixed(2)),
    low: low.toFixed(2),
    high: high >= MOST_TIMES ? w.orMore(MOST_TIMES) : high.toFixed(2),
    order: all === undefined ? null : { without: without.toFixed(3), whole: all.toFixed(3) },
  });
}

/** What readers of each lake told, where there is enough of it to be said; of the others nothing. */
async function toldOf(deps: WebDeps, words: Words): Promise<Markup[]> {
  const names = namesIn(words, deps.rules);
  const told: Markup[] = [];
  for (const lake of deps.config.lakes) {
    const report = await outingReport(deps.record, lake.id, { asOfMs: deps.now() });
    if (!report.enough) continue;
    const parts = outingParts(report, 'shared', words, names);
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

/** What fish say of each rule by its id, a line a species. */
function verdictsBy({ fish, positions }: RuleBook, w: EvidenceWords): Map<string, string[]> {
  const learned = new Set(positions.modifiers.flatMap(({ id, grade }) => (grade === 'measured' ? [id] : [])));
  const lines = new Map<string, string[]>();
  for (const verdict of fish?.verdicts ?? []) {
    const whole = learned.has(verdict.rule) ? fish?.whole : (fish?.trade ?? fish?.whole);
    lines.set(verdict.rule, [...(lines.get(verdict.rule) ?? []), verdictOf(verdict, whole ?? {}, w)]);
  }
  return lines;
}

/** What fish say of the rules as a whole; '' where they were not asked. */
function fishPart({ fish, positions: { counted } }: RuleBook, w: EvidenceWords): Markup | string {
  if (fish === undefined) return '';
  const saying = (wanted: ReturnType<typeof agreement>): number =>
    fish.verdicts.filter((verdict) => agreement(verdict) === wanted).length;
  const shares = SPECIES.flatMap((of) => {
    const share = fish.unseen[of];
    return share === undefined ? [] : [w.share({ percent: (100 * share).toFixed(1), of })];
  });
  const contradicted = [...new Set(counted.flatMap((one) => one.contradicted))];
  const [first] = counted;
  return html`<p>
    ${w.fish(fish.events, saying('agrees'), saying('open'), saying('against'), shares.join(w.shareJoint))}
    ${filled(w.learned, html`<code>survey</code>`)}
    ${
      first === undefined
        ? ''
        : filled(
            (rules = '') => w.givesWay(Math.round(100 * first.keep), rules),
            html`${contradicted.map((rule, i) => html`${i > 0 ? ', ' : ''}<code>${rule}</code>`)}`,
          )
    }
  </p>`;
}

export function evidencePages(deps: WebDeps): Hono {
  const app = new Hono();
  const { rules } = deps;
  const { hazards } = kindsOfRules(rules);
  app.get('/evidence', async (c) => {
    const words = allWordsOf(c);
    const w = words.evidence;
    const told = await toldOf(deps, words);
    const rows = rowsOf(rules, words.ofRules(rules.texts));
    const verdicts = verdictsBy(rules, w);
    const units = unitsOf(c);
    const part = (grade: Grade): Markup | string => {
      const own = rows.filter((row) => row.grade === grade);
      if (own.length === 0) return '';
      return html`<h2 id="${grade}">${w.kindCount(w.kind[grade], own.length)}</h2>
        <ul class="plain">
          ${own.map(
            ({ id, spokenAs, sentence, weights, source }) =>
              html`<li>
                ${expandQuantities(sentence, units, words.page.joint)}<br />
                <span class="note"><code>${id}</code>: ${weights}. <cite lang="en">${source}</cite></span
                >${(verdicts.get(spokenAs) ?? []).map(
                  (line) => html`<br /><span class="note">${line}</span>`,
                )}
              </li>`,
          )}
        </ul>`;
    };
    return show(c, {
      title: w.title,
      body: html`
        <p>${w.intro(rows.length)}</p>
        <ul>
          ${GRADES.filter((grade) => rows.some((row) => row.grade === grade)).map(
            (grade) =>
              html`<li>
                <a href="#${grade}">${w.kind[grade]}</a>: ${rows.filter((row) => row.grade === grade).length}
              </li>`,
          )}
        </ul>
        <p>
          ${filled(
            (file = '') => w.beside(hazards.ours, hazards.ours + hazards.published, file),
            html`<code>config/rules/safety.yaml</code>`,
          )}
        </p>
        ${fishPart(rules, w)} ${GRADES.map(part)} ${told}
        <h2>${w.sources}</h2>
        <dl>
          ${Object.entries(rules.positions.sources).map(
            ([id, source]) =>
              html`<dt>${id}</dt>
                <dd lang="en">${source}</dd>`,
          )}
        </dl>
        <p class="note" lang="en">${w.credit}</p>
      `,
    });
  });
  return app;
}
