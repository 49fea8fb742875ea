/** How past issues have done, one sentence an item; worse than the baseline is said as such. */
import type { ScoreFacts } from '../../briefing/index.ts';
import { quantity, type QuantityKind } from '../../units/index.ts';
import type { Messages } from '../en/page.ts';

/** Mean errors within this share of each other are called alike. */
const ALIKE = 0.05;
/** A bias of this share of the mean absolute error is worth a word. */
const ONE_SIDED = 0.5;

const ERROR_KIND: Readonly<Record<ScoreFacts['item'], QuantityKind>> = {
  water: 'temperatureError',
  waterAhead: 'temperatureError',
  level: 'levelError',
  air: 'temperatureError',
  wind: 'windSpeedError',
};

export function scoreWords(score: ScoreFacts, m: Messages): string {
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
