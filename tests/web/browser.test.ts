import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { chromium, type Browser, type BrowserContext, type Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, afterEach, describe, expect, it } from 'vitest';
import { storeBriefing } from '../../src/record/schedule/briefings.ts';
import { readerById } from '../../src/record/delivery/readers.ts';
import { linkMaker } from '../../src/delivery/index.ts';
import { startWebServer, type WebServer } from '../../src/web/index.ts';
import { sampleBriefing } from '../helpers/sampleBriefing.ts';
import { BASE, issue, NOW, SECRET, site, type Site } from './kit.ts';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

let browser: Browser;
let context: BrowserContext;
let page: Page;
let web: Site;
let server: WebServer;
let problems: string[];

beforeAll(async () => {
  browser = await chromium.launch({ executablePath: '/usr/bin/chromium', args: ['--no-sandbox'] });
});
afterAll(() => browser.close());

async function open(javaScriptEnabled: boolean): Promise<void> {
  context = await browser.newContext({ viewport: { width: 375, height: 720 }, javaScriptEnabled });
  page = await context.newPage();
  problems = [];
  // A refused form or a broken link is a test's own business; a policy that blocks our own page is not.
  page.on('console', (message) => {
    if (/Content Security Policy/.test(message.text())) problems.push(message.text());
  });
  page.on('pageerror', (error) => problems.push(error.message));
}

beforeEach(async () => {
  web = await site();
  server = await startWebServer(web.deps, 0);
  await open(true);
});
afterEach(async () => {
  await context.close();
  await server.close();
  await web.record.close();
});

const go = (path: string) => page.goto(`http://127.0.0.1:${server.port}${path}`);
const heading = () => page.locator('h1').innerText();

/** Violations that axe-core finds on the page as it stands. */
async function violations(): Promise<string[]> {
  await page.evaluate(AXE);
  return page.evaluate(async () => {
    const axe = (
      globalThis as unknown as {
        axe: { run(): Promise<{ violations: { id: string; nodes: { html: string }[] }[] }> };
      }
    ).axe;
    const { violations: found } = await axe.run();
    return found.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.html).join(' | ')}`);
  });
}

describe('in a browser 375 px wide', () => {
  it('every kind of page passes axe-core, fits, and breaks no policy of its own', async () => {
    const { id } = await web.reader();
    await issue(web.record, '2026-03-06');
    const links = await web.links(id);
    const paths = [
      '/',
      '/subscribe',
      '/briefings',
      '/briefings/pine-hollow',
      '/what-if',
      '/what-if?water.main=47+F&date=2026-03-06',
      '/what-if?water.main=47+F&date=2026-03-06&latitude=36&hour1.wind=3+mph&hour3.wind=14+mph',
      '/nowhere',
      ...['', '&lake=pine-hollow&id=no.such&value=1'].map(
        (more) => linkMaker(BASE, SECRET).tune(NOW).slice(BASE.length) + more,
      ),
      ...Object.values(links),
    ];
    for (const path of paths) {
      await go(path);
      for (const colorScheme of ['light', 'dark'] as const) {
        await page.emulateMedia({ colorScheme });
        expect(await violations(), `${path}, ${colorScheme}`).toEqual([]);
      }
      const width = await page.evaluate<number>('document.documentElement.scrollWidth');
      expect(width, path).toBeLessThanOrEqual(375);
    }
    expect(problems).toEqual([]);
  });

  it('a whole briefing whose rendering was forgotten is drawn again, with its pictures, and passes axe-core', async () => {
    const key = { lakeId: 'pine-hollow', localDate: '2026-03-06', edition: 'morning' } as const;
    const documentJson = JSON.stringify(sampleBriefing());
    await storeBriefing(web.record, key, { issuedMs: NOW, documentJson, renderings: [] });
    const refused: string[] = [];
    page.on('response', (reply) => {
      if (reply.status() >= 400) refused.push(reply.url());
    });
    for (const units of ['us', 'metric']) {
      await go(`/briefings/pine-hollow/2026-03-06/morning?units=${units}`);
      expect(await violations()).toEqual([]);
      expect(await page.evaluate<number>('document.documentElement.scrollWidth')).toBeLessThanOrEqual(375);
      const empty = '[...document.images].filter((image) => image.naturalWidth === 0).length';
      expect(await page.evaluate<number>('document.images.length')).toBeGreaterThan(0);
      expect(await page.evaluate<number>(empty)).toBe(0);
    }
    expect(refused).toEqual([]);
    expect(problems).toEqual([]);
  });

  it.each([true, false])('a reader comes, changes and leaves by click (script: %s)', async (script) => {
    await context.close();
    await open(script);
    await go('/subscribe');
    await page.getByLabel('Your mail address').fill('eve@example.org');
    await page.getByLabel('Pine Hollow Lake').check();
    await page.getByRole('button').click();
    expect(await heading()).toBe('Look into your mailbox');
    const [row] = await web.record.db.selectFrom('readers').select('id').execute();
    const id = row?.id ?? '';
    await go((await web.links(id)).confirm);
    await page.getByRole('button', { name: 'Yes, send it' }).click();
    expect(await heading()).toBe('You will get the briefing');
    await go((await web.links(id)).settings);
    await page.getByLabel('metres and °C').check();
    await page.getByRole('button', { name: 'Save' }).click();
    await expect.poll(() => page.getByRole('status').innerText()).toBe('Saved.');
    expect(await readerById(web.record, id)).toMatchObject({ state: 'active', units: 'metric' });
    await go((await web.links(id)).leave);
    await page.getByRole('button', { name: 'Send that mail' }).click();
    expect((await readerById(web.record, id))?.state).toBe('active');
    await go((await web.links(id)).leaveSure);
    await page.getByRole('button', { name: 'Yes, stop them' }).click();
    expect(await heading()).toBe('No more mails');
    expect((await readerById(web.record, id))?.state).toBe('left');
  });

  it('what-if answers by keyboard alone: the slider moves the ranking without a reload', async () => {
    await go('/what-if?date=2026-03-06&latitude=36');
    const slider = page.getByLabel('Main lake, about 3 ft down, slider');
    // Nothing is known yet: no thumb stands anywhere, and a screen reader hears so.
    expect(await slider.getAttribute('aria-valuetext')).toBe('not given');
    expect(await slider.getAttribute('class')).toContain('unset');
    // Nor is its track filled up to anywhere, which the browser's own look would do.
    const look = "getComputedStyle(document.querySelector('input[type=range].unset')).appearance";
    expect(await page.evaluate(look)).toBe('none');
    await slider.focus();
    await page.keyboard.press('Home');
    const first = page.locator('#result ol li strong').first();
    await expect.poll(() => page.locator('#result').innerText()).toContain('34 °F');
    const cold = await page.locator('#result ol').innerText();
    expect(await slider.getAttribute('aria-valuetext')).toBeNull();
    for (let i = 0; i < 30; i += 1) await page.keyboard.press('ArrowRight');
    await expect.poll(() => page.locator('#result').innerText()).toContain('64 °F');
    expect(await first.innerText()).not.toBe('');
    expect(await page.locator('#result ol').innerText()).not.toBe(cold);
    expect(page.url()).toContain('water.main=64');
    expect(problems).toEqual([]);
  });

  it('what-if plans the day while its hours are filled in', async () => {
    await go('/what-if?date=2026-03-06&latitude=36&water.main=48+F');
    await page.getByLabel('Wind from 06:00', { exact: true }).fill('3 mph');
    await page.getByLabel('Wind from 12:00', { exact: true }).fill('14 mph');
    await page.getByLabel('Wind from from 12:00').fill('SW');
    await expect.poll(() => decodeURIComponent(page.url())).toContain('hour3.windFrom=SW');
    expect(decodeURIComponent(page.url())).toContain('hour3.wind=14+mph');
    expect(await page.locator('#result').innerText()).toMatch(/The day[^]*Be in by \d\d:\d\d/);
    expect(problems).toEqual([]);
  });

  it('what-if answers with script off', async () => {
    await context.close();
    await open(false);
    await go('/what-if');
    await page.getByLabel('Main lake, about 3 ft down').fill('47 F');
    await page.getByRole('button', { name: 'Show what that means' }).click();
    expect(await page.locator('#result ol li').count()).toBe(5);
  });

  it('the first Tab leads to a link past the navigation', async () => {
    await go('/subscribe');
    await page.keyboard.press('Tab');
    await page.keyboard.press('Enter');
    await page.keyboard.press('Tab');
    expect(await page.evaluate<string>('document.activeElement.name')).toBe('address');
  });
});
