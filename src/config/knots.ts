import { isAlias, isCollection, isNode, isPair, type Document, type Node } from 'yaml';

/** Nodes that a file may come to when everything that is referred to is written out. */
const MOST_NODES = 100_000;

/** What is wrong with the references of a file: one that leads back into itself, or so many that they explode. */
export function aliasFault(
  doc: Document.Parsed,
): { readonly offset: number; readonly sentence: string } | null {
  let fault: { offset: number; sentence: string } | null = null;
  let first = 0;
  const sizes = new Map<Node, number>();
  const open = new Set<Node>();
  const size = (node: unknown): number => {
    if (fault !== null || !isNode(node)) return 0;
    if (isAlias(node)) {
      const target = node.resolve(doc);
      first ||= node.range?.[0] ?? 0;
      if (target === undefined) {
        fault = {
          offset: node.range?.[0] ?? 0,
          sentence: `*${node.source} refers to nothing that stands before it. Write the part out.`,
        };
        return 0;
      }
      if (open.has(target)) {
        fault = {
          offset: node.range?.[0] ?? 0,
          sentence: `*${node.source} stands inside what it refers to. Write the part out instead of referring to it.`,
        };
        return 0;
      }
      return size(target);
    }
    const known = sizes.get(node);
    if (known !== undefined) return known;
    if (!isCollection(node)) return 1;
    open.add(node);
    let sum = 1;
    for (const item of node.items) sum += isPair(item) ? size(item.key) + size(item.value) : size(item);
    open.delete(node);
    sizes.set(node, sum);
    return sum;
  };
  const total = size(doc.contents);
  if (fault !== null) return fault;
  return total <= MOST_NODES
    ? null
    : {
        offset: first,
        sentence: 'the references (*name) of this file multiply beyond measure. Write the parts out.',
      };
}
