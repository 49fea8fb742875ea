import { readFileSync } from 'node:fs';
import { configDefaults, defineConfig } from 'vitest/config';

/**
 * Files that still ask for what page, advice and models said before the day had a plan, or that have not run since:
 * each is to be shown right or put right, and taken off the list. `THAWLINE_ALL=1 npm test` runs them with the rest.
 */
const waiting = readFileSync(new URL('tests/waiting.txt', import.meta.url), 'utf8')
  .trim()
  .split('\n');

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    exclude: [...configDefaults.exclude, ...(process.env['THAWLINE_ALL'] === undefined ? waiting : [])],
    setupFiles: ['tests/setup.ts'],
    testTimeout: 60_000,
    hookTimeout: 120_000,
    maxWorkers: 2,
    coverage: { provider: 'v8', include: ['src/**'], reporter: ['text-summary', 'json-summary'] },
  },
});
