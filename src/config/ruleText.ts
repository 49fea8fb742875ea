import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import { readYaml } from './yaml.ts';

/**
 * The sentences of the rules stand apart from the rules, one file a language beside them
 * (`config/rules/words.<language>.yaml`), keyed by the rule's id. A rule may also carry its own words inline; then
 * those are said. So a reader's own rule is one entry, and a folder from before there were files of words still reads.
 */
export type RuleText = Readonly<Record<string, string>>;

const ruleTextSchema = z.record(z.string(), z.string().min(1));

/** A field of words in a rules file; where nobody gives it, the error says both places it may stand in. */
export const ruleWords = (): z.ZodString =>
  z.string({
    error: ({ input }) =>
      input === undefined
        ? 'this rule has no words for it; write them here, or in words.en.yaml beside this file under the key of the rule'
        : 'expected words',
  });

/** Words of a rules folder; none where it holds no such file, for its rules may say everything inline. */
export function readRuleText(folder: string, language: string): RuleText {
  const file = join(folder, `words.${language}.yaml`);
  return existsSync(file) ? readYaml(file, ruleTextSchema) : {};
}

/** One field of a rule that holds words: where it stands, and the key under which a language gives it. */
interface Slot {
  readonly holder: Record<string, unknown>;
  readonly field: string;
  readonly key: string;
}

export type RuleFile = 'positions' | 'phases' | 'lures' | 'safety';
type Entry = Record<string, unknown>;

const isEntry = (value: unknown): value is Entry =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
/** Entries of a list or of a map, whatever a person wrote; what is no entry is the schema's business. */
const entriesOf = (value: unknown): Entry[] => (Array.isArray(value) ? value.filter(isEntry) : []);
const namedOf = (value: unknown): [string, Entry][] =>
  isEntry(value) ? Object.entries(value).filter((pair): pair is [string, Entry] => isEntry(pair[1])) : [];
const idOf = (entry: Entry, field = 'id'): string => String(entry[field]);

/** Fields of one entry under a prefix: `step` of the place `dock` is `place.dock.step`. */
function fields(holder: unknown, prefix: string, names: readonly string[]): Slot[] {
  return isEntry(holder) ? names.map((field) => ({ holder, field, key: `${prefix}.${field}` })) : [];
}

function positionSlots(file: Entry): Slot[] {
  const places = entriesOf(file['places']).flatMap((place) => {
    const id = idOf(place);
    return [
      ...fields(place, `place.${id}`, ['name', 'limitedBy', 'timeless']),
      ...fields(place['search'], `place.${id}`, ['step', 'moveOn']),
      ...namedOf(place['base']).map(([phase, cell]) => ({
        holder: cell,
        field: 'sentence',
        key: `base.${id}.${phase}`,
      })),
    ];
  });
  const rules = ['modifiers', 'depthShifts', 'periods', 'tendency'].flatMap((list) =>
    entriesOf(file[list]).map((rule) => ({ holder: rule, field: 'sentence', key: idOf(rule) })),
  );
  const against = entriesOf(file['modifiers']).flatMap((rule) => fields(rule, idOf(rule), ['against']));
  const ends = entriesOf(file['tendency']).flatMap((rule) => fields(rule, idOf(rule), ['ends']));
  const matters = entriesOf(file['matters']).map((row) => ({
    holder: row,
    field: 'words',
    key: `matters.${idOf(row, 'signal')}`,
  }));
  return [...places, ...rules, ...against, ...ends, ...matters];
}

function phaseSlots(file: Entry): Slot[] {
  return entriesOf(file['phases']).flatMap((phase) =>
    fields(phase, `phase.${idOf(phase)}`, ['name', 'sentence']),
  );
}

function safetySlots(file: Entry): Slot[] {
  const said = ['headline', 'what', 'do'];
  const hazards = entriesOf(file['hazards']).flatMap((row) => {
    const key = `safety.${idOf(row)}`;
    return [
      ...fields(row, key, ['label', 'where', 'when', 'brief']),
      ...(isEntry(row['unknown'])
        ? [
            { holder: row['unknown'], field: 'sentence', key: `${key}.unknown` },
            { holder: row['unknown'], field: 'do', key: `${key}.unknownDo` },
          ]
        : []),
      ...entriesOf(row['classes']).flatMap((entry) => fields(entry, `${key}.${idOf(entry, 'name')}`, said)),
    ];
  });
  const combinations = entriesOf(file['combinations']).flatMap((row) =>
    fields(row, `safety.${idOf(row)}`, ['label', 'where', 'when', ...said]),
  );
  const flood = file['flood'];
  const categories = isEntry(flood)
    ? namedOf(flood['categories']).flatMap(([name, entry]) => fields(entry, `safety.flood.${name}`, said))
    : [];
  return [
    ...fields(file['levels'], 'safety.levels', ['1', '2', '3', '4']),
    ...hazards,
    ...combinations,
    ...fields(flood, 'safety.flood', ['label', 'where', 'when', 'unknown']),
    ...categories,
    ...fields(file['official'], 'safety.official', ['where', 'do', 'unchecked']),
    ...fields(file, 'safety', ['deferTo']),
  ];
}

const SLOTS: Readonly<Record<RuleFile, (file: Entry) => Slot[]>> = {
  positions: positionSlots,
  phases: phaseSlots,
  lures: () => [],
  safety: safetySlots,
};

/** Parents that hold nothing but words may be left out of a rules file altogether. */
function withParents(name: RuleFile, file: Entry): Entry {
  return name === 'safety' ? { ...file, levels: file['levels'] ?? {} } : file;
}

/** What a rules file says after its words were put in: the file as written, with each missing field of words filled. */
export function withRuleText(name: RuleFile, file: unknown, text: RuleText): unknown {
  if (!isEntry(file)) return file;
  const filled = withParents(name, structuredClone(file));
  for (const { holder, field, key } of SLOTS[name](filled)) {
    if (holder[field] === undefined && text[key] !== undefined) holder[field] = text[key];
  }
  return filled;
}

/** Every sentence of a rules file by its key, inline ones included. */
export function ruleTextOf(name: RuleFile, file: unknown): RuleText {
  if (!isEntry(file)) return {};
  const said = SLOTS[name](file).flatMap(({ holder, field, key }): [string, string][] => {
    const words = holder[field];
    return typeof words === 'string' ? [[key, words]] : [];
  });
  return Object.fromEntries(said);
}
