/** Shapes that a record keeps for later processes, in whichever database. */
import { afterAll, beforeAll, expect, it } from 'vitest';
import { keepShapes, type RecordStore } from '../../src/record/index.ts';
import { freshRecord } from '../helpers/record.ts';

let record: RecordStore;
beforeAll(async () => {
  record = await freshRecord();
});
afterAll(() => record.close());

const all = () => record.db.selectFrom('kept_shape').selectAll().orderBy('lake').orderBy('part').execute();

it('are kept once for each lake and each pocket, the newest in the place of the one before', async () => {
  const of = (lake: string, part: string, key: string) => ({ lake, part, key, body: `{"key":"${key}"}` });
  await keepShapes(record, [of('a', '', '1'), of('a', 'mill', '2'), of('b', '', '3')]);
  await keepShapes(record, [of('a', '', '4')]);
  await keepShapes(record, []);
  expect((await all()).map(({ lake, part, key, body_json }) => [lake, part, key, body_json])).toEqual([
    ['a', '', '4', '{"key":"4"}'],
    ['a', 'mill', '2', '{"key":"2"}'],
    ['b', '', '3', '{"key":"3"}'],
  ]);
});
