// Writes docs/reference/: commands, configuration and words, each from what the program itself reads, so that none falls
// behind. `tests/cli/reference.test.ts` compares them with what is committed.
import { readFileSync, writeFileSync } from 'node:fs';
import { Command } from 'commander';
import { format } from 'prettier';
import { z } from 'zod';
import { commandTree, flattened, optionWords, type CommandNode } from '../src/cli/commandTree.ts';
import { COMMANDS } from '../src/cli/commands.ts';
import { loadRules } from '../src/config/rules.ts';
import {
  GAUGE_VARIABLES,
  LURES,
  PLACE,
  PLACES,
  SERVICES,
  SIGNALS,
  WATER_BODIES,
} from '../src/vocabulary/index.ts';

const MADE = '<!-- Made by `npx tsx scripts/reference.ts`; change what it is made from, not this file. -->';
const cell = (text: string): string => text.replaceAll('|', '\\|').replaceAll('\n', ' ');
const table = (head: readonly string[], rows: readonly (readonly string[])[]): string =>
  [head, head.map(() => '---'), ...rows].map((row) => `| ${row.map(cell).join(' | ')} |`).join('\n');
const code = (text: string): string => (text === '' ? '' : `\`${text}\``);

async function commands(): Promise<string> {
  const root = new Command('thawline').option('--config <file>', 'configuration').version('0');
  for (const { load } of Object.values(COMMANDS)) (await load())(root);
  const ends = flattened(commandTree(root)).filter(
    ({ path, children }) => path !== '' && children.length === 0,
  );
  const part = (node: CommandNode): string =>
    [
      `## ${node.path}`,
      `\`\`\`text\n${`thawline ${node.path} ${node.usage}`.trim()}\n\`\`\``,
      `${node.description}.`,
      node.options.length === 0
        ? ''
        : table(
            ['option', 'does'],
            node.options.map((option) => [code(option.flags), optionWords(option)]),
          ),
    ]
      .filter(Boolean)
      .join('\n\n');
  return ['# Commands', MADE, ...ends.map(part)].join('\n\n');
}

/** As much of JSON Schema as the published configuration uses. */
interface Field {
  readonly type?: string | undefined;
  readonly description?: string | undefined;
  readonly default?: unknown;
  readonly enum?: readonly unknown[] | undefined;
  readonly const?: unknown;
  readonly properties?: Readonly<Record<string, Field>> | undefined;
  readonly required?: readonly string[] | undefined;
  readonly items?: Field | undefined;
  readonly anyOf?: readonly Field[] | undefined;
  readonly oneOf?: readonly Field[] | undefined;
  readonly additionalProperties?: boolean | Field | undefined;
}
const fieldSchema: z.ZodType<Field> = z.lazy(() =>
  z.object({
    type: z.string().optional(),
    description: z.string().optional(),
    default: z.unknown().optional(),
    enum: z.array(z.unknown()).optional(),
    const: z.unknown().optional(),
    properties: z.record(z.string(), fieldSchema).optional(),
    required: z.array(z.string()).optional(),
    items: fieldSchema.optional(),
    anyOf: z.array(fieldSchema).optional(),
    oneOf: z.array(fieldSchema).optional(),
    additionalProperties: z.union([z.boolean(), fieldSchema]).optional(),
  }),
);

const MOST_WORDS = 12;
function kindOf(field: Field): string {
  if (field.const !== undefined) return code(JSON.stringify(field.const));
  if (field.enum !== undefined)
    return field.enum.length > MOST_WORDS
      ? `one of ${field.enum.length}, as ${code(String(field.enum[0]))}`
      : field.enum.map((one) => code(String(one))).join(', ');
  const either = field.anyOf ?? field.oneOf;
  if (either !== undefined) return [...new Set(either.map(kindOf))].filter(Boolean).join(' or ');
  if (field.type === 'array') return `list of ${field.items === undefined ? 'values' : kindOf(field.items)}`;
  return field.type === 'object' ? 'fields' : (field.type ?? 'text');
}

function rowsOf(field: Field, path: string): string[][] {
  const inside = [field, ...(field.anyOf ?? []), ...(field.oneOf ?? [])];
  return inside.flatMap((one) => {
    if (one.type === 'array' && one.items !== undefined) return rowsOf(one.items, `${path}[]`);
    return Object.entries(one.properties ?? {}).flatMap(([name, child]) => {
      const own = path === '' ? name : `${path}.${name}`;
      const must = one.required?.includes(name) === true && child.default === undefined;
      const usual =
        child.default === undefined || typeof child.default === 'object'
          ? ''
          : code(JSON.stringify(child.default));
      return [
        [code(own), must ? 'must' : '', kindOf(child), usual, child.description ?? ''],
        ...rowsOf(child, own),
      ];
    });
  });
}

function configuration(): string {
  const text = readFileSync(new URL('../config/schema/config.schema.json', import.meta.url), 'utf8');
  const rows = rowsOf(fieldSchema.parse(JSON.parse(text)), '');
  const unique = [...new Map(rows.map((row) => [row[0], row])).values()];
  return [
    '# Configuration',
    MADE,
    'Every field of `config/thawline.yaml`. Quantities are written with their unit (`42 ft`, `1.5 km2`). A commented file to begin with: `config/thawline.example.yaml`. For editors: `config/schema/config.schema.json`.',
    table(['field', '', 'takes', 'usually', 'is'], unique),
  ].join('\n\n');
}

function words(): string {
  const rules = loadRules();
  const said = (id: string): string => rules.text[`place.${id}.name`] ?? '';
  return [
    '# Words of the program',
    MADE,
    'Ids as rules, what-ifs, configuration and the JSON of a briefing use them; SI units.',
    '## Signals',
    table(
      ['id', 'kind of quantity'],
      Object.entries(SIGNALS).map(([id, kind]) => [code(id), kind]),
    ),
    '## Kinds of place',
    'Which water has them: as a rule (usual), only where the configuration declares it (declared), or never. Common practice, no source.',
    table(
      ['id', 'called', ...WATER_BODIES],
      PLACES.map((id) => [code(id), said(id), ...WATER_BODIES.map((body) => PLACE[id].on[body])]),
    ),
    '## Lures',
    LURES.map(code).join(', '),
    '## What gauges measure',
    GAUGE_VARIABLES.map(code).join(', '),
    '## Services',
    table(
      ['id', 'is'],
      Object.entries(SERVICES).map(([id, row]) => [code(id), row.name]),
    ),
  ].join('\n\n');
}

/** The files of the reference, by their path from the top. */
export async function reference(): Promise<ReadonlyMap<string, string>> {
  const made = [
    ['docs/reference/commands.md', await commands()],
    ['docs/reference/configuration.md', configuration()],
    ['docs/reference/words.md', words()],
  ] as const;
  const tidy = await Promise.all(
    made.map(
      async ([path, text]) =>
        [path, await format(text, { parser: 'markdown', proseWrap: 'preserve' })] as const,
    ),
  );
  return new Map(tidy);
}

if (import.meta.url === new URL(process.argv[1] ?? '', 'file:').href)
  for (const [path, text] of await reference()) {
    writeFileSync(new URL(`../${path}`, import.meta.url), text);
    process.stdout.write(`${path}\n`);
  }
