import type { SafetyTable } from '../../config/index.ts';
import { outsideLine, outsideText } from '../../units/index.ts';
import type { FloodCategory, Hazard } from '../types.ts';
import type { FloodWord, LakeAlert } from './types.ts';

/** Characters of a statement that the page has room for; whoever wrote more is named with the address of all of it. */
const LONGEST_CHARS = {
  event: 120,
  headline: 400,
  instruction: 1200,
  text: 4000,
  issuer: 120,
  url: 500,
} as const;

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
    .sort((a, b) => b.level - a.level || compare(orderOf(a), orderOf(b)));
}

const endOf = (alert: LakeAlert): number | null => alert.endsMs ?? alert.expiresMs;
const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
type Official = Extract<Hazard, { code: 'official' }>;
const orderOf = ({ id, text, endsMs }: Official): string => `${id}\n${text}\n${endsMs ?? ''}`;

function hazardOfAlert(alert: LakeAlert, zone: string, rules: SafetyTable['official']): Official {
  const event = outsideLine(alert.event, LONGEST_CHARS.event);
  const { text, cut } = outsideText(
    [alert.description, alert.instruction].filter((part) => part.trim() !== '').join('\n\n'),
    LONGEST_CHARS.text,
  );
  return {
    code: 'official',
    id: `official-${event.toLowerCase().replaceAll(/[^a-z0-9]+/g, '-')}`,
    level: rules.severities[alert.severity] ?? rules.other,
    source: outsideLine(alert.issuer, LONGEST_CHARS.issuer),
    event,
    headline: outsideLine(alert.headline, LONGEST_CHARS.headline),
    instruction: outsideLine(alert.instruction, LONGEST_CHARS.instruction),
    text,
    endsMs: endOf(alert),
    zone,
    ...(cut ? { cut } : {}),
    ...(cut && alert.url !== undefined ? { url: outsideLine(alert.url, LONGEST_CHARS.url) } : {}),
  };
}

const isCategory = (word: FloodWord | undefined): word is FloodCategory =>
  word !== undefined && word !== 'none' && word !== 'unknown';

/** Hazard of the flood gauge's category; null where there is none or it is unknown. */
export function floodHazard(category: FloodWord | undefined, rules: SafetyTable['flood']): Hazard | null {
  if (!isCategory(category)) return null;
  return {
    code: 'flood',
    id: 'flood',
    level: rules.categories[category].level,
    source: rules.source,
    ...(rules.closes === undefined ? {} : { closes: rules.closes }),
    category,
  };
}
