import { readFileSync } from 'node:fs';

/** The statements of docs/many-machines.md that make the roles of workers and webs. */
export function grantsOf(): string {
  const document = readFileSync(new URL('../../docs/many-machines.md', import.meta.url), 'utf8');
  return [...document.matchAll(/```sql\n([\s\S]*?)```/g)].map(([, text]) => text).at(-1) ?? '';
}
