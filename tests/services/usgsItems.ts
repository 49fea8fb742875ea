/** Rows and series of one page of a reply of USGS, each read as strictly as the service reads it. */
import { check } from '../../src/services/parse.ts';
import {
  pageOf,
  rowSchema,
  seriesSchema,
  type UsgsRow,
  type UsgsSeries,
} from '../../src/services/usgs/items.ts';

export const rowsOf = (body: unknown): UsgsRow[] =>
  pageOf(body).properties.map((p) => check(rowSchema, p, 'USGS'));

export const seriesOf = (body: unknown): UsgsSeries[] =>
  pageOf(body).properties.map((p) => check(seriesSchema, p, 'USGS'));
