/** Bottom line, subject: the two lines most readers remember. */
import { ashoreAllDay, isClosedDay, type Briefing, type PositionFacts } from '../../briefing/index.ts';
import { SIGNALS } from '../../vocabulary/index.ts';
import { expandQuantities, quantity } from '../../units/index.ts';
import type { Messages } from '../en/page.ts';
import { ended, inert, lowerFirst, unended } from './sentence.ts';
import { dateWords, hourWords } from './when.ts';
import type { Teller } from './teller.ts';

/** Longest bottom line in characters, in either unit system: what a phone shows without opening the mail. */
export const BOTTOM_LINE_MAX = 140;

/** Water at or below this carries the cold-water line with every bottom line (common practice, no source). */
export const COLD_WATER_C = 15;

const fits = (text: string): boolean =>
  (['us', 'metric'] as const).every((units) => expandQuantities(text, units).length <= BOTTOM_LINE_MAX);

interface Start {
  readonly name: PositionFacts['name'];
  readonly named: string | undefined;
  /** Hours of the plan's first block or of the place; '' where none are told. */
  readonly when: string;
  /** What speaks for the place. */
  readonly position: PositionFacts | undefined;
}

const noHours = (facts: Briefing): boolean =>
  facts.status !== 'nil' && facts.plan != null && isClosedDay(facts.plan);

/** Where the day starts: the plan's first block, or without one the first place. */
function startOf(facts: Briefing, m: Messages): Start | undefined {
  if (facts.status === 'nil' || noHours(facts)) return undefined;
  const words = m.bottomLineOf;
  const block = facts.plan?.blocks[0];
  if (block !== undefined)
    return {
      name: block.name,
      named: block.named,
      when: words.between(block.from, block.to),
      position: facts.positions.find(({ place }) => place === block.place),
    };
  const first = facts.positions[0];
  if (first === undefined) return undefined;
  const { name, named, hours, bound } = first;
  const when =
    hours !== undefined
      ? words.between(hourWords(hours[0]), hourWords(hours[1]))
      : bound === 'dark'
        ? words.dark
        : '';
  return { name, named, when, position: first };
}

/**
 * Bottom line: action plus because, at most 140 characters in both unit systems. Candidates go from rich to bare;
 * the first that fits is taken, so that no sentence is ever cut in the middle of a number.
 */
export function bottomLine(facts: Briefing, m: Messages, tell: Teller): string {
  const cold = coldLine(facts, m);
  const words = m.bottomLineOf;
  const finish = (start: string): string[] => [`${start}. ${cold}`.trim(), `${start}.`];
  if (facts.status === 'nil') return [`${words.nil} ${cold}`.trim(), words.nil].find(fits) ?? words.nil;

  const { safety } = facts;
  if (safety.level >= 3) {
    const start = ashoreAllDay(facts) ? words.stayAshore : words.serious;
    const hazard = safety.hazards[0];
    const headline = hazard === undefined ? [] : [`${start}. ${ended(tell.hazard(hazard).headline)}`];
    return (
      [...headline.map((line) => `${line} ${cold}`.trim()), ...headline, `${start}.`].find(fits) ??
      `${start}.`
    );
  }

  const first = startOf(facts, m);
  if (first === undefined) {
    const none = noHours(facts) ? words.noHours : words.noPlace;
    return [`${none} ${cold}`.trim(), none].find(fits) ?? none;
  }
  const { named, when, position } = first;
  const place = lowerFirst(tell(first.name));
  const startNamed =
    named === undefined ? words.start(place, when) : words.startNamed(inert(named), place, when);
  const reason = position === undefined ? null : shortReason(position, facts, m);
  const because = reason === null ? '' : words.because(reason);
  const strongest = position?.reasons[0];
  const reasoned =
    reason !== null || strongest === undefined
      ? []
      : [`${words.reason(startNamed, tell(strongest.sentence))} ${cold}`.trim()];
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

/** The lake's temperature as the table shows it, degC; undefined where it is not known. */
const lakeC = (facts: Briefing): number | undefined =>
  facts.conditions.find(({ id }) => id === 'waterC')?.now?.value;

function coldLine(facts: Briefing, m: Messages): string {
  const water = lakeC(facts);
  return water === undefined || water > COLD_WATER_C
    ? ''
    : m.bottomLineOf.coldWater(quantity('temperature', water));
}

/** Half a line from the strongest reason for a place, where the catalogue has one for its signal. */
function shortReason(position: PositionFacts, facts: Briefing, m: Messages): string | null {
  const guess = facts.conditions.find(({ id }) => id === 'clarityM')?.guess;
  for (const { signal, value } of position.reasons) {
    const reason = reasonFor(signal, m);
    if (reason === undefined || value === null || signal === 'phase') continue;
    // A depth of sight that nobody measured is no reason: its class is.
    if (signal === 'clarityM' && guess !== undefined) return m.clarityReason[guess];
    const id = signal as keyof typeof SIGNALS;
    const kind = SIGNALS[id];
    const directed = kind === 'temperatureDifference' || kind === 'levelChange';
    return reason(quantity(kind, directed ? Math.abs(value) : value), value > 0);
  }
  return null;
}

function reasonFor(signal: string, m: Messages): ((v: string, positive: boolean) => string) | undefined {
  const reasons: Readonly<Record<string, (v: string, positive: boolean) => string>> = m.reason;
  return reasons[signal];
}

/** Subject: lake, date, level, water, where the day starts; the hazard instead from level 3. */
export function subjectLine(facts: Briefing, levelWords: string, m: Messages, tell: Teller): string {
  const date = dateWords(facts.date, m);
  const { lake, safety } = facts;
  if (facts.status === 'nil') return m.subject.nil(inert(lake.name), date);
  const level = m.subject.level(safety.level, levelWords);
  const hazard = safety.hazards[0];
  const first = startOf(facts, m);
  if (hazard !== undefined && (safety.level >= 3 || first === undefined)) {
    return m.subject.hazard(inert(lake.name), date, level, unended(tell.hazard(hazard).headline));
  }
  const water = lakeC(facts);
  const waterWords = water === undefined ? '' : m.subject.water(quantity('temperature', water));
  if (first === undefined)
    return noHours(facts)
      ? m.subject.noHours(inert(lake.name), date, level, waterWords)
      : m.subject.hazard(inert(lake.name), date, level, unended(m.positions.none));
  return m.subject.withPlace(
    inert(lake.name),
    date,
    level,
    waterWords,
    first.named === undefined ? lowerFirst(tell(first.name)) : inert(first.named),
  );
}
