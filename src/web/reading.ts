/** One field behind the signed link of the mail: what the thermometer says now. A GET shows nothing and keeps nothing. */
import { Hono, type Context } from 'hono';
import { html } from 'hono/html';
import type { LakeConfig } from '../config/index.ts';
import { PATHS, peekLink, type Reader } from '../delivery/index.ts';
import { parseWater, readerPrefix, type Reading } from '../record/index.ts';
import { formatQuantity, ThawlineError } from '../units/index.ts';
import { MAIN_LAKE } from '../vocabulary/index.ts';
import { clock, refusalWords, saidQuestion, type Words } from '../words/index.ts';
import { showPrivate, showProblem } from './answers.ts';
import type { WebDeps } from './deps.ts';
import { field } from './forms.ts';
import { allWordsOf, allWordsTo } from './language.ts';
import { lakeOfReader, questionsOf } from './ownLake.ts';
import type { Markup } from './page.ts';

const BACK = `${PATHS.reading}/back`;
/** A thermometer in the hand, about 3 ft down. */
const USUAL = { depthM: 0.9, sdC: 0.5 };
/** For as long a reading can be taken back on its own page, ms. */
const BACK_MS = 86_400_000;

interface Asked {
  readonly words: Words;
  readonly lake: LakeConfig;
  readonly reader: Reader;
  readonly token: string;
}

const readingId = (reader: Reader, atMs: number): string => `${readerPrefix(reader.id)}${atMs.toString(36)}`;

/** A bare number is in the reader's own unit. */
const withUnit = (text: string, { units }: Reader): string =>
  /^[+-]?\d+(?:[.,]\d+)?$/.test(text.trim())
    ? `${text.trim().replace(',', '.')} ${units === 'us' ? 'F' : 'C'}`
    : text;

const formOf = (
  { lake, reader, token, words: { readingPage: w } }: Asked,
  given: string,
  asks: boolean,
): Markup => html`
  <form method="post" action="${PATHS.reading}">
    <input type="hidden" name="t" value="${token}" />
    <input type="hidden" name="lake" value="${lake.id}" />
    <label
      >${w.label}
      <input
        type="text"
        name="water"
        value="${given}"
        inputmode="decimal"
        autocomplete="off"
        placeholder="${reader.units === 'us' ? '52' : '11'} ${reader.units === 'us' ? '°F' : '°C'}"
      />
    </label>
    ${asks ? html`<label class="inline"><input type="checkbox" name="sure" value="yes" /> ${w.isRight}</label>` : ''}
    <p><button>${w.keep}</button></p>
  </form>
  <p class="note">${w.note}</p>
`;

/** The pages of one reading. */
export function readingPages(deps: WebDeps): Hono {
  const app = new Hono();
  const page = (c: Context, title: string, body: Markup, status: 200 | 400 = 200) =>
    showPrivate(c, { title, body }, status);

  /** Whose link it is and for which lake, or the answer that refuses it. */
  const asked = async (c: Context, token: string, lakeId: string): Promise<Asked | Response> => {
    const found = await peekLink(deps.record, token, 'outing', { nowMs: deps.now(), secret: deps.secret });
    if (!found.ok) return showProblem(c, found.problem);
    const reader = found.value;
    const words = allWordsTo(c, reader);
    try {
      return { words, lake: lakeOfReader(deps, lakeId || (reader.lakes[0] ?? ''), reader), reader, token };
    } catch (error) {
      return refused(c, error);
    }
  };

  const refused = (c: Context, error: unknown) => {
    if (!(error instanceof ThawlineError) || error.code !== 'usage') throw error;
    const words = allWordsOf(c);
    const said = refusalWords(error, words);
    return page(c, words.outingPage.refused, html`<p class="warning" role="alert">${said}</p>`, 400);
  };

  const again = (c: Context, of: Asked, given: string, complaints: readonly string[], asks: boolean) =>
    page(
      c,
      of.words.readingPage.title(of.lake.name),
      html`<div class="warning" role="alert">
          <p>${asks ? of.words.outingPage.isRight : of.words.outingPage.notKept}</p>
          <ul>
            ${complaints.map((one) => html`<li>${one}</li>`)}
          </ul>
        </div>
        ${formOf(of, given, asks)}`,
      400,
    );

  app.get(PATHS.reading, async (c) => {
    const of = await asked(c, c.req.query('t') ?? '', c.req.query('lake') ?? '');
    return of instanceof Response
      ? of
      : page(c, of.words.readingPage.title(of.lake.name), formOf(of, '', false));
  });

  app.post(PATHS.reading, async (c) => {
    const data = await c.req.formData();
    const of = await asked(c, field(data, 't'), field(data, 'lake'));
    if (of instanceof Response) return of;
    const { lake, reader, token, words } = of;
    const w = words.readingPage;
    const given = field(data, 'water');
    const nowMs = deps.now();
    let written;
    try {
      written = parseWater(withUnit(given, reader));
    } catch (error) {
      if (!(error instanceof ThawlineError) || error.code !== 'usage') throw error;
      return again(c, of, given, [w.notTemperature(given)], false);
    }
    const reading: Reading = {
      id: readingId(reader, nowMs),
      lake: lake.id,
      atMs: nowMs,
      waterC: written.waterC,
      ...USUAL,
      where: MAIN_LAKE,
    };
    const questions = field(data, 'sure') === 'yes' ? [] : await questionsOf(deps, reading, written);
    if (questions.length > 0) {
      const asks = questions.map((one) => saidQuestion(one, reader.units, words));
      return again(c, of, given, asks, true);
    }
    await deps.record.putReading(reading, nowMs);
    return page(
      c,
      words.outingPage.kept,
      html`<p role="status">
          ${w.kept(formatQuantity(written.waterC, 'temperature', reader.units), clock(nowMs, lake.zone))}
        </p>
        <form method="post" action="${BACK}">
          <input type="hidden" name="t" value="${token}" />
          <input type="hidden" name="lake" value="${lake.id}" />
          <input type="hidden" name="at" value="${nowMs.toString(36)}" />
          <p><button class="quiet">${w.back}</button></p>
        </form>
        <p>
          <a href="${PATHS.outing}?t=${encodeURIComponent(token)}&amp;lake=${encodeURIComponent(lake.id)}"
            >${w.outing}</a
          >
        </p>`,
    );
  });

  app.post(BACK, async (c) => {
    const data = await c.req.formData();
    const of = await asked(c, field(data, 't'), field(data, 'lake'));
    if (of instanceof Response) return of;
    const atMs = Number.parseInt(field(data, 'at'), 36);
    const fresh = Number.isSafeInteger(atMs) && Math.abs(deps.now() - atMs) <= BACK_MS;
    const gone = fresh && (await deps.record.removeReading(readingId(of.reader, atMs)));
    const { title, body } = gone ? of.words.readingPage.gone : of.words.readingPage.nothing;
    return page(c, title, html`<p role="status">${body}</p>`);
  });
  return app;
}
