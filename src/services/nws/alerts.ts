import { z } from 'zod';
import type { OfficialAlert } from '../../record/index.ts';
import { ATTRIBUTIONS } from '../attributions.ts';
import { unnoted, type Note } from '../note.ts';
import { check, instantMs } from '../parse.ts';

const NAME = ATTRIBUTIONS.nws.name;
const text = z.string().nullish();

const alertSchema = z.object({
  '@id': text,
  id: text,
  event: z.string(),
  status: text,
  messageType: text,
  severity: text,
  headline: text,
  description: text,
  instruction: text,
  senderName: text,
  sender: text,
  effective: text,
  onset: text,
  ends: text,
  expires: text,
  references: z.array(z.object({ '@id': text, identifier: text })).nullish(),
});
type Alert = z.infer<typeof alertSchema>;
const listSchema = z.object({ features: z.array(z.object({ properties: z.unknown() })) });
/** What stands in for a statement that could not be read: whoever reads it looks it up at the issuer. */
const UNREADABLE: Alert = { event: 'Official statement that could not be read here' };

/**
 * Official alerts in force, verbatim: tests and cancelled or replaced messages dropped, each once.
 *
 * The hazard is over at `ends`; `expires` is only the message. An alert with neither is kept, because the service
 * lists it as active.
 *
 * A statement that cannot be read is kept as one that says so: it must not look like none, nor cost the others.
 *
 * @param note  told of each statement that could not be read
 * @throws ThawlineError for an unknown shape of the list
 */
export function mapAlerts(body: unknown, lake: string, nowMs: number, note: Note = unnoted): OfficialAlert[] {
  const actual = check(listSchema, body, NAME)
    .features.map(({ properties }, n): Alert => {
      const read = alertSchema.safeParse(properties);
      if (read.success) return read.data;
      note(
        `${NAME}: an official statement could not be read (at ${read.error.issues[0]?.path.join('.') ?? ''}).`,
      );
      return { ...UNREADABLE, id: `unreadable-${n}` };
    })
    .filter((alert) => (alert.status ?? 'Actual') === 'Actual');
  const replaced = new Set(
    actual.flatMap((a) => (a.references ?? []).map((r) => r.identifier ?? idIn(r['@id']))),
  );
  const kept = new Map<string, OfficialAlert>();
  for (const alert of actual) {
    const id = idOf(alert);
    const endsMs = instantMs(alert.ends);
    const over = endsMs !== null && endsMs <= nowMs;
    if (alert.messageType === 'Cancel' || replaced.has(id) || over || kept.has(id)) continue;
    kept.set(id, {
      id,
      lake,
      issuer: alert.senderName ?? alert.sender ?? NAME,
      event: alert.event,
      severity: alert.severity ?? 'Unknown',
      headline: alert.headline ?? alert.event,
      description: alert.description ?? '',
      instruction: alert.instruction ?? '',
      onsetMs: instantMs(alert.onset ?? alert.effective),
      endsMs,
      expiresMs: instantMs(alert.expires),
      ...(alert['@id']?.startsWith('https://') === true ? { url: alert['@id'] } : {}),
    });
  }
  return [...kept.values()];
}

function idOf(alert: Alert): string {
  return alert.id ?? idIn(alert['@id']) ?? `${alert.event}@${alert.onset ?? alert.effective ?? ''}`;
}

function idIn(address: string | null | undefined): string | undefined {
  return address?.split('/').at(-1);
}
