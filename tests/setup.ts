/** No test may leave loopback, and no prepared reply may be left unused. */
import nock from 'nock';
import { afterEach, beforeAll, expect } from 'vitest';

beforeAll(() => {
  nock.disableNetConnect();
  nock.enableNetConnect(/^(127\.0\.0\.1|localhost|\[::1\])(:\d+)?$/);
});

afterEach(() => {
  const left = nock.pendingMocks();
  nock.cleanAll();
  expect(left, 'prepared replies that the test never asked for').toEqual([]);
});
