/** JSON Schemas for editors: what a person sees beside a field while typing. */
import { z } from 'zod';

type Node = Record<string, unknown>;
const isNode = (value: unknown): value is Node =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** `normalPoolDatum` as words: "Normal pool datum". */
function titleOf(field: string): string {
  const words = field
    .replaceAll(/[-_]/g, ' ')
    .replaceAll(/([a-z0-9])([A-Z])/g, '$1 $2')
    .toLowerCase();
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/**
 * Gives every property a title, and a description from the table where the schema itself has none.
 *
 * @param path dotted name of the node, entries of lists as their list: `lakes.gauges.station`
 */
function annotate(node: unknown, path: string, words: Readonly<Record<string, string>>): void {
  if (Array.isArray(node)) {
    for (const entry of node) annotate(entry, path, words);
    return;
  }
  if (!isNode(node)) return;
  const properties = isNode(node['properties']) ? node['properties'] : {};
  for (const [key, property] of Object.entries(properties)) {
    if (!isNode(property)) continue;
    const own = path === '' ? key : `${path}.${key}`;
    property['title'] ??= titleOf(key);
    const description = words[own];
    if (description !== undefined) property['description'] ??= description;
    annotate(property, own, words);
  }
  for (const inner of ['items', 'anyOf', 'oneOf', 'allOf']) annotate(node[inner], path, words);
}

/**
 * JSON Schema (draft 2020-12) of a file that people write, or of a document that the program writes.
 *
 * @param io    `input` for what is written by people, before defaults and units
 * @param words descriptions by dotted name of the field
 */
export function jsonSchemaOf(
  schema: z.ZodType,
  io: 'input' | 'output',
  words: Readonly<Record<string, string>> = {},
): Node {
  const made = z.toJSONSchema(schema, { io, unrepresentable: 'any' }) as Node;
  annotate(made, '', words);
  return made;
}
