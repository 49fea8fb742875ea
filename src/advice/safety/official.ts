import type { SafetyTable } from '../../config/rulesSafety.ts';
import { inert, outsideLine, outsideText } from '../../units/index.ts';
import type { Hazard } from '../types.ts';
import type { FloodWord, LakeAlert } from './types.ts';

/** Characters of a statement that the page has room for; whoever wrote more is named with the address of all of it. */
const MOST = { event: 120, headline: 400, instruction: 1200, text: 4000, issuer: 120, url: 500 } as const;

/** Official statements still in force, verbatim, each with its issuer and end. */
export function officialHazards(
  alerts: readonly LakeAlert[],
  asOfMs: number,
  zone: string,
  rules: SafetyTable['official'],
): Hazard[] {
  return alerts
    .filter((alert) => (endOf(alert) ?? Infinity) > asOfMs)
    .map((alert) => hazardOfAlert(alert, zone, rules))
    .sort((a, b) => b.level - a.level || compare(textKey(a), textKey(b)));
}

const endOf = (alert: LakeAlert): number | null => alert.endsMs ?? alert.expiresMs;
const textKey = (hazard: Hazard): string => `${hazard.id}\n${hazard.official?.text ?? ''}\n${hazard.when}`;
const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

function hazardOfAlert(alert: LakeAlert, zone: string, rules: SafetyTable['official']): Hazard {
  const endsMs = endOf(alert);
  const event = outsideLine(alert.event, MOST.event);
  const headline = outsideLine(alert.headline, MOST.headline);
  const instruction = outsideLine(alert.instruction, MOST.instruction);
  const { text, cut } = outsideText(
    [alert.description, alert.instruction].filter((part) => part.trim() !== '').join('\n\n'),
    MOST.text,
  );
  return {
    id: `official-${event.toLowerCase().replaceAll(/[^a-z0-9]+/g, '-')}`,
    level: rules.severities[alert.severity] ?? rules.other,
    headline: `OFFICIAL: ${inert(event)}`,
    what: inert(headline === '' ? event : headline),
    where: rules.where,
    when: endsMs === null ? 'Until the issuer ends it.' : `Until ${localTime(endsMs, zone)}.`,
    doThis: instruction === '' ? rules.do : inert(instruction),
    source: outsideLine(alert.issuer, MOST.issuer),
    official: {
      issuer: outsideLine(alert.issuer, MOST.issuer),
      text,
      endsMs,
      ...(cut ? { cut } : {}),
      ...(cut && alert.url !== undefined ? { url: outsideLine(alert.url, MOST.url) } : {}),
    },
  };
}

/** `Sat 21 Mar, 12:00 CDT`: day before month, as everywhere in a briefing. */
function localTime(atMs: number, zone: string): string {
  const parts = new Intl.DateTimeFormat('en-US', {
    timeZone: zone,
    weekday: 'short',
    day: 'numeric',
    month: 'short',
    hour: '2-digit',
    minute: '2-digit',
    hourCycle: 'h23',
    timeZoneName: 'short',
  }).formatToParts(atMs);
  const part = (type: Intl.DateTimeFormatPartTypes): string =>
    parts.find((found) => found.type === type)?.value ?? '';
  const date = `${part('weekday')} ${part('day')} ${part('month')}`;
  return `${date}, ${part('hour')}:${part('minute')} ${part('timeZoneName')}`;
}

/** Hazard of the flood gauge's category; null where there is none or it is unknown. */
export function floodHazard(category: FloodWord | undefined, rules: SafetyTable['flood']): Hazard | null {
  if (category === undefined || category === 'none' || category === 'unknown') return null;
  const entry = rules.categories[category];
  return {
    id: 'flood',
    level: entry.level,
    headline: `${rules.label}: ${entry.headline}`,
    what: entry.what,
    where: rules.where,
    when: rules.when,
    doThis: entry.do,
    source: rules.source,
  };
}
