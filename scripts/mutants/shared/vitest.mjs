// In place of 'vitest' in the process that asks mutants: the same `expect`, and tests that are only collected.
import { pathToFileURL } from 'node:url';

// By its address, since the name leads here.
const real = await import(pathToFileURL(process.env.THAWLINE_VITEST).href);
export const { expect, vi, expectTypeOf, assert } = real;

const collected = (globalThis.thawlineTests = []);
const suites = [];

export function describe(name, define) {
  suites.push(name);
  define();
  suites.pop();
}
describe.each = (rows) => (name, define) =>
  rows.forEach((row, i) => describe(`${name} [${i}]`, () => define(...asArguments(row))));

/** Options of a test, such as its patience, say nothing here. */
const runOf = (...rest) => rest.find((one) => typeof one === 'function');

export function it(name, ...rest) {
  const run = runOf(...rest);
  collected.push({ name: [globalThis.thawlineFile, ...suites, name].join(' > '), run });
}
it.each =
  (rows) =>
  (name, ...rest) =>
    rows.forEach((row, i) => it(`${name} [${i}]`, () => runOf(...rest)(...asArguments(row))));
export const test = it;

const asArguments = (row) => (Array.isArray(row) ? row : [row]);

/** What `tests/setup.ts` does around files keeps them apart from each other and the network; here one room is asked. */
const nothing = () => undefined;
export const beforeAll = (run) => run();
export { nothing as afterAll, nothing as afterEach, nothing as beforeEach };
