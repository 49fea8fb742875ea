/** Bottom line, subject: the two lines most readers remember. */
import type { Advice, Evidence, PositionAdvice } from '../advice/types.ts';
import type { Conditions, SignalReport } from '../signals/types.ts';
import { SIGNALS } from '../signals/types.ts';
import type { LakeConfig } from '../config/types.ts';
import { expandQuantities, quantity } from '../units/placeholder.ts';
import type { Messages } from '../words/index.ts';
import { dateWords, hourWords } from './when.ts';

/** Longest bottom line in characters, in either unit system: what a phone shows without opening the mail. */
export const BOTTOM_LINE_MAX = 140;

/** Water at or below this carries the cold-water line with every bottom line (common practice, no source). */
export const COLD_WATER_C = 15;

const fits = (text: string): boolean =>
  (['us', 'metric'] as const).every((units) => expandQuantities(text, units).length <= BOTTOM_LINE_MAX);

/**
 * Bottom line: action plus because, at most 140 characters in both unit systems. Candidates go from rich to bare;
 * the first that fits is taken, so that no sentence is ever cut in the middle of a number.
 */
export function bottomLine(advice: Advice, report: SignalReport, nil: boolean, m: Messages): string {
  const { conditions, clarity } = report;
  const cold = coldLine(conditions, m);
  const words = m.bottomLineOf;
  const finish = (start: string): string[] => [`${start}. ${cold}`.trim(), `${start}.`];
  if (nil) return [`${words.nil} ${cold}`.trim(), words.nil].find(fits) ?? words.nil;

  const { safety } = advice;
  if (safety.level >= 3) {
    const start = safety.level === 4 ? words.stayAshore : words.serious;
    const hazard = safety.hazards[0];
    const headline = hazard === undefined ? [] : [`${start}. ${ended(hazard.headline)}`];
    return (
      [...headline.map((line) => `${line} ${cold}`.trim()), ...headline, `${start}.`].find(fits) ??
      `${start}.`
    );
  }

  const first = advice.positions[0];
  if (first === undefined)
    return [`${words.noPlace} ${cold}`.trim(), words.noPlace].find(fits) ?? words.noPlace;
  const when =
    first.hours !== undefined
      ? words.between(hourWords(first.hours[0]), hourWords(first.hours[1]))
      : first.bound === 'dark'
        ? words.dark
        : '';
  const place = lowerFirst(first.name);
  const { named } = first;
  const startNamed =
    named === undefined ? words.start(place, when) : words.startNamed(inert(named), place, when);
  const reason = shortReason(first, clarity, m);
  const because = reason === null ? '' : words.because(reason);
  const inFull = reason === null ? strongestOf(first)[0]?.sentence : undefined;
  const reasoned = inFull === undefined ? [] : [`${words.reason(startNamed, inFull)} ${cold}`.trim()];
  const candidates = [
    ...reasoned,
    ...finish(startNamed + because),
    ...finish(words.start(place, when) + because),
    ...finish(words.start(place, '') + because),
    ...finish(words.start(place, when)),
    ...finish(words.start(place, '')),
  ];
  // While the water is cold the life-jacket line outranks the reason.
  const safe = cold === '' ? candidates : candidates.filter((line) => line.endsWith(cold));
  return safe.find(fits) ?? candidates.find(fits) ?? (cold === '' ? words.noPlace : cold);
}

function coldLine(conditions: Conditions, m: Messages): string {
  const water = conditions.signals.waterC;
  if (water === undefined || water.freshness === 'stale' || water.value > COLD_WATER_C) return '';
  return m.bottomLineOf.coldWater(quantity('temperature', water.value));
}

const strongestOf = ({ evidence }: PositionAdvice): Evidence[] =>
  evidence.filter(({ contribution }) => contribution > 0).sort((a, b) => b.contribution - a.contribution);

/** Half a line from the strongest reason for a place, where the catalogue has one for its signal. */
function shortReason(position: PositionAdvice, clarity: SignalReport['clarity'], m: Messages): string | null {
  for (const part of strongestOf(position)) {
    const reason = reasonFor(part.signal, m);
    if (reason === undefined || part.value === null || part.signal === 'phase') continue;
    // A depth of sight that nobody measured is no reason: its class is.
    if (part.signal === 'clarityM' && clarity?.measured === false) return m.clarityReason[clarity.class];
    const id = part.signal as keyof typeof SIGNALS;
    const kind = SIGNALS[id];
    const directed = kind === 'temperatureDifference' || kind === 'levelChange';
    return reason(quantity(kind, directed ? Math.abs(part.value) : part.value), part.value > 0);
  }
  return null;
}

function reasonFor(signal: string, m: Messages): ((v: string, positive: boolean) => string) | undefined {
  const reasons: Readonly<Record<string, (v: string, positive: boolean) => string>> = m.reason;
  return reasons[signal];
}

/** Subject: lake, date, level, water, first place; the hazard instead from level 3. */
export function subjectLine(
  lake: LakeConfig,
  advice: Advice,
  conditions: Conditions,
  nil: boolean,
  m: Messages,
): string {
  const date = dateWords(conditions.date, m);
  if (nil) return m.subject.nil(lake.name, date);
  const level = m.subject.level(advice.safety.level, m.levelWords[advice.safety.level]);
  const hazard = advice.safety.hazards[0];
  const first = advice.positions[0];
  if (hazard !== undefined && (advice.safety.level >= 3 || first === undefined)) {
    return m.subject.hazard(lake.name, date, level, unended(hazard.headline));
  }
  if (first === undefined) return m.subject.hazard(lake.name, date, level, unended(m.positions.none));
  const water = conditions.signals.waterC;
  const unknown = water === undefined || water.freshness === 'stale';
  return m.subject.withPlace(
    lake.name,
    date,
    level,
    unknown ? '' : m.subject.water(quantity('temperature', water.value)),
    lowerFirst(first.name),
  );
}

export const lowerFirst = (text: string): string =>
  /^[A-Z][a-z]/.test(text) ? text.charAt(0).toLowerCase() + text.slice(1) : text;
/** Foreign text must not be read as a placeholder. */
export const inert = (text: string): string => text.replaceAll('{{', '{ {');
/** A clause made a sentence: capital first, full stop last. */
export const sentenceOf = (text: string): string =>
  text === '' ? '' : ended(/^[a-z]/.test(text) ? text.charAt(0).toUpperCase() + text.slice(1) : text);
const ended = (text: string): string => (/[.!?]$/.test(text) ? text : `${text}.`);
const unended = (text: string): string => text.replace(/\.$/, '');
