import { seriesOf } from './series.ts';
import type { DeliveryRecord } from '../delivery/readers.ts';
import type { ObservationKind, Variable } from '../types.ts';

export interface Span {
  readonly firstMs: number;
  readonly lastMs: number;
}

/**
 * First and last stored instant of a lake's measured series; null when there is none. Asks each series for its two
 * ends, which the key answers at once; one minimum over a join would read every row of ten years.
 *
 * @param only narrows to a variable or a kind
 */
export async function spanOf(
  { db }: DeliveryRecord,
  lake: string,
  only: { readonly variable?: Variable; readonly kind?: ObservationKind } = {},
): Promise<Span | null> {
  const firsts: number[] = [];
  const lasts: number[] = [];
  for (const series of await seriesOf(db, lake)) {
    if (series.kind === 'forecast') continue;
    if (only.variable !== undefined && series.variable !== only.variable) continue;
    if (only.kind !== undefined && series.kind !== only.kind) continue;
    const end = async (direction: 'asc' | 'desc'): Promise<number | undefined> => {
      const row = await db
        .selectFrom('observation')
        .select('at_ms')
        .where('series_id', '=', series.id)
        .orderBy('at_ms', direction)
        .limit(1)
        .executeTakeFirst();
      return row?.at_ms;
    };
    const [first, last] = [await end('asc'), await end('desc')];
    if (first !== undefined) firsts.push(first);
    if (last !== undefined) lasts.push(last);
  }
  return firsts.length === 0 ? null : { firstMs: Math.min(...firsts), lastMs: Math.max(...lasts) };
}
