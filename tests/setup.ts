/**
 * No test may leave loopback, and no prepared reply may be left unused. Property tests draw from one seed, so that a
 * failure is the same everywhere; THAWLINE_SEED=<number> tries another. Files share a worker: what one of them puts in the
 * place of a clock or a printer ends with it.
 */
import fc from 'fast-check';
import nock from 'nock';
import { afterAll, afterEach, beforeAll, expect, vi } from 'vitest';

fc.configureGlobal({ seed: Number(process.env['THAWLINE_SEED'] ?? 20260306) });

beforeAll(() => {
  nock.disableNetConnect();
  nock.enableNetConnect(/^(127\.0\.0\.1|localhost|\[::1\])(:\d+)?$/);
});

afterEach(() => {
  const left = nock.pendingMocks();
  nock.cleanAll();
  expect(left, 'prepared replies that the test never asked for').toEqual([]);
});

afterAll(() => {
  vi.useRealTimers();
  vi.restoreAllMocks();
});
