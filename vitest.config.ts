import { existsSync } from 'node:fs';
import { defineConfig } from 'vitest/config';
import { BaseSequencer, type TestSpecification } from 'vitest/node';

/** Tests of the record, the schedule and the delivery that ask for a fresh record: they hold for every database behind it. */
const EITHER = [
  'tests/record/{alerts,coverage,known,levelDays,observations,keptShapes,outings,outlooks,readings,releases,retention,upsert.property}.test.ts',
  'tests/schedule/{failures,fencing,levelYear,outcome,scheduler,webhooks,year}.test.ts',
  'tests/delivery/{comingBack,forGood,outbox,ownViews,readers,sender}.test.ts',
  'tests/record/sameSchema.test.ts',
];
/** A simulated year takes minutes in this process; on a real server it takes seconds. */
const SLOW_IN_PROCESS = ['tests/schedule/year.test.ts'];
/**
 * Where a server runs all of them, the database in the process, which no user has, is asked for the same tables only; the
 * long tests (`npm run test:long`) ask it for all.
 */
const LEFT_TO_THE_SERVER = ['tests/{schedule,delivery}/**', 'tests/record/!(sameSchema).test.ts'];
/** They put other modules in the place of the program's own, which holds for a whole worker. */
const APART = 'tests/**/madeUp*.test.ts';
/**
 * Files that take longest or wait for other processes: begun first, so that none of them is what the others wait for in
 * the end. Without a cache of times, as on a fresh checkout, files would begin by their size.
 */
const LONGEST =
  /\/(postgres\/(manyMachines|upgrade)|e2e\/(morning|stop|oneProcess|newcomer)|delivery\/(kill|outbox|lockedOut)|schedule\/(takeover|replay|year)|render\/browser|web\/browser|water\/(river\/accuracy|hindsight|openData)|cli\/learn|briefing\/mornings|advice\/(fish\/verdicts|sweep\/sweep)|outings\/learn|record\/(restore|busy|kill)|gate\/property|units\/patterns)\.test\.ts$/;
class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const rest = ({ project, moduleId }: TestSpecification): string =>
      `${project.name} ${LONGEST.test(moduleId) ? 0 : 1}`;
    // The order within is kept: projects one after the other, for each has workers of its own.
    return (await super.sort(files)).sort((a, b) => (rest(a) < rest(b) ? -1 : rest(a) > rest(b) ? 1 : 0));
  }
}
/** `npm run test:long` */
const isLong = process.env['THAWLINE_LONG'] !== undefined;
const hasServer = ['15', '16', '17'].some((version) =>
  existsSync(`/usr/lib/postgresql/${version}/bin/postgres`),
);

export default defineConfig({
  test: {
    globalSetup: ['tests/builtProgram.ts'],
    setupFiles: ['tests/setup.ts'],
    testTimeout: isLong ? 1_800_000 : 60_000,
    hookTimeout: 120_000,
    // One more than two cores: where a test waits for another process or a clock, the core goes on with the next.
    maxWorkers: 3,
    sequence: { sequencer: LongestFirst },
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
          exclude: hasServer && !isLong ? LEFT_TO_THE_SERVER : SLOW_IN_PROCESS,
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
