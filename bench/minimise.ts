export interface Minimum {
  readonly at: readonly number[];
  readonly value: number;
}

/**
 * Least value of a function of a few variables by the downhill simplex, begun anew a few times from where it ended.
 *
 * @see Nelder and Mead (1965), Comput. J. 7, 308
 */
export function minimise(
  of: (x: readonly number[]) => number,
  start: readonly number[],
  rounds: number,
  stepsPerRound: number,
): Minimum {
  let best: Minimum = { at: start, value: of(start) };
  for (let round = 0; round < rounds; round++)
    best = simplex(
      of,
      best.at,
      best.at.map((v) => (round === 0 ? 0.2 * Math.abs(v) + 0.05 : 0.1 * Math.abs(v) + 0.01)),
      stepsPerRound,
    );
  return best;
}

function simplex(
  of: (x: readonly number[]) => number,
  start: readonly number[],
  reach: readonly number[],
  steps: number,
): Minimum {
  const point = (at: readonly number[]): Minimum => ({ at, value: of(at) });
  let corners = [
    point(start),
    ...start.map((_, i) => point(start.map((v, j) => (j === i ? v + reach[j]! : v)))),
  ];
  for (let step = 0; step < steps; step++) {
    corners.sort((a, b) => a.value - b.value);
    const best = corners[0]!;
    const worst = corners.at(-1)!;
    const kept = corners.slice(0, -1);
    if (worst.value - best.value < 1e-8) break;
    const centre = start.map((_, j) => kept.reduce((sum, { at }) => sum + at[j]!, 0) / kept.length);
    const beyond = (factor: number): Minimum => point(centre.map((c, j) => c + factor * (worst.at[j]! - c)));
    const mirrored = beyond(-1);
    if (mirrored.value < best.value) {
      const further = beyond(-2);
      corners = [...kept, further.value < mirrored.value ? further : mirrored];
    } else if (mirrored.value < kept.at(-1)!.value) corners = [...kept, mirrored];
    else {
      const nearer = beyond(mirrored.value < worst.value ? -0.5 : 0.5);
      corners =
        nearer.value < Math.min(mirrored.value, worst.value)
          ? [...kept, nearer]
          : [best, ...corners.slice(1).map(({ at }) => point(at.map((v, j) => (v + best.at[j]!) / 2)))];
    }
  }
  return corners.reduce((a, b) => (b.value < a.value ? b : a));
}
