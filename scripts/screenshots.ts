/**
 * Pictures of the demonstration mail for README: npx tsx scripts/screenshots.ts
 * Needs Debian's chromium (or THAWLINE_CHROMIUM); writes docs/pictures/demo-*.png, small palettes, first screens only.
 */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { chromium } from 'playwright-core';

const folder = mkdtempSync(join(tmpdir(), 'thawline-pictures-'));
execFileSync(process.execPath, ['--import', 'tsx', 'src/cli/main.ts', 'demo', '--out', folder], {
  stdio: 'ignore',
});
const browser = await chromium.launch({
  executablePath: process.env['THAWLINE_CHROMIUM'] ?? '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-gpu', '--disable-background-networking'],
});
try {
  for (const [width, height, colorScheme] of [
    [600, 1500, 'light'],
    [375, 1500, 'dark'],
  ] as const) {
    const page = await browser.newPage({ viewport: { width, height }, colorScheme });
    await page.goto(`file://${resolve(folder, 'ossarly-2026-03-06.html')}`);
    await page.screenshot({ path: `docs/pictures/demo-${width}-${colorScheme}.png` });
  }
} finally {
  await browser.close();
  rmSync(folder, { recursive: true, force: true });
}
