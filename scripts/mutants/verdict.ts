import type { MutantResult } from '@stryker-mutator/api/core';
import { wilson } from '../../src/science/index.ts';

/** Standard score of 95 %. */
const Z95 = 1.959964;

interface Run {
  room: string;
  seed: number;
  population: number;
  results: readonly MutantResult[];
  askedTwice: number;
}

/**
 * Score in words. Killed is what a test failed on, or what ran a hundred times as often as without the mutation, which
 * no load on the machine brings about. What ran out of time twice counts as neither.
 */
export function scoreLines({ room, seed, population, results, askedTwice }: Run): string[] {
  const count = (fits: (result: MutantResult) => boolean) => results.filter(fits).length;
  const failed = count(({ status }) => status === 'Killed');
  const endless = count(isEndless);
  const survived = count(({ status }) => status === 'Survived');
  const unreached = count(({ status }) => status === 'NoCoverage');
  const killed = failed + endless;
  const judged = killed + survived + unreached;
  const [low, high] = wilson(killed, judged, Z95);
  return [
    `${room}: ${percent(killed / judged)} of ${judged} mutants killed (95 %: ${percent(low)} to ${percent(high)})`,
    `  sample of ${results.length} out of ${population}, seed ${seed}`,
    `  killed ${failed} by a test, ${endless} by running on and on; survived ${survived}; reached by no test ${unreached}`,
    `  out of time once ${askedTwice}, twice ${results.length - judged} (not judged)`,
  ];
}

/** Every mutant that no test noticed, with what it did, by file. */
export function survivorLines(results: readonly MutantResult[], read: (path: string) => string): string[] {
  return results
    .filter(({ status }) => status !== 'Killed')
    .filter((result) => !isEndless(result))
    .sort((a, b) => a.fileName.localeCompare(b.fileName) || a.location.start.line - b.location.start.line)
    .flatMap(({ fileName, location, status, mutatorName, replacement, coveredBy }) => {
      const lines = read(fileName).split('\n');
      const text = lines.slice(location.start.line - 1, location.end.line).map((line) => line.trimEnd());
      return [
        `${fileName}:${location.start.line}:${location.start.column} ${status} ${mutatorName} (${coveredBy?.length ?? 0} tests)`,
        ...text.slice(0, 6).map((line) => `  - ${line}`),
        `  + ${(replacement ?? '').slice(0, 200)}`,
        '',
      ];
    });
}

function isEndless({ status, statusReason }: MutantResult): boolean {
  return status === 'Timeout' && statusReason !== undefined;
}

function percent(share: number): string {
  return `${(100 * share).toFixed(1)} %`;
}
