import { existsSync } from 'node:fs';
import { defineConfig } from 'vitest/config';

/** Tests of the record, the schedule and the delivery that ask for a fresh record: they hold for every database behind it. */
const EITHER = [
  'tests/record/{alerts,coverage,known,levelDays,observations,outings,outlooks,readings,releases,retention,upsert.property}.test.ts',
  'tests/schedule/{failures,fencing,levelYear,outcome,scheduler,webhooks,year}.test.ts',
  'tests/delivery/{comingBack,outbox,ownViews,readers,sender}.test.ts',
  'tests/record/sameSchema.test.ts',
];
/** A simulated year takes minutes in this process; on a real server it takes seconds. */
const SLOW_IN_PROCESS = ['tests/schedule/year.test.ts'];
/**
 * Rooms whose tests hold nothing open and change nothing that a module keeps: their files share a worker's modules.
 * Loading the program anew for each file took more time than its tests.
 */
const PURE =
  'tests/{advice,config,gate,outings,science,shape,signals,units,verification,vocabulary,water,words}/**/*.test.ts';
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
    projects: [
      {
        extends: true,
        test: { name: 'pure', include: [PURE], isolate: false },
      },
      {
        extends: true,
        test: { name: 'sqlite', include: ['tests/**/*.test.ts'], exclude: ['tests/postgres/**', PURE] },
      },
      {
        extends: true,
        test: {
          name: 'postgres in process',
          include: EITHER,
          exclude: SLOW_IN_PROCESS,
          // The database takes seconds to start: once a worker, not once a file.
          isolate: false,
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
