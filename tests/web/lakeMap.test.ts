import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { chromium, type Browser, type Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { storeBriefing } from '../../src/record/schedule/briefings.ts';
import { startWebServer, type WebServer } from '../../src/web/index.ts';
import { mappedMorning } from '../helpers/mappedMorning.ts';
import { sampleFacts } from '../helpers/sampleBriefing.ts';
import { CONFIG, site, type Site } from './kit.ts';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
let browser: Browser;
let web: Site;
let server: WebServer;

beforeAll(async () => {
  browser = await chromium.launch({ executablePath: '/usr/bin/chromium', args: ['--no-sandbox'] });
  web = await site(CONFIG);
  for (const [lakeId, document] of [
    ['pine-hollow', await mappedMorning(9)],
    ['cedar', sampleFacts()],
  ] as const) {
    const key = { lakeId, localDate: document.date, edition: 'morning' } as const;
    await storeBriefing(web.record, key, {
      issuedMs: document.issuedMs,
      documentJson: JSON.stringify(document),
      renderings: [],
    });
  }
  server = await startWebServer(web.deps, 0);
});
afterAll(async () => {
  await browser.close();
  await server.close();
  await web.record.close();
});

async function open(
  path: string,
  options: { width: number; script?: boolean; dark?: boolean },
): Promise<Page> {
  const context = await browser.newContext({
    viewport: { width: options.width, height: 900 },
    javaScriptEnabled: options.script ?? true,
    colorScheme: options.dark === true ? 'dark' : 'light',
  });
  const page = await context.newPage();
  await page.goto(`http://127.0.0.1:${server.port}${path}`);
  return page;
}
const shown = (page: Page) => page.locator('#map svg:visible');

describe('the map by the hour', () => {
  it.each([375, 1000])(
    'at %d px shows one drawing, fits, and passes axe-core in both schemes',
    async (width) => {
      for (const dark of [false, true]) {
        const page = await open('/lakes/pine-hollow/map', { width, dark });
        expect(await shown(page).count()).toBe(1);
        expect(await page.evaluate<number>('document.documentElement.scrollWidth')).toBeLessThanOrEqual(
          width,
        );
        await page.evaluate(AXE);
        const found = await page.evaluate(async () => {
          const { axe } = globalThis as unknown as {
            axe: { run(): Promise<{ violations: { id: string }[] }> };
          };
          return (await axe.run()).violations.map(({ id }) => id);
        });
        expect(found).toEqual([]);
        const ground = await page.evaluate<string>(
          `getComputedStyle([...document.querySelectorAll('#map svg')].find((svg) => svg.clientWidth > 0).querySelector('rect')).fill`,
        );
        expect(ground).toBe(dark ? 'rgb(21, 25, 28)' : 'rgb(255, 255, 255)');
        await page.context().close();
      }
    },
  );

  it('moves by the keyboard: the next hour is drawn, said and marked in the list', async () => {
    const page = await open('/lakes/pine-hollow/map?hour=2', { width: 600 });
    const before = await shown(page).getAttribute('aria-label');
    await page.locator('#hour').focus();
    await page.keyboard.press('ArrowRight');
    await expect.poll(() => shown(page).getAttribute('aria-label'), { timeout: 10_000 }).not.toBe(before);
    expect(await page.locator('#hour').inputValue()).toBe('3');
    const current = await page.locator('.hours [aria-current]').innerText();
    expect(await page.locator('#hour').getAttribute('aria-valuetext')).toBe(current);
    expect(page.url()).toContain('hour=3');
    await page.context().close();
  });

  it('works without script by its button, and tells every hour in words', async () => {
    const page = await open('/lakes/pine-hollow/map?units=metric', { width: 375, script: false });
    const lines = await page.locator('.hours li').allInnerTexts();
    expect(lines.length).toBeGreaterThan(9);
    expect(lines[4]).toMatch(/wind from the [a-z-]+, \d+ km\/h; Mill Draw (calm|[\d.]+ m)/);
    await page.locator('#hour').press('Home');
    await page.locator('button').click();
    expect(page.url()).toMatch(/units=metric&hour=0/);
    expect(await page.locator('.hours [aria-current]').innerText()).toBe(lines[0]);
    await page.context().close();
  });

  it('is linked from the front of its lake, and of a lake without an outline says that there is none', async () => {
    expect(await (await web.get('/briefings/pine-hollow')).text()).toContain('/lakes/pine-hollow/map');
    expect(await (await web.get('/briefings/cedar')).text()).not.toContain('/lakes/cedar/map');
    expect(await (await web.get('/lakes/cedar/map')).text()).toContain('the lake has no outline');
    expect((await web.get('/lakes/nowhere/map')).status).toBe(404);
    expect((await web.get('/lakes/pine-hollow/map?hour=99999')).status).toBe(200);
  });
});
