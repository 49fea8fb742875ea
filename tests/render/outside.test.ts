/** Text that others wrote, on its whole way to the page: shown as written, never read as ours, never without end. */
import { describe, expect, it } from 'vitest';
import { officialHazards } from '../../src/advice/safety/official.ts';
import { loadRules } from '../../src/config/rules.ts';
import { renderBriefing } from '../../src/render/index.ts';
import { sampleBriefing } from '../helpers/sampleBriefing.ts';
import { sampleAdvice, SAMPLE_ISSUED_MS, sampleLake } from '../helpers/sampleReport.ts';
import { saySafety } from '../../src/words/index.ts';
import { expandQuantities, inert, outsideLine, outsideText } from '../../src/units/index.ts';

const book = loadRules();
/** Official statements as the page is given them. */
const officialInWords = (...alerts: Parameters<typeof officialHazards>[0]) =>
  saySafety(
    {
      level: 1,
      hazards: officialHazards(alerts, SAMPLE_ISSUED_MS, 'America/Chicago', book.safety.official),
      notChecked: [],
    },
    book.text,
  ).hazards;

function statement(change: Partial<Parameters<typeof officialHazards>[0][number]>) {
  return {
    issuer: 'River forecast office',
    event: 'Flood Warning',
    severity: 'Severe',
    headline: 'Flood Warning until noon',
    description: 'The river is rising.',
    instruction: 'Keep off the water.',
    endsMs: SAMPLE_ISSUED_MS + 3_600_000,
    expiresMs: null,
    url: 'https://office.example/statement/1',
    ...change,
  };
}

async function pageWith(change: Parameters<typeof statement>[0], lake = sampleLake()) {
  const advice = sampleAdvice();
  const hazards = officialInWords(statement(change));
  const level = hazards[0]?.level ?? 1;
  return renderBriefing(
    sampleBriefing({ lake, advice: { ...advice, safety: { ...advice.safety, level, hazards } } }),
    { units: 'us', form: 'full', pictures: false },
  );
}

it('a lake whose name, arm and points hold braces has its page, each as it was written', async () => {
  const lake = { ...sampleLake(), name: 'Lake {{x}}', arm: 'Arm {{temperature:5}} {' };
  for (const detail of ['mail', 'web'] as const) {
    const { text, html, subject } = await renderBriefing(sampleBriefing({ lake }), {
      ...{ units: 'us', form: 'full', pictures: false, detail },
    });
    for (const [part, name] of [
      [text, 'LAKE {{X}}'],
      [html, 'Lake {{x}}'],
      [html, 'Arm {{temperature:5}} {'],
      [subject, 'Lake {{x}}'],
    ] as const)
      expect(part).toContain(name);
  }
});

describe('an official statement', () => {
  it.each(['event', 'headline', 'instruction', 'description', 'issuer'] as const)(
    'goes out with braces in its %s, printed as they were written',
    async (field) => {
      const page = await pageWith({ [field]: 'Use {{temperature:5}} or {{ {nothing}} here' });
      expect(page.text.replace(/\s*\|?\s+/g, ' ')).toContain('Use {{temperature:5}} or {{ {nothing}} here');
      expect(page.html).toContain('{{temperature:5}} or {{ {nothing}}');
    },
  );

  it('loses its control characters and the marks that turn text around', async () => {
    const nasty = 'Flood\u0007 \u202Egninraw\u202C\u2066!\u0000';
    const page = await pageWith({
      event: nasty,
      headline: nasty,
      instruction: nasty,
      description: nasty,
      issuer: nasty,
    });
    expect(page.subject + page.html + page.text + page.short).not.toMatch(
      // eslint-disable-next-line no-control-regex -- control characters are what is looked for
      /[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069]/,
    );
    expect(page.text).toContain('Flood gninraw!');
  });

  it('of a megabyte is cut, and its address given', async () => {
    const long = 'Water is rising. '.repeat(60_000);
    const page = await pageWith({ description: long, instruction: long, headline: long, event: long });
    expect(page.html.length).toBeLessThan(80_000);
    expect(page.text).toContain('Full text at https://office.example/statement/1');
    expect(page.subject.length).toBeLessThan(250);
  });

  it('that was cut without an address sends to its issuer', async () => {
    const advice = sampleAdvice();
    const alert = statement({ description: 'x '.repeat(9000) });
    const { url: _, ...bare } = alert;
    const hazards = officialInWords(bare);
    const page = await renderBriefing(
      sampleBriefing({ advice: { ...advice, safety: { ...advice.safety, hazards } } }),
      { units: 'us', form: 'full', pictures: false },
    );
    expect(page.text).toContain('The statement is longer: read all of it at its issuer.');
  });
});

describe('the name of a lake', () => {
  it('may hold braces', async () => {
    const page = await pageWith({}, { ...sampleLake(), name: 'Mill {{depth:3}} Pond' });
    expect(page.subject).toContain('Mill {{depth:3}} Pond');
  });
});

describe('text of others', () => {
  it('stands in a sentence as it was written', () => {
    for (const text of ['{{', '}}', '{', '{{depth:1}}', '{{{{brace}}}}', 'a{'])
      expect(expandQuantities(`${inert(text)}{{depth:3}}`, 'metric')).toBe(`${text}3.0 m`);
  });

  it('is cut between characters, and says so', () => {
    expect(outsideText('ab😀cd', 3)).toEqual({ text: 'ab', cut: true });
    expect(outsideText('ab😀cd', 4)).toEqual({ text: 'ab😀', cut: true });
    expect(outsideText('one\r\ntwo\rthree\u2028four', 100)).toEqual({
      text: 'one\ntwo\nthree\nfour',
      cut: false,
    });
    expect(outsideLine('one\r\n\t two  three', 100)).toBe('one two three');
    expect(outsideLine('one two', 3)).toBe('one...');
  });
});
