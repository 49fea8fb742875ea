/** Scores as sentences for the reader, quantities as placeholders. */
import type { Messages } from '../briefing/index.ts';
import { quantity, type QuantityKind } from '../units/index.ts';
import type { Item, ItemScore } from './types.ts';

/** Fewer outcomes say nothing that would not turn with the next one. Common practice, no source. */
export const FEWEST_OUTCOMES = 10;
/** Mean errors within this share of each other are called alike. */
const ALIKE = 0.05;
/** A bias of this share of the mean absolute error is worth a word. */
const ONE_SIDED = 0.5;

export const ERROR_KIND: Readonly<Record<Item, QuantityKind>> = {
  water: 'temperatureError',
  level: 'levelError',
  air: 'temperatureError',
  wind: 'windSpeedError',
};

/** One sentence an item that has enough outcomes; worse than the baseline is said as such. */
export function verificationWords(scores: readonly ItemScore[], m: Messages): string[] {
  return scores.filter(({ n }) => n >= FEWEST_OUTCOMES).map((score) => sentence(score, m));
}

function sentence(score: ItemScore, m: Messages): string {
  const words = m.verification;
  const { item, n, meanError, meanAbsError, heldMeanAbsError, inside, direction, heldDirection } = score;
  const size = (value: number): string => quantity(ERROR_KIND[item], Math.abs(value));
  const counted =
    inside !== undefined
      ? words.inside(inside.hits, inside.of)
      : direction !== undefined && heldDirection !== undefined
        ? words.direction(direction.hits, direction.of, heldDirection.hits)
        : words.days(n);
  const side = Math.abs(meanError) < ONE_SIDED * meanAbsError ? '' : words.side[item](meanError > 0);
  const verdict =
    Math.abs(meanAbsError - heldMeanAbsError) <= ALIKE * heldMeanAbsError
      ? words.alike
      : meanAbsError < heldMeanAbsError
        ? words.against
        : words.worse;
  return words.line(
    words.item[item],
    counted,
    words.off(size(meanAbsError), side),
    verdict(size(heldMeanAbsError), words.held[item]),
  );
}
