import { z } from 'zod';
import type { OfficialAlert } from '../../record/types.ts';
import { ATTRIBUTIONS } from '../attributions.ts';
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
const listSchema = z.object({ features: z.array(z.object({ properties: alertSchema })) });

/**
 * Official alerts in force, verbatim: tests and cancelled or replaced messages dropped, each once.
 *
 * The hazard is over at `ends`; `expires` is only the message. An alert with neither is kept, because the service
 * lists it as active.
 *
 * @throws ThawlineError for an unknown shape, since alerts that cannot be read must not look like none
 */
export function mapAlerts(body: unknown, lake: string, nowMs: number): OfficialAlert[] {
  const actual = check(listSchema, body, NAME)
    .features.map((f) => f.properties)
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
