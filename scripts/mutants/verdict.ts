import { wilson } from '../../src/science/index.ts';
import type { Asked, Status } from './ask.ts';

/** Standard score of 95 %. */
const Z95 = 1.959964;

interface Run {
  room: string;
  seed: number;
  population: number;
  asked: readonly Asked[];
}

/**
 * Score in words. Killed is what a test failed on, or what ran a hundred times as often as without the mutation, which
 * no load on the machine brings about. What ran out of time counts as neither.
 */
export function scoreLines({ room, seed, population, asked }: Run): string[] {
  const count = (...of: Status[]) => asked.filter(({ status }) => of.includes(status)).length;
  const killed = count('Killed', 'Endless');
  const cut = asked.filter(({ status, tests, ran }) => status === 'Survived' && ran < tests);
  const judged = asked.length - count('Timeout');
  const [low, high] = wilson(killed, judged, Z95);
  return [
    `${room}: ${percent(killed / judged)} of ${judged} mutants killed (95 %: ${percent(low)} to ${percent(high)})`,
    `  sample of ${asked.length} out of ${population}, seed ${seed}`,
    `  killed ${count('Killed')} by a test, ${count('Endless')} by running on and on; survived ${count('Survived')}; reached by no test ${count('NoCoverage')}`,
    `  survived although not all of their tests were run ${cut.length}; out of time ${count('Timeout')} (not judged)`,
  ];
}

/** Every mutant that no test noticed, with what it did, by file. */
export function survivorLines(asked: readonly Asked[], read: (path: string) => string): string[] {
  return asked
    .filter(({ status }) => status !== 'Killed' && status !== 'Endless')
    .sort(
      ({ sampled: a }, { sampled: b }) =>
        a.file.localeCompare(b.file) || a.location.start.line - b.location.start.line,
    )
    .flatMap(({ sampled: { file, location, mutatorName, replacement }, status, tests, ran }) => {
      const lines = read(file).split('\n');
      const text = lines.slice(location.start.line, location.end.line + 1).map((line) => line.trimEnd());
      return [
        `${file}:${location.start.line + 1}:${location.start.column} ${status} ${mutatorName} (${ran} of ${tests} tests)`,
        ...text.slice(0, 6).map((line) => `  - ${line}`),
        `  + ${replacement.slice(0, 200)}`,
        '',
      ];
    });
}

function percent(share: number): string {
  return `${(100 * share).toFixed(1)} %`;
}
