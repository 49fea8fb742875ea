import { defineConfig } from 'vitest/config';

/** What `npm run mutants` runs in its copy: the tests of one room, in one worker whose modules they share. */
export default defineConfig({
  test: {
    setupFiles: ['tests/setup.ts'],
    testTimeout: 60_000,
    include: [process.env['THAWLINE_MUTANTS_TESTS'] ?? ''],
    isolate: false,
  },
});
