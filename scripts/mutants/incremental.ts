import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { z } from 'zod';

const kept = z.looseObject({
  files: z.record(z.string(), z.looseObject({ mutants: z.array(z.looseObject({ status: z.string() })) })),
});

/**
 * Leaves only the killed mutants in what Stryker keeps from run to run: it asks a survivor again only when a test has a
 * new name, and would take "not drawn" for a verdict in the next sample.
 */
export function forgetAllButKilled(path: string): void {
  if (!existsSync(path)) return;
  const report = kept.parse(JSON.parse(readFileSync(path, 'utf8')));
  for (const file of Object.values(report.files))
    file.mutants = file.mutants.filter(({ status }) => status === 'Killed');
  writeFileSync(path, JSON.stringify(report));
}
