// Asks mutants one after the other in a process that keeps the tests loaded: `node --import tsx worker.mjs job.json`,
// in the copy of the tree whose room is instrumented. A line of JSON for each thing that happens.
import { readFileSync, writeSync } from 'node:fs';
import { register } from 'node:module';
import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';

register('./alias.mjs', import.meta.url);
const { files, mutants, fromStart, mostMs, fails } = JSON.parse(readFileSync(process.argv[2], 'utf8'));
const ns = (globalThis.__stryker__ ??= {});
const say = (event) => writeSync(1, `${JSON.stringify(event)}\n`);

const LOADING_MS = 5000;

/** Caches of the room: what a mutant left in them, or what was kept before it, may not decide on another. */
const caches = [];
let isLoaded = false;
class Cache {
  constructor(Kind, entries) {
    this.Kind = Kind;
    this.base = new Kind(entries);
    this.over = new Kind();
    caches.push(this);
  }
  get(key) {
    return this.over.has(key) ? this.over.get(key) : this.base.get(key);
  }
  has(key) {
    return this.over.has(key) || this.base.has(key);
  }
  set(key, value) {
    (isLoaded ? this.over : this.base).set(key, value);
    return this;
  }
  get size() {
    return new Set([...this.base.keys(), ...this.over.keys()]).size;
  }
  *entries() {
    for (const key of new Set([...this.base.keys(), ...this.over.keys()])) yield [key, this.get(key)];
  }
  *keys() {
    for (const [key] of this.entries()) yield key;
  }
  *values() {
    for (const [, value] of this.entries()) yield value;
  }
  forEach(call) {
    for (const [key, value] of this.entries()) call(value, key, this);
  }
  delete(key) {
    return this.over.delete(key);
  }
  [Symbol.iterator]() {
    return this.entries();
  }
}
globalThis.thawlineCache = (Kind) => (entries) => new Cache(Kind, entries);

const static_ = fromStart ? mutants[0] : undefined;
if (static_ !== undefined) {
  say({ asked: static_.id });
  ns.activeMutant = static_.id;
  ns.hitCount = 0;
  ns.hitLimit = static_.hitLimit;
}
/** Of the processor, which other work on the machine does not lengthen. */
const processorMs = () => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
};

/** @returns why it failed; undefined where it did not */
async function failure(test) {
  try {
    await test.run();
    return undefined;
  } catch (error) {
    return error instanceof Error ? error.message : String(error);
  }
}

/** @returns the tests of a file */
async function load(file) {
  const before = globalThis.thawlineTests?.length ?? 0;
  globalThis.thawlineFile = file;
  await import(pathToFileURL(resolve(file)).href);
  return globalThis.thawlineTests.slice(before);
}

await import(pathToFileURL(resolve('tests/setup.ts')).href);
const fc = (await import(pathToFileURL(resolve('node_modules/fast-check/lib/fast-check.js')).href)).default;
// Which input a property fails on is of no interest here: the first will do.
fc.configureGlobal({ ...fc.readConfigureGlobal(), endOnFailure: true });

// With the mutant from the start: file by file, until one of them fails or does not even load.
if (static_ !== undefined) {
  let killer;
  let [ran, tests] = [0, 0];
  const from = processorMs();
  // Loading a file takes its time too.
  const isOver = () => ran > 0 && processorMs() - from > mostMs + LOADING_MS;
  for (const file of files) {
    if (killer !== undefined || isOver()) break;
    const own = await load(file).catch(() => undefined);
    if (own === undefined) killer = `loading ${file}`;
    for (const test of (own ?? []).filter(({ name }) => !fails.includes(name))) {
      tests += 1;
      if (killer !== undefined || isOver()) continue;
      ran += 1;
      if ((await failure(test)) !== undefined) killer = test.name;
    }
  }
  const isEndless = ns.hitLimit !== undefined && ns.hitCount > ns.hitLimit;
  const status = isEndless ? 'Endless' : killer === undefined ? 'Survived' : 'Killed';
  const isWhole = !isOver();
  say({ verdict: static_.id, status, by: killer, tests: isWhole ? tests : tests + 1, ran });
  process.exit(0);
}

for (const file of files) await load(file);
isLoaded = true;
const tests = globalThis.thawlineTests.map((one, id) => ({ ...one, id: String(id), ms: 1, kills: {} }));

// Once without a mutant: which tests reach which, and how long each takes.
const begun = performance.now();
for (const test of tests) {
  ns.currentTestId = test.id;
  const from = processorMs();
  const why = await failure(test);
  test.ms = processorMs() - from;
  // What fails as it is says nothing of a mutant.
  test.fails = why !== undefined;
  if (test.fails) say({ fault: why, test: test.name });
}
ns.currentTestId = undefined;
const { static: atLoad = {}, perTest = {} } = ns.mutantCoverage ?? {};
const hitsOf = (id) =>
  (atLoad[id] ?? 0) + Object.values(perTest).reduce((sum, hits) => sum + (hits[id] ?? 0), 0);
const usedMs = tests.reduce((sum, { ms }) => sum + ms, 0);
say({ ready: tests.length, ms: performance.now() - begun, usedMs });
const forget = () =>
  caches.forEach((cache) => {
    cache.over = new cache.Kind();
  });
/** How many words of a source's path stand in the path of a test: they are the likeliest to notice. */
const sharedWords = (source, test) => {
  const words = source.replace(/\.ts$/, '').toLowerCase().split('/').slice(2);
  const path = test.split(' > ')[0].toLowerCase();
  return words.filter((word) => word !== 'index' && path.includes(word)).length;
};
for (const { id, file, killer: before } of mutants) {
  const reached = tests.filter((test) => !test.fails && perTest[test.id]?.[id]);
  const hitLimit = 100 * hitsOf(id);
  if (reached.length === 0) {
    say({ verdict: id, status: 'NoCoverage', atLoad: atLoad[id] !== undefined, hitLimit });
    continue;
  }
  say({ asked: id, hitLimit });
  // The one that noticed it in an earlier run first, then short ones and those that noticed much of its file so far.
  const worth = ({ name, kills, ms }) =>
    name === before
      ? Infinity
      : (1 + (kills.all ?? 0) + 10 * (kills[file] ?? 0) + 20 * sharedWords(file, name)) / (ms + 20);
  reached.sort((a, b) => worth(b) - worth(a));
  forget();
  ns.activeMutant = id;
  let killer;
  let isEndless = false;
  let asked = 0;
  const from = processorMs();
  for (const test of reached) {
    if (asked > 0 && processorMs() - from > mostMs) break;
    asked += 1;
    // By what this test alone needs: a hundred times what all of them do can take an hour.
    Object.assign(ns, { hitCount: 0, hitLimit: 100 * perTest[test.id][id] });
    const why = await failure(test);
    isEndless = ns.hitCount > ns.hitLimit;
    if (why === undefined && !isEndless) continue;
    killer = test;
    break;
  }
  Object.assign(ns, { activeMutant: undefined, hitCount: undefined, hitLimit: undefined });
  forget();
  // A test that fails without the mutant too says that something was left behind: a process of its own decides.
  if (killer !== undefined && (await failure(killer)) !== undefined) {
    say({ spoilt: id });
    process.exit(3);
  }
  if (killer !== undefined) for (const one of ['all', file]) killer.kills[one] = (killer.kills[one] ?? 0) + 1;
  say({
    verdict: id,
    status: isEndless ? 'Endless' : killer === undefined ? 'Survived' : 'Killed',
    by: killer?.name,
    tests: reached.length,
    ran: asked,
    atLoad: atLoad[id] !== undefined,
    hitLimit,
  });
}
