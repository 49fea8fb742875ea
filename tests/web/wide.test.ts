/** What is drawn and laid out for a screen: columns, the hour that it is, and labels in any font. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { chromium, type Browser, type Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { storeBriefing } from '../../src/record/schedule/briefings.ts';
import { widthOf } from '../../src/render/charts/letters.ts';
import { FONT_FILES } from '../../src/render/fonts.ts';
import { startWebServer, type WebServer } from '../../src/web/index.ts';
import { mappedMorning } from '../helpers/mappedMorning.ts';
import { sampleFacts } from '../helpers/sampleBriefing.ts';
import { CONFIG, site, type Site } from './kit.ts';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const HOUR_MS = 3_600_000;
const LAKE = '/briefings/pine-hollow';
let browser: Browser;
let web: Site;
let server: WebServer;
let whole: string;
let issuedMs: number;

beforeAll(async () => {
  browser = await chromium.launch({ executablePath: '/usr/bin/chromium', args: ['--no-sandbox'] });
  web = await site(CONFIG);
  for (const [lakeId, document] of [
    ['pine-hollow', await mappedMorning(9)],
    ['cedar', sampleFacts()],
  ] as const) {
    const key = { lakeId, localDate: document.date, edition: 'morning' } as const;
    const documentJson = JSON.stringify(document);
    await storeBriefing(web.record, key, { issuedMs: document.issuedMs, documentJson, renderings: [] });
    if (lakeId === 'pine-hollow') {
      whole = `${LAKE}/${document.date}/morning`;
      ({ issuedMs } = document);
    }
  }
  web.clockMs = issuedMs + 3 * HOUR_MS;
  server = await startWebServer(web.deps, 0);
});
afterAll(async () => {
  await browser.close();
  await server.close();
  await web.record.close();
});

interface Look {
  readonly script?: boolean;
  /** The page's own rules do not stop the test from bringing a style. */
  readonly bypassCSP?: boolean;
}

async function opened(path: string, look: Look, work: (page: Page) => Promise<void>): Promise<void> {
  const { script = true, bypassCSP = false } = look;
  const context = await browser.newContext({ javaScriptEnabled: script, bypassCSP });
  const page = await context.newPage();
  const problems: string[] = [];
  page.on('console', (message) => {
    if (/Content Security Policy/.test(message.text())) problems.push(message.text());
  });
  page.on('pageerror', (error) => problems.push(error.message));
  await page.goto(`http://127.0.0.1:${server.port}${path}`);
  await work(page);
  expect(problems).toEqual([]);
  await context.close();
}

const sized = (page: Page, width: number) => page.setViewportSize({ width, height: 900 });
const scrolled = (page: Page) => page.evaluate<number>('document.documentElement.scrollWidth');

describe('a lake’s page and a whole briefing', () => {
  it.each([
    ['the lake’s page', () => LAKE],
    ['the whole briefing', () => whole],
  ])('%s passes axe-core as served in both schemes at 375, 600 and 1280 px, and fits', async (_, path) => {
    await opened(path(), {}, async (page) => {
      for (const width of [375, 600, 1280])
        for (const colorScheme of ['light', 'dark'] as const) {
          await sized(page, width);
          await page.emulateMedia({ colorScheme });
          await page.evaluate(AXE);
          const found = await page.evaluate<string[]>(
            `axe.run().then(({ violations }) => violations.flatMap(({ id, nodes }) => nodes.map(({ html }) => id + ': ' + html)))`,
          );
          expect(found, `${width} px, ${colorScheme}`).toEqual([]);
          expect(await scrolled(page), `${width} px`).toBeLessThanOrEqual(width);
        }
    });
  });

  it.each([
    ['the lake’s page', () => LAKE, 0.75],
    ['the whole briefing', () => whole, 0.65],
  ])(
    '%s has its plan and strip left of its evidence on a wide screen, and above it on a narrow one',
    async (_, path, shorter) => {
      await opened(path(), {}, async (page) => {
        const boxes = () =>
          page.evaluate<{ left: number; right: number; top: number; bottom: number; height: number }[]>(
            "[...document.querySelectorAll('.sides > div')].map((side) => side.getBoundingClientRect().toJSON())",
          );
        const [plan, evidence] = await page.locator('.sides > div').allInnerTexts();
        expect(plan).toMatch(/Cedar Shoulder/);
        expect(plan).not.toMatch(/Inflow/);
        expect(evidence).toMatch(/Inflow/);
        expect(
          await page.locator('.sides > div:first-child :is([data-strip], img[src$="day.png"])').count(),
        ).toBe(1);
        const heights: number[] = [];
        for (const width of [375, 600, 999]) {
          await sized(page, width);
          const [first, second] = await boxes();
          expect(second?.top, `${width} px`).toBeGreaterThanOrEqual(first?.bottom ?? Infinity);
          heights.push((first?.height ?? 0) + (second?.height ?? 0));
        }
        for (const width of [1000, 1280, 1920]) {
          await sized(page, width);
          const [first, second] = await boxes();
          expect(second?.left, `${width} px`).toBeGreaterThanOrEqual(first?.right ?? Infinity);
          expect(second?.top).toBe(first?.top);
          expect(await scrolled(page)).toBeLessThanOrEqual(width);
        }
        const [first, second] = await boxes();
        const [, at600 = 0] = heights;
        expect(Math.max(first?.height ?? 0, second?.height ?? 0)).toBeLessThan(shorter * at600);
      });
    },
  );

  it('the whole briefing is dark between and below its columns too', async () => {
    await opened(whole, {}, async (page) => {
      await sized(page, 1280);
      await page.emulateMedia({ colorScheme: 'dark' });
      const grounds = await page.evaluate<string[]>(
        `(() => {
          const seen = [];
          for (let one = document.querySelector('.sides'); one; one = one.parentElement)
            seen.push(getComputedStyle(one).backgroundColor);
          return seen.filter((ground) => ground !== 'rgba(0, 0, 0, 0)');
        })()`,
      );
      expect(grounds).toEqual(['rgb(20, 23, 26)']);
    });
  });

  it('the whole briefing leads to the other pages, and past them by the first Tab', async () => {
    await opened(whole, {}, async (page) => {
      await page.keyboard.press('Tab');
      await page.keyboard.press('Enter');
      expect(await page.evaluate<string>('document.activeElement.id')).toBe('content');
      await page.getByRole('navigation').getByRole('link', { name: 'What if' }).click();
      expect(page.url()).toMatch(/\/what-if$/);
    });
  });
});

describe('the strip of a lake’s page', () => {
  const shownHours = (page: Page) =>
    page.evaluate<number[]>(
      `[...document.querySelectorAll('[data-hour]')].filter((one) => getComputedStyle(one).display !== 'none').map((one) => Number(one.dataset.hour))`,
    );
  const hourOf = (ms: number) => Math.floor(ms / HOUR_MS) * HOUR_MS;

  it.each([true, false])(
    'marks the hour that it is at the server and tells it (script: %s)',
    async (script) => {
      await opened(LAKE, { script }, async (page) => {
        // The mark on the strip and the line below it; the browser's own clock is years ahead.
        expect(await shownHours(page)).toEqual([hourOf(web.clockMs), hourOf(web.clockMs)]);
        expect(await page.locator('p[data-hour]:visible').innerText()).toBe(
          'Now, the hour from 8 am: wind S 13 mph; gusts 20 mph; air 54 °F.',
        );
      });
    },
  );

  it('goes on by the hour while the page stands open, and marks nothing after the day', async () => {
    const context = await browser.newContext();
    const page = await context.newPage();
    await page.clock.install({ time: new Date('2031-01-01T00:00:00Z') });
    await page.goto(`http://127.0.0.1:${server.port}${LAKE}`);
    expect(await shownHours(page)).toEqual([hourOf(web.clockMs), hourOf(web.clockMs)]);
    await page.clock.runFor(HOUR_MS);
    const next = hourOf(web.clockMs) + HOUR_MS;
    expect(await shownHours(page)).toEqual([next, next]);
    expect(await page.locator('p[data-hour]:visible').innerText()).toMatch(
      /^Now, the hour from 9 am:.*closed: /,
    );
    await page.clock.fastForward(20 * HOUR_MS);
    expect(await shownHours(page)).toEqual([]);
    await context.close();
  });
});

describe('labels of a drawing', () => {
  it('are as wide as the font of the pictures sets them', async () => {
    const page = await browser.newPage();
    const face = (weight: number, i: number): string =>
      `@font-face{font-family:P;font-weight:${weight};src:url(data:font/ttf;base64,${readFileSync(FONT_FILES[i] ?? '').toString('base64')})}`;
    await page.setContent(
      `<style>${face(400, 0)}${face(700, 1)}span{font:20px P;font-kerning:none;font-feature-settings:'calt' 0;white-space:pre}b{font-weight:700}</style>`,
    );
    for (const words of [
      '11:30 am Riprap and causeway',
      'S 22 mph, gusts 35 mph',
      '+4 °F, 4 pm',
      'Grüße, « été » → Ł',
    ])
      for (const bold of [false, true]) {
        const set = await page.evaluate<number>(
          `(async () => {
            const span = document.createElement('span');
            span.style.fontWeight = '${bold ? 700 : 400}';
            span.textContent = ${JSON.stringify(words)};
            document.body.append(span);
            await document.fonts.ready;
            await document.fonts.load('${bold ? 700 : 400} 20px P', span.textContent);
            return span.getBoundingClientRect().width;
          })()`,
        );
        expect(Math.abs((widthOf(words, 20, bold) ?? 0) - set), `${words}, ${bold}`).toBeLessThan(0.5);
      }
    expect(widthOf('日', 20, false)).toBeNull();
    await page.close();
  });

  interface Box {
    readonly words: string;
    readonly left: number;
    readonly right: number;
    readonly top: number;
    readonly bottom: number;
    readonly frame: { readonly left: number; readonly right: number };
  }

  /** Labels of the page that meet another one or leave their drawing. */
  async function collisions(page: Page): Promise<string[]> {
    const boxes = await page.evaluate<Box[]>(
      `[...document.querySelectorAll('main svg text')].filter((text) => text.getClientRects().length > 0).map((text) => {
        const { left, right, top, bottom } = text.getBoundingClientRect();
        return { words: text.textContent, left, right, top, bottom, frame: text.ownerSVGElement.getBoundingClientRect().toJSON() };
      })`,
    );
    expect(boxes.length).toBeGreaterThan(1);
    // The foot of a serif may overhang the place where its letter begins.
    const OVERHANG = 1.5;
    const found = boxes
      .filter(({ left, right, frame }) => left < frame.left - OVERHANG || right > frame.right + OVERHANG)
      .map(({ words }) => `out: ${words}`);
    boxes.forEach((a, i) => {
      for (const b of boxes.slice(i + 1)) {
        const wide = Math.min(a.right, b.right) - Math.max(a.left, b.left);
        const high = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
        // Boxes of lines below each other touch by their line height; letters do not.
        if (wide > 1 && high > 0.35 * Math.min(a.bottom - a.top, b.bottom - b.top))
          found.push(`${a.words} | ${b.words}`);
      }
    });
    return found;
  }

  const FONTS = ['DejaVu Sans', 'DejaVu Sans Mono', 'DejaVu Serif'];

  it.each([LAKE, `${LAKE}?units=metric`, '/briefings/cedar', '/', '/lakes/pine-hollow/map'])(
    'of %s stay in the frame and apart in every font, wide ones too',
    async (path) => {
      await opened(path, { bypassCSP: true }, async (page) => {
        for (const font of [undefined, ...FONTS]) {
          if (font !== undefined)
            await page.addStyleTag({ content: `svg text{font-family:'${font}'!important}` });
          for (const width of [375, 600, 1280]) {
            await sized(page, width);
            expect(await collisions(page), `${font ?? 'as served'}, ${width} px`).toEqual([]);
          }
        }
      });
    },
  );

  it('and the test would see one: without their widths they run out of the frame', async () => {
    await opened(LAKE, { bypassCSP: true }, async (page) => {
      await page.addStyleTag({ content: `svg text{font-family:'DejaVu Sans Mono'!important}` });
      await page.evaluate(
        "document.querySelectorAll('svg text').forEach((text) => text.removeAttribute('textLength'))",
      );
      expect(await collisions(page)).not.toEqual([]);
    });
  });
});
