import { existsSync } from 'node:fs';
import { defineConfig } from 'vitest/config';

/** Tests of the record, the schedule and the delivery that ask for a fresh record: they hold for every database behind it. */
const EITHER = [
  'tests/record/{alerts,coverage,known,levelDays,observations,keptShapes,outings,outlooks,readings,releases,retention,upsert.property}.test.ts',
  'tests/schedule/{failures,fencing,levelYear,outcome,scheduler,webhooks,year}.test.ts',
  'tests/delivery/{comingBack,outbox,ownViews,readers,sender}.test.ts',
  'tests/record/sameSchema.test.ts',
];
/** A simulated year takes minutes in this process; on a real server it takes seconds. */
const SLOW_IN_PROCESS = ['tests/schedule/year.test.ts'];
/**
 * Where a server runs all of them, the database in the process is asked once more for the record's own only, which
 * sit on its version and its single connection; the long tests (`npm run test:long`) ask it for all.
 */
const LEFT_TO_THE_SERVER = ['tests/{schedule,delivery}/**'];
/** They put other modules in the place of the program's own, which holds for a whole worker. */
const APART = 'tests/**/madeUp*.test.ts';
const hasServer = ['15', '16', '17'].some((version) =>
  existsSync(`/usr/lib/postgresql/${version}/bin/postgres`),
);

export default defineConfig({
  test: {
    globalSetup: ['tests/builtProgram.ts'],
    setupFiles: ['tests/setup.ts'],
    testTimeout: 60_000,
    hookTimeout: 120_000,
    maxWorkers: 2,
    coverage: { provider: 'v8', include: ['src/**'], reporter: ['text-summary', 'json-summary'] },
    // Test files share a worker's modules: loading the program anew took more processor time than most files' tests.
    isolate: false,
    projects: [
      {
        extends: true,
        test: { name: 'apart', include: [APART], isolate: true },
      },
      {
        extends: true,
        test: { name: 'sqlite', include: ['tests/**/*.test.ts'], exclude: ['tests/postgres/**', APART] },
      },
      {
        extends: true,
        test: {
          name: 'postgres in process',
          include: EITHER,
          exclude:
            hasServer && process.env['THAWLINE_LONG'] === undefined ? LEFT_TO_THE_SERVER : SLOW_IN_PROCESS,
          env: { THAWLINE_TEST_RECORD: 'pglite' },
        },
      },
      {
        extends: true,
        test: {
          name: 'postgres server',
          // Without a server only the test that says so.
          include: hasServer ? [...EITHER, 'tests/postgres/**/*.test.ts'] : ['tests/postgres/isHere.test.ts'],
          env: { THAWLINE_TEST_RECORD: 'postgres' },
          globalSetup: ['tests/helpers/postgresForRun.ts'],
        },
      },
    ],
  },
});
