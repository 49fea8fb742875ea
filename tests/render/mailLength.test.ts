/**
 * A mail is read at breakfast. Counted is every kept morning as it arrives, with a reader's links, as page and as text;
 * the short form too. The longest allowed are our choice; common practice, no source.
 */
import { describe, expect, it } from 'vitest';
import { personalise } from '../../src/delivery/index.ts';
import { inUnits, MAIL_WORDS, renderBriefing, SHORT_WORDS } from '../../src/render/index.ts';
import { countWords, textsOf } from '../helpers/mailWords.ts';
import { morningNamed, mornings } from '../helpers/mornings.ts';
import { renderedMorning } from '../helpers/renderedMorning.ts';

const FRONT_WORDS = 110;

const links = {
  settings: 'https://briefing.example/settings?t=s',
  leave: 'https://briefing.example/leave?t=l',
  subscribe: 'https://briefing.example/subscribe',
  archive: 'https://briefing.example/briefings/quarry-bend',
  whole: 'https://briefing.example/briefings/quarry-bend/2026-03-06/morning',
  outing: 'https://briefing.example/outing?t=o',
  reading: 'https://briefing.example/reading?t=r',
};

/** The longest official statement that the archive holds of a day may be longer than a mail. */
const STATEMENT = 'Moderate flooding is occurring and is forecast to go on. '.repeat(90).trim();

describe.each(mornings())('the mail of $name', (morning) => {
  const mail = async () => personalise(await renderedMorning(morning), links);
  const whole = () => renderedMorning(morning, { detail: 'web' });

  it('shows at most 700 words, as a page and as text, and 250 in the short form', async () => {
    const { html, text, short } = await mail();
    expect(countWords(textsOf(html).visible)).toBeLessThanOrEqual(MAIL_WORDS);
    expect(countWords(text)).toBeLessThanOrEqual(MAIL_WORDS);
    expect(countWords(short)).toBeLessThanOrEqual(SHORT_WORDS);
  });

  it('says its front in at most 110 of them', async () => {
    const { html } = await renderedMorning(morning);
    const end = html.indexOf('<h2', html.indexOf('<h2') + 1);
    const marks = morning.document.marks.reduce((sum, mark) => sum + countWords(mark), 0);
    // The heading of the plan and a mark that it is a demonstration are no part of what the front says.
    const heading = countWords('The day');
    expect(countWords(textsOf(html.slice(0, end)).visible) - marks - heading).toBeLessThanOrEqual(
      FRONT_WORDS,
    );
  });

  it('leaves no danger and nothing of the plan to its page', async () => {
    const { text } = await renderedMorning(morning);
    const flat = text.replace(/[\s\u00a0]+/g, ' ');
    for (const { label = '', headline } of morning.document.safety.hazards)
      expect(flat).toContain(label === 'OFFICIAL' ? headline : label);
    // Offline too: where, when, lure and weight on the front, then boat, cast, line, depth and retrieve of every block.
    for (const { title, from, cast } of inUnits(morning.document, morning.units).plan?.blocks ?? []) {
      expect(flat).toContain(title);
      expect(flat).toContain(from.replace(/ [ap]m$/, ''));
      for (const [i, kind] of (cast.stepKinds ?? []).entries())
        if (['boat', 'tie', 'sink', 'work', 'layer'].includes(kind))
          for (const sentence of (cast.steps[i] ?? '').split(/(?<=[.!?]) /))
            expect(flat).toContain(sentence.replace(/\.$/, ''));
    }
  });

  it('leaves nothing out that its page has not', async () => {
    const page = await whole();
    expect(countWords(page.text)).toBeGreaterThan(countWords((await renderedMorning(morning)).text));
    for (const { url } of morning.document.sources) if (url !== '') expect(page.html).toContain(url);
  });
});

describe('a long day', () => {
  const { facts } = morningNamed('level-4-flood');
  const [flood, ...others] = facts.safety.hazards;

  it('keeps an official statement word for word, however long', async () => {
    if (flood?.official === undefined) throw new Error('the morning has no official statement');
    const long = {
      ...facts,
      safety: {
        ...facts.safety,
        hazards: [{ ...flood, official: { ...flood.official, text: STATEMENT } }, ...others],
      },
    };
    const { text } = await renderBriefing(long, { units: 'us', form: 'full', pictures: false });
    expect(text.replace(/\s+\|?\s*/g, ' ')).toContain(STATEMENT);
    // The rest has made room as far as it can.
    expect(text).not.toContain('DAYS AHEAD');
    expect(text).toContain('STRONG FLOW');
  });

  it('keeps the hours of a release, however many words of wind stand around them', async () => {
    const { facts: day } = morningNamed('gauge-down');
    const ofLake = (told: object) => ({ code: 'lake.today', told });
    const wind = ofLake({ code: 'windOn', on: ['Mill Hollow'], fromHour: 9, toHour: 18, side: 0, out: [] });
    const spans = [{ fromHour: 13, toHour: 16, flowM3s: 300, units: null }];
    const release = ofLake({ code: 'releaseTold', toldOn: '2026-03-06', spans });
    const below = { ...day, lakeWaves: wind, lakeToday: [release, wind, wind] };
    const { text } = await renderBriefing(below, { units: 'us', form: 'full', pictures: false });
    expect(text.replace(/\s+/g, ' ')).toContain(
      'Hours change without notice: horns, lights and rising water',
    );
    expect(countWords(text)).toBeLessThanOrEqual(MAIL_WORDS);
  });
});
