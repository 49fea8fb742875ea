/** The dangers of the day: the web tells each whole; a mail what hurts and what to do, and from level 3 all of it. */
import { ashoreAllDay } from '../briefing/index.ts';
import type { BriefingPage, PageHazard, Words } from '../words/index.ts';
import { p, small, type Detail, type Item, type Section } from './items.ts';
import { freshSentences } from './once.ts';
import { officialWords } from './present.ts';

/** From this level a hazard is told whole, in a mail too. */
const GRAVE = 3;

/** Wind and waves that are told as a danger: how high they are where stands with them. */
const OF_WIND = /wave|wind|gust/;
export const wavesAreHazard = ({ safety }: BriefingPage): boolean =>
  safety.hazards.some(({ id }) => OF_WIND.test(id) && id !== 'windChill');

export function safetySection(doc: BriefingPage, words: Words, detail: Detail): Section {
  const m = words.page;
  const { safety } = doc;
  const told = new Set<string>();
  const isNamed = (hazard: PageHazard): boolean => detail === 'mail' && isOnlyNamed(hazard, doc);
  const full = safety.hazards.filter((hazard) => !isNamed(hazard));
  const named = safety.hazards.filter(isNamed);
  const hazards = full.flatMap((hazard, i) =>
    detail === 'web' || hazard.level >= GRAVE || hazard.official !== undefined
      ? wholeHazard(hazard, doc, m, told, detail)
      : [careItem(hazard, i < (doc.front?.hazards.length ?? 0), told)],
  );
  // What is not known and judged as if it were bad stands with its hazard.
  const stands = hazards.map((item) => ('text' in item ? item.text : '')).join(' ');
  const unchecked = safety.notChecked.filter((line) => !stands.includes(line));
  return {
    id: 'safety',
    heading: m.headings.safety,
    items: [
      ...(safety.hazards.length === 0 && safety.level === 1 ? p(m.hazard.none) : []),
      ...hazards,
      ...p(named.length === 0 ? '' : m.hazard.besides(named.map((hazard) => cut(hazard).label))),
      ...p(wavesAreHazard(doc) ? (doc.lakeWaves ?? '') : ''),
      ...small(unchecked.length === 0 ? '' : `${m.hazard.notChecked}: ${unchecked.join(' ')}`),
      ...p(detail === 'mail' ? m.deferToShort : safety.deferTo),
    ],
  };
}

/** Who stays ashore needs no care afloat: a mail names the milder hazards, the web tells them. */
const isOnlyNamed = ({ level }: PageHazard, doc: BriefingPage): boolean => ashoreAllDay(doc) && level < GRAVE;

/** Each danger and what to do, in a line; and the names of those that need no care today. */
export function caresOf(doc: BriefingPage): {
  readonly cares: readonly Extract<Item, { label: string }>[];
  readonly named: readonly string[];
} {
  const told = new Set<string>();
  const { hazards } = doc.safety;
  return {
    cares: hazards
      .filter((hazard) => !isOnlyNamed(hazard, doc))
      .map((hazard, i) => careItem(hazard, i < (doc.front?.hazards.length ?? 0), told)),
    named: hazards.filter((hazard) => isOnlyNamed(hazard, doc)).map((hazard) => cut(hazard).label),
  };
}

/** `COLD WATER: still cold` in its two parts; an official one stays whole, for its name is behind the colon. */
function cut({ label, headline, official }: PageHazard): { readonly label: string; readonly rest: string } {
  const name = label === undefined ? '' : `${label}: `;
  return official !== undefined || name === '' || !headline.startsWith(name)
    ? { label: headline.replace(/[.!?]$/, ''), rest: '' }
    : { label: name.slice(0, -2), rest: `${headline.slice(name.length).replace(/[.!?]$/, '')}.` };
}

/**
 * What it is and what to do, in a line.
 *
 * @param onFront what it is stands on the first screen
 */
function careItem(hazard: PageHazard, onFront: boolean, told: Set<string>): Extract<Item, { label: string }> {
  const { label, rest } = cut(hazard);
  // One care may meet several hazards.
  const care = freshSentences(hazard.doThis, told);
  return {
    kind: 'care',
    label,
    text: [onFront && care !== '' ? '' : rest, care].filter(Boolean).join(' '),
  };
}

function wholeHazard(
  hazard: PageHazard,
  { lake, front }: BriefingPage,
  m: Words['page'],
  told: Set<string>,
  detail: Detail,
): Item[] {
  const { official } = hazard;
  const hours = hazard.when.replace(/\.$/, '');
  // The frame of an official statement says until when it holds, the statement where; hours stand on the front.
  const around =
    detail === 'mail' && official !== undefined
      ? []
      : [
          { label: m.hazard.where, text: hazard.where },
          {
            label: m.hazard.when,
            text:
              detail === 'mail' && front?.hazards.some((line) => line.includes(hours)) === true
                ? ''
                : hazard.when,
          },
        ];
  const says = new Set([...told, ...(official === undefined ? [] : [official.text.replace(/\s+/g, ' ')])]);
  const shown = [
    ...[{ label: m.hazard.what, text: hazard.what }, ...around].filter(({ text }) => !told.has(text)),
    { label: m.hazard.doThis, text: detail === 'web' ? hazard.doThis : freshSentences(hazard.doThis, says) },
  ]
    .filter(({ text }) => text !== '')
    .map((line): Item => ({ kind: 'label', ...line }));
  // Where and when are said once for all hazards that share them, and so is one care.
  for (const { text } of around) told.add(text);
  freshSentences(hazard.doThis, told);
  return [
    { kind: 'sub', text: hazard.headline },
    ...shown,
    ...(official === undefined
      ? []
      : ([
          { kind: 'p', text: officialWords(official, lake.zone, m) },
          { kind: 'verbatim', text: official.text },
        ] as const)),
    ...(official?.cut === true ? p(m.hazard.cut(official.url)) : []),
  ];
}
