/** What readers want otherwise than the lake has it, and the renderings made for that. */
import { gunzipSync, gzipSync } from 'node:zlib';
import type { Language } from '../../vocabulary/index.ts';
import type { RunKey } from '../schedule/runs.ts';
import { writing } from '../writing.ts';
import type { DeliveryRecord } from './readers.ts';

/** Null: as the lake has it. */
export interface OwnView {
  readonly language: Language | null;
  /** Hours they fish, local, `06:00-11:00`. */
  readonly fishing: string | null;
}

/** One view in one form, and how many readers of a lake want it. */
export interface WantedView extends OwnView {
  readonly units: 'us' | 'metric';
  readonly form: 'full' | 'short';
  readonly readers: number;
}

export interface OwnRendering extends Pick<WantedView, 'units' | 'form'> {
  readonly own: string;
  /** JSON text of the rendered mail. */
  readonly json: string;
}

/** What a view is kept under; '' for one that is all the lake's. */
export const ownKey = ({ language, fishing }: OwnView): string =>
  language === null && fishing === null ? '' : `${language ?? ''} ${fishing ?? ''}`;

/** The views that active readers of a lake want and that are not all the lake's, most wanted first. */
export function wantedViews({ db }: DeliveryRecord, lakeId: string): Promise<WantedView[]> {
  return db
    .selectFrom('reader_lakes')
    .innerJoin('readers', 'readers.id', 'reader_lakes.reader_id')
    .select(['units', 'form', 'language', 'fishing', (e) => e.fn.countAll<number>().as('readers')])
    .where('reader_lakes.lake_id', '=', lakeId)
    .where('readers.state', '=', 'active')
    .where((e) => e.or([e('language', 'is not', null), e('fishing', 'is not', null)]))
    .groupBy(['units', 'form', 'language', 'fishing'])
    .orderBy('readers', 'desc')
    .orderBy('fishing')
    .orderBy('language')
    .orderBy('units')
    .orderBy('form')
    .execute();
}

/** Puts these in place of all that the issue has. */
export async function storeOwnRenderings(
  { db }: DeliveryRecord,
  key: RunKey,
  renderings: readonly OwnRendering[],
): Promise<void> {
  const id = { lake_id: key.lakeId, local_date: key.localDate, edition: key.edition };
  await writing(db, async (tx) => {
    await tx
      .deleteFrom('own_renderings')
      .where('lake_id', '=', key.lakeId)
      .where('local_date', '=', key.localDate)
      .where('edition', '=', key.edition)
      .execute();
    for (const { units, form, own, json } of renderings)
      await tx
        .insertInto('own_renderings')
        .values({ ...id, units, form, own, body: gzipSync(json) })
        .execute();
  });
}

export async function loadOwnRendering(
  { db }: DeliveryRecord,
  key: RunKey,
  { units, form, own }: Omit<OwnRendering, 'json'>,
): Promise<string | undefined> {
  const row = await db
    .selectFrom('own_renderings')
    .select('body')
    .where('lake_id', '=', key.lakeId)
    .where('local_date', '=', key.localDate)
    .where('edition', '=', key.edition)
    .where('units', '=', units)
    .where('form', '=', form)
    .where('own', '=', own)
    .executeTakeFirst();
  return row && gunzipSync(row.body).toString('utf8');
}
