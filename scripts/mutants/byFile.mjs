// Plugin of Stryker, loaded by its own processes (hence plain JavaScript): its Vitest runner, asked file by file.
// On its own that runner runs every test for whatever is reached while a test file loads (values shared by the tests of a
// file are made then), longest file first. Here each mutant runs the files that reach it, quickest first, until one fails.
import { readFileSync, writeFileSync } from 'node:fs';
import { strykerPlugins as vitestPlugins } from '@stryker-mutator/vitest-runner';
import { declareFactoryPlugin, PluginKind } from '@stryker-mutator/api/plugin';
import { TestStatus } from '@stryker-mutator/api/test-runner';

/** Files that are quick together share one start of the tests, ms of the first run: a start costs about a second. */
const TOGETHER_MS = 3000;

const [{ factory: vitestRunner }] = vitestPlugins;

/** @param runner Stryker's own runner for Vitest, whose Vitest instance and `run` are taken over */
function askedByFile(runner) {
  const runFiles = runner.run.bind(runner);
  async function dryRun(options) {
    // Each file in a worker of its own: what a file reaches is then what it reaches alone.
    isolate(true);
    const result = await runner.dryRun(options).finally(() => isolate(false));
    if (result.status !== 'complete') return result;
    const files = runner.ctx.state
      .getFiles()
      .map((file) => ({
        path: file.filepath,
        ms: (file.setupDuration ?? 0) + (file.collectDuration ?? 0) + (file.result?.duration ?? 0),
        tests: result.tests.filter(({ fileName }) => fileName === file.filepath),
        hits: hitsOf(file.meta.mutantCoverage),
      }))
      .filter(({ tests }) => tests.length > 0)
      .sort((a, b) => a.ms - b.ms);
    writeFileSync(measured(), JSON.stringify(files));
    return { ...result, tests: files.flatMap(timedAsFile), mutantCoverage: coverageOf(files) };
  }

  async function mutantRun(options) {
    const reaching = JSON.parse(readFileSync(measured(), 'utf8')).filter(
      ({ hits }) => options.activeMutant.id in hits,
    );
    let result;
    for (const together of inChunks(reaching)) {
      runner.run = () => runChunk(together);
      // Modules are loaded anew with every start, so that the mutant may always be there while they load.
      result = await runner.mutantRun({ ...options, testFilter: undefined, mutantActivation: 'static' });
      if (result.status !== 'survived') break;
    }
    return result;
  }

  async function runChunk(together) {
    const result = await runFiles({ testFiles: together.map(({ path }) => path) });
    const unloaded = runner.ctx.state
      .getFiles()
      .find((file) => file.result?.state === 'fail' && !hasTests(file));
    if (result.status !== 'complete' || unloaded === undefined) return result;
    // A file that does not even load fails the suite; without a test of it Stryker would not hear of it.
    const [{ id, name }] = together.find(({ path }) => path === unloaded.filepath).tests;
    const failureMessage = unloaded.result.errors?.[0]?.message ?? 'the test file does not load';
    return { ...result, tests: [{ id, name, status: TestStatus.Failed, timeSpentMs: 0, failureMessage }] };
  }

  function isolate(on) {
    for (const project of runner.ctx.projects) project.config.isolate = on;
  }

  return {
    capabilities: () => runner.capabilities(),
    init: () => runner.init(),
    dispose: () => runner.dispose(),
    dryRun,
    mutantRun,
  };
}

/** Where the first run leaves what it measured of each file, quickest first: another process may ask the mutants. */
const measured = () => `${process.env.THAWLINE_MUTANTS}.files.json`;

/** How often a file reached each mutant, while it loaded or in its tests. */
function hitsOf({ static: loading, perTest }) {
  const hits = {};
  for (const reached of [loading, ...Object.values(perTest)])
    for (const [id, times] of Object.entries(reached)) hits[id] = (hits[id] ?? 0) + times;
  return hits;
}

/** The tests of a file, which together are said to take as long as the file: loading it too is to be waited for. */
function timedAsFile({ tests, ms }) {
  const own = tests.reduce((sum, { timeSpentMs }) => sum + timeSpentMs, 0);
  const rest = Math.max(0, ms - own) / tests.length;
  return tests.map((test) => ({ ...test, timeSpentMs: test.timeSpentMs + rest }));
}

/** What a file reaches counts as reached by each of its tests; the first one stands for how often. */
function coverageOf(files) {
  const perTest = {};
  for (const { tests, hits } of files)
    tests.forEach(({ id }, i) => {
      perTest[id] = Object.fromEntries(
        Object.entries(hits).map(([mutant, times]) => [mutant, i === 0 ? times : 1]),
      );
    });
  return { static: {}, perTest };
}

function inChunks(files) {
  const chunks = [];
  let left = 0;
  for (const file of files) {
    if (chunks.length === 0 || file.ms > left) {
      chunks.push([]);
      left = TOGETHER_MS;
    }
    left -= file.ms;
    chunks.at(-1).push(file);
  }
  return chunks;
}

function hasTests({ tasks }) {
  return tasks.length > 0;
}

const byFile = (injector) => askedByFile(vitestRunner(injector));
byFile.inject = vitestRunner.inject;

export const strykerPlugins = [declareFactoryPlugin(PluginKind.TestRunner, 'vitest by file', byFile)];
