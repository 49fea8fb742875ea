import type { Kysely } from 'kysely';
import type { Database } from '../schema/index.ts';
import type { OfficialAlert } from '../types.ts';
import { writing } from '../writing.ts';

/** An answer older than this no longer says that there is nothing. */
const ALERT_CHECK_VALID_MS = 3 * 3_600_000;

/**
 * Notes a successful question for alerts and what it answered; an empty list is an answer too. An alert that says
 * something else, or comes back after a check that did not name it, is a row of its own: what was shown before stays so.
 */
export async function putAlerts(
  db: Kysely<Database>,
  lake: string,
  alerts: readonly OfficialAlert[],
  checkedMs: number,
): Promise<void> {
  await writing(db, async (trx) => {
    const previous = await trx
      .selectFrom('alert_check')
      .select((e) => e.fn.max('checked_ms').as('checked_ms'))
      .where('lake', '=', lake)
      .where('checked_ms', '<', checkedMs)
      .executeTakeFirst();
    await trx
      .insertInto('alert_check')
      .values({ lake, checked_ms: checkedMs })
      .onConflict((c) => c.doNothing())
      .execute();
    for (const alert of alerts) {
      const row = {
        issuer: alert.issuer,
        event: alert.event,
        severity: alert.severity,
        headline: alert.headline,
        description: alert.description,
        instruction: alert.instruction,
        onset_ms: alert.onsetMs,
        ends_ms: alert.endsMs,
        expires_ms: alert.expiresMs,
        url: alert.url ?? null,
      };
      const last = await trx
        .selectFrom('alert')
        .selectAll()
        .where('lake', '=', lake)
        .where('id', '=', alert.id)
        .orderBy('first_seen_ms', 'desc')
        .limit(1)
        .executeTakeFirst();
      const goesOn =
        last !== undefined &&
        last.last_seen_ms >= (previous?.checked_ms ?? Infinity) &&
        Object.entries(row).every(([column, value]) => last[column as keyof typeof row] === value);
      if (goesOn)
        await trx
          .updateTable('alert')
          .set({ last_seen_ms: Math.max(checkedMs, last.last_seen_ms) })
          .where('lake', '=', lake)
          .where('id', '=', alert.id)
          .where('first_seen_ms', '=', last.first_seen_ms)
          .execute();
      else
        await trx
          .insertInto('alert')
          .values({ lake, id: alert.id, first_seen_ms: checkedMs, last_seen_ms: checkedMs, ...row })
          .onConflict((c) => c.columns(['lake', 'id', 'first_seen_ms']).doUpdateSet(row))
          .execute();
    }
  });
}

/**
 * Alerts that the last successful check before `asOfMs` named and that have not ended since.
 * When that check is too old, `checkedMs` is null but what it named is still given: an old warning is worth more than none.
 */
export async function alertsAt(
  db: Kysely<Database>,
  lake: string,
  asOfMs: number,
): Promise<{ alerts: OfficialAlert[]; checkedMs: number | null }> {
  const check = await db
    .selectFrom('alert_check')
    .select('checked_ms')
    .where('lake', '=', lake)
    .where('checked_ms', '<=', asOfMs)
    .orderBy('checked_ms', 'desc')
    .limit(1)
    .executeTakeFirst();
  if (check === undefined) return { alerts: [], checkedMs: null };
  const rows = await db
    .selectFrom('alert')
    .selectAll()
    .where('lake', '=', lake)
    .where('last_seen_ms', '>=', check.checked_ms)
    .where('first_seen_ms', '<=', check.checked_ms)
    .orderBy('id')
    .execute();
  const alerts = rows
    .filter((row) => (row.ends_ms ?? row.expires_ms ?? Infinity) > asOfMs)
    .map((row) => ({
      id: row.id,
      lake: row.lake,
      issuer: row.issuer,
      event: row.event,
      severity: row.severity,
      headline: row.headline,
      description: row.description,
      instruction: row.instruction,
      onsetMs: row.onset_ms,
      endsMs: row.ends_ms,
      expiresMs: row.expires_ms,
      ...(row.url === null ? {} : { url: row.url }),
    }));
  const recent = asOfMs - check.checked_ms <= ALERT_CHECK_VALID_MS;
  return { alerts, checkedMs: recent ? check.checked_ms : null };
}
