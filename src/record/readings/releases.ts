/** Hours of release that an operator told, as rows; what they mean for the day is worked out above. */
import type { Kysely } from 'kysely';
import type { Database } from '../schema/index.ts';
import type { ReleaseTable } from '../schema/releases.ts';
import type { Release, ToldRelease } from '../types.ts';
import { writing } from '../writing.ts';

/** The version of each that counted at an instant. */
function newest(rows: readonly ReleaseTable[]): ReleaseTable[] {
  // In order of their telling: the last one of an id stays.
  return [...new Map(rows.map((row) => [row.id, row])).values()].filter(({ gone }) => gone === 0);
}

/**
 * A lake's hours of release that end after an instant, as they were told by another, oldest first. What was taken back
 * later still stands before that: the past keeps what it was told.
 */
export async function releasesKnown(
  db: Kysely<Database>,
  lake: string,
  afterMs: number,
  knownByMs: number,
): Promise<ToldRelease[]> {
  const rows = await db
    .selectFrom('told_release')
    .selectAll()
    .where('lake', '=', lake)
    .where('to_ms', '>', afterMs)
    .where('known_ms', '<=', knownByMs)
    .orderBy('known_ms')
    .execute();
  return newest(rows)
    .sort((a, b) => a.from_ms - b.from_ms || a.to_ms - b.to_ms)
    .map((row) => ({
      id: row.id,
      lake: row.lake,
      fromMs: row.from_ms,
      toMs: row.to_ms,
      ...(row.flow_m3s === null ? {} : { flowM3s: row.flow_m3s }),
      ...(row.units === null ? {} : { units: row.units }),
      toldMs: row.known_ms,
    }));
}

/**
 * Takes back and adds hours of release, all in one step. One that stands already keeps the instant at which it was first
 * told, also where it is both taken back and added.
 *
 * @param knownMs when it was told, epoch ms
 */
export async function changeReleases(
  db: Kysely<Database>,
  { add, takeBack }: { readonly add: readonly Release[]; readonly takeBack: readonly string[] },
  knownMs: number,
): Promise<void> {
  const added = new Set(add.map(({ id }) => id));
  await writing(db, async (tx) => {
    const ids = [...new Set([...takeBack, ...added])];
    if (ids.length === 0) return;
    const rows = await tx
      .selectFrom('told_release')
      .selectAll()
      .where('id', 'in', ids)
      .orderBy('known_ms')
      .execute();
    const standing = new Map(newest(rows).map((row) => [row.id, row]));
    const changed: ReleaseTable[] = [
      ...[...standing.values()]
        .filter(({ id }) => takeBack.includes(id) && !added.has(id))
        .map((row) => ({ ...row, known_ms: knownMs, gone: 1 })),
      ...add
        .filter(({ id }) => !standing.has(id))
        .map((one) => ({
          id: one.id,
          known_ms: knownMs,
          lake: one.lake,
          from_ms: one.fromMs,
          to_ms: one.toMs,
          flow_m3s: one.flowM3s ?? null,
          units: one.units ?? null,
          gone: 0,
        })),
    ];
    for (const row of changed)
      await tx
        .insertInto('told_release')
        .values(row)
        .onConflict((c) => c.columns(['id', 'known_ms']).doUpdateSet({ gone: row.gone }))
        .execute();
  });
}
