import { expect, inject, it } from 'vitest';

it('a real PostgreSQL server is here for the tests that need one', (context) => {
  if (inject('postgresAddress') === '')
    context.skip('NOT TESTED on a real PostgreSQL: none is installed (Debian: apt-get install postgresql)');
  expect(inject('postgresAddress')).toMatch(/^postgres:/);
});
