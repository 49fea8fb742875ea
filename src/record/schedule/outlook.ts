/** What past issues said of the water ahead, for later ones to learn from. */
import type { Kysely } from 'kysely';
import { z } from 'zod';
import { dayNumber } from '../../units/time/index.ts';
import type { Database } from '../schema/index.ts';
import type { PastOutlook } from '../types.ts';

/** What an issued document of any version says of a day ahead. */
const issueSchema = z.object({
  status: z.literal(['scheduled', 'amended', 'corrected']),
  demo: z.literal(false),
  preview: z.literal(false),
  date: z.iso.date(),
  series: z.object({
    days: z.array(
      z.object({
        date: z.iso.date(),
        forecast: z.boolean(),
        waterC: z.number().optional(),
        waterHighC: z.number().optional(),
        waterRawC: z.number().optional(),
        waterRawHalfC: z.number().optional(),
      }),
    ),
  }),
});

export interface OutlookDay {
  readonly lead_days: number;
  readonly water_c: number;
  readonly half_c: number;
}

/**
 * The days ahead of an issued document, as the model had them before any lesson. None of what is no promise to a reader
 * (demonstrations, previews, an empty briefing) or is not a document of ours.
 */
export function outlookOf(documentJson: string): OutlookDay[] {
  const found = issueSchema.safeParse(parsed(documentJson));
  if (!found.success) return [];
  const { date: issued, series } = found.data;
  return series.days.flatMap(({ date, forecast, waterC, waterHighC, waterRawC, waterRawHalfC }) => {
    const lead = dayNumber(date) - dayNumber(issued);
    if (!forecast || lead < 1 || waterC === undefined || waterHighC === undefined) return [];
    return [{ lead_days: lead, water_c: waterRawC ?? waterC, half_c: waterRawHalfC ?? waterHighC - waterC }];
  });
}

function parsed(documentJson: string): unknown {
  try {
    return JSON.parse(documentJson) as unknown;
  } catch {
    return undefined;
  }
}

/** Puts an issue's days ahead in the place of those of the same date. */
export async function putOutlook(
  tx: Kysely<Database>,
  of: { readonly lake_id: string; readonly local_date: string; readonly issued_ms: number },
  documentJson: string,
): Promise<void> {
  await tx
    .deleteFrom('outlook')
    .where('lake_id', '=', of.lake_id)
    .where('local_date', '=', of.local_date)
    .execute();
  const rows = outlookOf(documentJson).map((day) => ({ ...of, ...day }));
  if (rows.length > 0) await tx.insertInto('outlook').values(rows).execute();
}

/** Outlooks issued before an instant, of issues of a local date or later, oldest first. */
export async function outlooksKnown(
  db: Kysely<Database>,
  lake: string,
  fromDate: string,
  asOfMs: number,
): Promise<PastOutlook[]> {
  const rows = await db
    .selectFrom('outlook')
    .select(['local_date', 'lead_days', 'water_c', 'half_c'])
    .where('lake_id', '=', lake)
    .where('local_date', '>=', fromDate)
    .where('issued_ms', '<', asOfMs)
    .orderBy('local_date')
    .orderBy('lead_days')
    .execute();
  return rows.map((row) => ({
    issued: row.local_date,
    leadDays: row.lead_days,
    waterC: row.water_c,
    halfC: row.half_c,
  }));
}
