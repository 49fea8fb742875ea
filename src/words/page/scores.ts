/** How past issues have done, one sentence an item; worse than the baseline is said as such. */
import type { LessonFacts, ScoreFacts } from '../../briefing/index.ts';
import { quantity, type QuantityKind } from '../../units/index.ts';
import { LESSON_FROM } from '../../water/index.ts';
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

/** One score as a sentence, quantities as placeholders: how far off, to which side, and whether holding on was better. */
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

/** Below this a correction is not worth a word, K; and a change of the range, as a share. */
const LEAST_SHIFT_C = 0.05;
const LEAST_WIDENING = 0.05;

/** Whose errors the water of the days ahead goes by: other lakes', or this one's own, and what they changed. */
export function lessonWords(lessons: readonly LessonFacts[], m: Messages): string {
  const words = m.verification.outlook;
  const issues = Math.max(...lessons.map((lesson) => lesson.issues));
  const learned = lessons.filter((lesson) => lesson.learned);
  if (learned.length === 0) return words.general(issues, LESSON_FROM);
  const parts = learned.map(({ fromDays, toDays, biasC, spread }) => {
    const size = quantity('temperatureError', Math.abs(biasC));
    const shift =
      Math.abs(biasC) < LEAST_SHIFT_C ? words.kept : biasC > 0 ? words.lowered(size) : words.raised(size);
    const percent = Math.round(100 * Math.abs(spread - 1));
    const width =
      Math.abs(spread - 1) < LEAST_WIDENING
        ? words.sameRange
        : spread > 1
          ? words.wider(percent)
          : words.narrower(percent);
    return words.part(fromDays, toDays, shift, width);
  });
  return words.own(issues, parts);
}
