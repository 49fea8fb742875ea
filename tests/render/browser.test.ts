import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { chromium, type Browser, type Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { previewApp } from '../../src/cli/previewApp.ts';
import { countWords, textsOf } from '../helpers/mailWords.ts';
import { mornings } from '../helpers/mornings.ts';
import { renderedMorning } from '../helpers/renderedMorning.ts';
import { sampleBriefing } from '../helpers/sampleBriefing.ts';

/**
 * Needs a chromium (`THAWLINE_CHROMIUM`, default /usr/bin/chromium). A machine without one says so by
 * THAWLINE_NO_BROWSER=1; otherwise these tests fail there, because a check that is silently left out is none.
 */
const withoutBrowser = process.env['THAWLINE_NO_BROWSER'] === '1';
const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
/** Rules for whole web pages that a mail, which a mail program frames, cannot meet. */
const NOT_FOR_MAIL = { region: { enabled: false }, 'landmark-one-main': { enabled: false } };

/** All that a dark scheme changes; axe-core's rules by tag (its documentation, "Tags of rules"). */
const COLOURS_ONLY = { runOnly: ['cat.color'] };

interface Violation {
  readonly id: string;
  readonly nodes: readonly { readonly html: string; readonly failureSummary?: string }[];
}

async function violations(page: Page, options: Readonly<Record<string, unknown>>): Promise<string[]> {
  await page.evaluate(AXE);
  const found = await page.evaluate<readonly Violation[]>(
    `axe.run(document, ${JSON.stringify(options)}).then((result) => result.violations)`,
  );
  return found.flatMap(({ id, nodes }) => nodes.map(({ html }) => `${id}: ${html.slice(0, 160)}`));
}

if (withoutBrowser) {
  describe('the page in a browser', () => {
    it('was NOT checked: THAWLINE_NO_BROWSER=1', () => {
      process.stderr.write('NOTICE: page tests in a browser were not run (THAWLINE_NO_BROWSER=1)\n');
      expect(withoutBrowser).toBe(true);
    });
  });
} else {
  describe('the page in a browser', () => {
    let browser: Browser;
    beforeAll(async () => {
      browser = await chromium.launch({
        executablePath: process.env['THAWLINE_CHROMIUM'] ?? '/usr/bin/chromium',
        args: ['--no-sandbox'],
      });
      page = await browser.newPage();
    });
    afterAll(() => browser?.close());

    /** One page for all of them: a new one is a new process of the browser. */
    let page: Page;
    const shown = async (html: string, width: number, work: () => Promise<void>): Promise<void> => {
      // Nothing of the document before is left: neither its scripts' names nor where it was scrolled to.
      await page.goto('about:blank');
      await page.setViewportSize({ width, height: 900 });
      await page.emulateMedia({ colorScheme: 'light' });
      await page.setContent(html);
      await work();
    };

    describe.each(mornings())('on the morning $name', (morning) => {
      it('has no fault that axe-core can find, light or dark', async () => {
        const { html } = await renderedMorning(morning);
        await shown(html, 600, async () => {
          expect(await violations(page, { rules: NOT_FOR_MAIL }), 'light').toEqual([]);
          await page.emulateMedia({ colorScheme: 'dark' });
          expect(await violations(page, COLOURS_ONLY), 'dark').toEqual([]);
        });
      });

      it('fits 600 and 375 px without sideways scrolling, with its style block and without', async () => {
        const { html } = await renderedMorning(morning);
        for (const source of [html, html.replace(/<style[\s\S]*?<\/style>/g, '')]) {
          await shown(source, 600, async () => {
            for (const width of [600, 375]) {
              await page.setViewportSize({ width, height: 900 });
              const wide = await page.evaluate<number>('document.documentElement.scrollWidth');
              expect(wide).toBeLessThanOrEqual(width);
            }
          });
        }
      });

      it('has the whole front on the first screen of a phone, whoever reads it', async () => {
        for (const clock of ['12h', '24h'] as const) {
          const { html } = await renderedMorning(morning, { clock });
          await shown(html, 375, async () => {
            // The heading after that of the plan begins what stands below the front.
            const end = await page.evaluate<number>(
              "document.querySelectorAll('h2')[1].getBoundingClientRect().top",
            );
            expect(end, clock).toBeLessThanOrEqual(667);
          });
        }
      });

      it('keeps its words readable where a mail program turns all colours around', async () => {
        const { html } = await renderedMorning(morning);
        const turned = html.replace(
          '</head>',
          '<style>html{filter:invert(1) hue-rotate(180deg)}</style></head>',
        );
        await shown(turned, 375, async () => {
          const picture = (await page.screenshot()).toString('base64');
          const [dark, light] = await page.evaluate<[number, number]>(`(async () => {
            const image = new Image();
            image.src = 'data:image/png;base64,${picture}';
            await image.decode();
            const canvas = document.createElement('canvas');
            [canvas.width, canvas.height] = [image.width, image.height];
            const context = canvas.getContext('2d');
            context.drawImage(image, 0, 0);
            const { data } = context.getImageData(0, 0, image.width, image.height);
            const linear = (c) => (c / 255 <= 0.04045 ? c / 255 / 12.92 : ((c / 255 + 0.055) / 1.055) ** 2.4);
            const all = [];
            for (let i = 0; i < data.length; i += 4)
              all.push(0.2126 * linear(data[i]) + 0.7152 * linear(data[i + 1]) + 0.0722 * linear(data[i + 2]));
            all.sort((a, b) => a - b);
            return [all[Math.floor(all.length / 2)], all[Math.floor(all.length * 0.985)]];
          })()`);
          // Contrast ratio of WCAG 2.2 between the ground, which most pixels show, and the brightest strokes.
          expect((light + 0.05) / (dark + 0.05)).toBeGreaterThan(7);
        });
      });

      it('says with images off what the images say', async () => {
        const { html } = await renderedMorning(morning);
        await shown(html, 600, async () => {
          const alts = await page.evaluate<string[]>('[...document.images].map((image) => image.alt)');
          expect(alts).toHaveLength([...html.matchAll(/<img /g)].length);
          for (const alt of alts) expect(alt).toMatch(/^[A-Z].{40,}\.$/s);
          const text = await page.evaluate<string>('document.body.innerText');
          expect(text).toContain('Conditions');
          // What is counted as words of a mail is what a reader sees of it.
          expect(countWords(text)).toBe(countWords(textsOf(html).visible));
        });
      });
    });

    it('finds no fault in the preview either', async () => {
      const app = previewApp({
        makeDocument: () => Promise.resolve(sampleBriefing({ preview: true })),
        version: () => '1',
      });
      const reply = await app.request('http://127.0.0.1/');
      const html = (await reply.text())
        .replace(/<script>[\s\S]*?<\/script>/, '')
        .replace(/ src="\/page[^"]*"/, ' srcdoc="<html lang=en><title>x</title><main><h1>x</h1></main>"');
      await shown(html, 1200, async () => {
        expect(await violations(page, {})).toEqual([]);
      });
    });
  });
}
