/** How each block of the plan is worked: one card each, and on a card what the cards before it have not told. */
import { ashoreAllDay, isKeptIn } from '../briefing/index.ts';
import type { BriefingPage, PageBlock, PageCast, Words } from '../words/index.ts';
import { CardSteps, type CardStep } from './cardSteps.ts';
import { list, p, type Detail, type Extent, type Item, type Section } from './items.ts';
import { fresh, saidBefore } from './once.ts';

/** The casts that have a card, in the order of the day; none for who stays ashore. */
export function cardCasts(doc: BriefingPage): readonly PageCast[] {
  if (isKeptIn(doc)) return [];
  const blocks = doc.plan?.blocks ?? [];
  // Half a plan is none: every block has its card, the more so on a day that closes some of its hours.
  return blocks.length > 0 ? blocks.map(({ cast }) => cast) : doc.casts.slice(0, isDrawn(doc) ? 2 : 1);
}

/** From level 3 the fishing part is short: no drawings of casts. */
export const isDrawn = ({ safety }: BriefingPage): boolean => safety.level < 3;

/**
 * @param told reasons and steps told so far, added to
 * @param ofLake what stands above of the lake as a whole: no step of a cast says it again
 */
export function cardSection(
  doc: BriefingPage,
  words: Words,
  extent: Extent,
  told: Set<string>,
  ofLake: ReadonlySet<string>,
): Section {
  const m = words.page;
  const blocks = doc.plan?.blocks ?? [];
  const stepsOf = new CardSteps();
  const items = cardCasts(doc).flatMap((cast, i): Item[] => {
    const block = blocks[i];
    const kept = stepsOf.next(cardSteps(doc, cast, extent, ofLake), m);
    const reasons = fresh(block === undefined ? [cast.because] : whyOf(block, extent), told);
    return [
      { kind: 'sub', text: titleOf(cast, i, blocks, words, extent.detail) },
      ...p(reasons.join(' ')),
      ...(isDrawn(doc) ? [{ kind: 'picture', id: `cast-${i + 1}` } as const] : []),
      ...(kept.length === 1 ? p(kept.join('')) : list(kept, true)),
      ...p(
        fresh([cast.misfit ?? '', extent.without.has('giveUp') ? '' : (block?.giveUp ?? '')], told).join(' '),
      ),
    ];
  });
  return {
    id: 'cards',
    heading: m.headings.cast,
    items:
      items.length > 0 && doc.nests !== undefined
        ? [...items, ...p(doc.nests)]
        : items.length > 0 || doc.status === 'nil' || !isKeptIn(doc)
          ? items
          : p(ashoreAllDay(doc) ? m.cast.omitted : m.cast.omittedClosed),
  };
}

/** A mail tells the hours on its front, and here only where a place comes again. */
function titleOf(
  cast: PageCast,
  i: number,
  blocks: readonly PageBlock[],
  { page: m, front: w }: Words,
  detail: Detail,
): string {
  const block = blocks[i];
  if (block === undefined) return m.cast.heading(m.cast.choices[i] ?? '', cast.lureClass);
  const again = blocks.slice(0, i).some(({ title }) => title === block.title);
  const where =
    detail === 'web'
      ? `${w.span(block.from, block.to)}, ${block.title}`
      : again
        ? m.cast.from(block.title, block.from)
        : block.title;
  return m.cast.heading(where, block.lure);
}

/** Why here and now; a mail tells the strongest, after what made the day move on. */
function whyOf({ whyChange, because }: PageBlock, { detail, without }: Extent): string[] {
  if (without.has('reasons')) return [];
  const most = detail === 'web' ? undefined : whyChange === '' || without.has('secondReason') ? 1 : 2;
  return (most === 1 && because.length > 0 ? because : [whyChange, ...because])
    .filter(Boolean)
    .slice(0, most);
}

/** Where a crankbait touches bottom is drawn: the mail of a long day does not say it again beside its drawing. */
function cardSteps(
  doc: BriefingPage,
  { steps, stepKinds, family }: PageCast,
  { without }: Extent,
  ofLake: ReadonlySet<string>,
): CardStep[] {
  const isLeftOut = (kind: CardStep['kind']): boolean =>
    (kind === 'contact' && family === 'diving' && isDrawn(doc) && without.has('drawnContact')) ||
    (kind === 'cover' && without.has('cover'));
  return steps
    .map((text, i): CardStep => ({ kind: stepKinds?.[i], text }))
    .filter(({ kind, text }) => !isLeftOut(kind) && !saidBefore(text, ofLake));
}
