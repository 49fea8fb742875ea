import { describe, expect, it } from 'vitest';
import { personalise } from '../../src/delivery/index.ts';
import { isAllowedLink, PREHEADER_MAX, renderBriefing, SHORT_WORDS } from '../../src/render/index.ts';
import { morningNamed, mornings } from '../helpers/mornings.ts';
import { renderedMorning } from '../helpers/renderedMorning.ts';
import { sampleBriefing } from '../helpers/sampleBriefing.ts';
import { sampleAdvice, sampleLake, sampleReport } from '../helpers/sampleReport.ts';

const full = { units: 'us', form: 'full', pictures: false } as const;
const BUDGET_BYTES = 80_000;

describe.each(mornings())('the page of $name', (morning) => {
  const page = renderedMorning(morning, { pictures: true });

  it('stays below 80 kB', async () => {
    expect(Buffer.byteLength((await page).html)).toBeLessThan(BUDGET_BYTES);
  });

  it('names its language, has one main heading and no skipped level', async () => {
    const { html } = await page;
    expect(html).toMatch(/<html[^>]* lang="en"/);
    const levels = [...html.matchAll(/<h([1-6])/g)].map(([, level]) => Number(level));
    expect(levels.filter((level) => level === 1)).toHaveLength(1);
    levels.reduce((before, level) => {
      expect(level).toBeLessThanOrEqual(before + 1);
      return level;
    }, 0);
  });

  it('gives every picture a sentence and carries it along', async () => {
    const { html, attachments } = await page;
    const images = [...html.matchAll(/<img[^>]*>/g)].map(([tag]) => tag);
    expect(images).toHaveLength(attachments.length);
    for (const tag of images) {
      expect(tag).toMatch(/alt="[A-Z][^"]{40,}\."/);
      expect(attachments.map(({ cid }) => `cid:${cid}`)).toContain(/src="([^"]*)"/.exec(tag)?.[1]);
    }
  });

  it('links only to allowed hosts', async () => {
    for (const [, address] of (await page).html.matchAll(/<a[^>]* href="([^"]*)"/g)) {
      expect(isAllowedLink(address ?? '')).toBe(true);
    }
  });

  it('holds nothing that fetches or runs', async () => {
    expect((await page).html).not.toMatch(/<script|<iframe|<link|src="http|url\(/i);
  });

  it('marks the demonstration in every part', async () => {
    const { subject, preheader, html, text, short, json } = await page;
    for (const part of [subject, preheader]) expect(part).toContain('DEMO');
    for (const part of [html, text, short]) expect(part).toContain('Demonstration of an invented lake');
    expect(JSON.parse(json)).toMatchObject({ page: { demo: true } });
  });

  it('has a short form of at most 250 words, a card of six lines, and a line for the list of mails', async () => {
    const { short, card, preheader } = await page;
    expect(short.split(/\s+/).length).toBeLessThanOrEqual(SHORT_WORDS);
    expect(card.split('\n').length).toBeLessThanOrEqual(6);
    expect(preheader.replace(/^\[[^\]]*\] /, '').length).toBeLessThanOrEqual(PREHEADER_MAX);
  });
});

describe('the cares of a day', () => {
  it('are each told once in a mail, whichever hazards they meet', async () => {
    for (const morning of mornings()) {
      const { text, short } = await renderedMorning(morning, full);
      for (const care of ['Dress for the water, not the air.', 'Wear the life jacket closed at all times.'])
        for (const part of [text, short])
          expect(part.replace(/\s+/g, ' ').split(care).length, `${care} in ${part}`).toBeLessThanOrEqual(2);
    }
  });

  it('give way to the names of milder hazards for who stays ashore', async () => {
    const { text } = await renderedMorning(morningNamed('level-4-flood'), full);
    expect(text.replace(/\s+/g, ' ')).toMatch(/Also: WARM AIR COLD WATER; [^.]*HIGH WATER; [^.]*FOG\./);
    expect(text).not.toMatch(/Look before you launch|Wait at the ramp/);
  });
});

/** Markup and quotes on purpose: statements come from outside and must stay words. */
const OFFICIAL_TEXT =
  'FLOOD WARNING IN EFFECT <until Saturday>\n  * WHAT...Flooding "is" occurring & will go on.\n  * {{not a quantity}} 100% <script>alert(1)</script>';

describe('foreign words', () => {
  it('stay words: an official statement arrives verbatim and inert', async () => {
    const { safety } = sampleAdvice();
    const [hazard] = safety.hazards;
    if (hazard === undefined) throw new Error('the sample has no hazard');
    const official = { issuer: 'Invented <b>Office</b>', text: OFFICIAL_TEXT, endsMs: null };
    const hostile = sampleBriefing({
      advice: sampleAdvice({ safety: { ...safety, level: 4, hazards: [{ ...hazard, level: 4, official }] } }),
    });
    const { html, text } = await renderBriefing(hostile, full);
    expect(html).not.toContain('<b>Office');
    expect(html).toContain('&lt;script&gt;alert(1)&lt;/script&gt;');
    expect(html).toContain('{{not a quantity}}');
    expect(html).toContain('&#160;&#160;* WHAT...Flooding &quot;is&quot; occurring &amp; will go on.');
    for (const line of OFFICIAL_TEXT.split('\n')) expect(text).toContain(line.trim());
  });

  it('are escaped wherever they come from', async () => {
    const evil = `"><img src=x onerror=alert(1)>'&`;
    const advice = sampleAdvice();
    const report = sampleReport();
    const { html } = await renderBriefing(
      sampleBriefing({
        lake: sampleLake({ name: evil, arm: evil }),
        advice: {
          ...advice,
          positions: advice.positions.map((position) => ({ ...position, name: evil, named: evil })),
          safety: { ...advice.safety, notChecked: [evil] },
        },
        report: {
          ...report,
          pockets: report.pockets.map((pocket) => ({ ...pocket, name: evil })),
          sources: report.sources.map((source) => ({
            ...source,
            name: evil,
            url: `javascript:alert(1)//${evil}`,
          })),
        },
      }),
      full,
    );
    expect(html).not.toContain('<img src=x');
    expect(html).not.toContain('href="javascript:');
  });

  it.each([
    ['https://waterdata.usgs.gov/x', true],
    ['https://open-meteo.com/', true],
    ['http://open-meteo.com/', false],
    ['https://open-meteo.com.example.org/', false],
    ['https://evil-usgs.gov/', false],
    ['https://user@usgs.gov/', false],
    ['https://usgs.gov:8443/', false],
    ['javascript:alert(1)', false],
  ])('link %s: allowed %s', (address, allowed) => {
    expect(isAllowedLink(address)).toBe(allowed);
  });
});

describe('danger', () => {
  it('stands above the plan always, and its section above the fishing part from level 3', async () => {
    const at = async (name: string): Promise<string> =>
      (await renderedMorning(morningNamed(name), full)).text;
    const calm = await at('warm-rain-pulse');
    expect(calm.indexOf('EXTRA CARE, 2 OF 4.')).toBeLessThan(calm.indexOf('THE DAY'));
    expect(calm.indexOf('SAFETY\n')).toBeGreaterThan(calm.indexOf('HOW TO WORK IT'));
    const grave = await at('front');
    expect(grave.indexOf('SAFETY\n')).toBeLessThan(grave.indexOf('HOW TO WORK IT'));
    const flood = await at('level-4-flood');
    expect(flood).toContain('No plan today: stay ashore.');
    expect(flood).toContain('Left out today');
  });

  it('is told by word, number, bars, rule and colour, each level its own', async () => {
    const { safety } = sampleAdvice();
    const looks = await Promise.all(
      ([1, 2, 3, 4] as const).map(async (level) => {
        const { html } = await renderBriefing(
          sampleBriefing({ advice: sampleAdvice({ safety: { ...safety, level } }) }),
          full,
        );
        const word = /<strong class="\w+" style="([^"]*)">([^<]*)<\/strong>/.exec(html);
        const filled = [...html.matchAll(/class="mark"/g)].length;
        const rule = /border-top:([^;]*);border-bottom/.exec(html.slice(0, word?.index))?.[1];
        return { colour: word?.[1], words: word?.[2], filled, rule };
      }),
    );
    for (const key of ['colour', 'words', 'filled', 'rule'] as const)
      expect(new Set(looks.map((look) => look[key])).size, key).toBe(4);
    expect(looks.map(({ filled }) => filled)).toEqual([1, 2, 3, 4]);
  });
});

describe('a reader’s own links', () => {
  it('come in without compiling anything again, escaped', async () => {
    const rendered = await renderBriefing(sampleBriefing(), full);
    const mine = personalise(rendered, {
      leave: 'https://example.org/leave?t=a&b="c"',
      settings: 'https://example.org/settings',
      subscribe: 'https://example.org/subscribe',
      archive: 'https://example.org/i/1',
      outing: 'https://example.org/outing?t=o',
      reading: 'https://x.example/reading?t=r',
    });
    expect(mine.html).toContain('https://example.org/leave?t=a&#38;b=&#34;c&#34;');
    expect(mine.text).toContain('https://example.org/i/1');
    expect(mine.html.replace(/<p style="margin:0"><a [^>]*>Tell how.*?<\/p>/, '<!--personal-links-->')).toBe(
      rendered.html.replace('<!--other-lakes-->', ''),
    );
  });
});

describe('rendering', () => {
  it('gives the same bytes for the same document', async () => {
    const [a, b] = await Promise.all([
      renderBriefing(sampleBriefing(), { ...full, pictures: true }),
      renderBriefing(sampleBriefing(), { ...full, pictures: true }),
    ]);
    expect(a).toEqual(b);
  });

  it('writes times on the clock of the reader, and leaves official words alone', async () => {
    const { safety } = sampleAdvice();
    const [hazard] = safety.hazards;
    if (hazard === undefined) throw new Error('the sample has no hazard');
    const official = { issuer: 'Invented Office', text: 'UNTIL 18:00.', endsMs: null };
    const document = sampleBriefing({
      advice: sampleAdvice({ safety: { ...safety, hazards: [{ ...hazard, official }] } }),
    });
    const { text } = await renderBriefing(document, { ...full, clock: '12h' });
    expect(text).toContain('5:15 am');
    expect(text).toContain('UNTIL 18:00.');
    expect(text.replace('UNTIL 18:00.', '')).not.toMatch(/\b\d{2}:\d{2}\b(?! [ap]m)/);
    // The clock goes with the units, unless the lake has its own.
    expect((await renderBriefing(document, { ...full, units: 'us' })).text).toContain('5:15 am');
    expect((await renderBriefing(document, { ...full, units: 'metric' })).text).not.toMatch(/\d [ap]m\b/);
    const own = { ...document, lake: { ...document.lake, clock: '24h' as const } };
    expect((await renderBriefing(own, { ...full, units: 'us' })).text).not.toMatch(/\d [ap]m\b/);
  });

  it('makes no page and no pictures for the short form', async () => {
    const rendered = await renderBriefing(sampleBriefing(), { units: 'us', form: 'short' });
    expect(rendered).toMatchObject({ html: '', attachments: [] });
    expect(rendered.text.trim()).toBe(rendered.short.trim());
  });
});
