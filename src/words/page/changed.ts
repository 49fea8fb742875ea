/** What changed since the last issue, said: a change and the advice it moved. */
import type { Briefing, ChangeFact, HazardFacts, MovedFact } from '../../briefing/index.ts';
import { quantity } from '../../units/index.ts';
import type { Messages } from '../en/page.ts';
import type { BriefingPage, PageChange } from './schema.ts';
import { lowerFirst } from './sentence.ts';
import type { Teller } from './teller.ts';
import { momentWords } from './when.ts';
import { rowLabel } from './rows.ts';

export function changedPart(
  { whatChanged: { since, items }, safety }: Pick<Briefing, 'whatChanged' | 'safety'>,
  m: Messages,
  tell: Teller,
): BriefingPage['whatChanged'] {
  if (since === null) return { lead: m.changed.first, items: [] };
  const when = momentWords(since.atMs, since.zone, m);
  // A statement is named by its issuer; the danger that it is of says more.
  const worst = safety.hazards.find(
    ({ level, official }) => level === safety.level && official === undefined,
  );
  const told = items.map((item) => saidChange(item, worst, m, tell));
  return {
    lead: told.length === 0 ? m.changed.nothing(when) : m.changed.since(when),
    items: told.map((item, i) => {
      // What moved no place, or moved it the way the line before did, needs no word of its own.
      const twice = told.slice(0, i).some(({ moved }) => moved === item.moved);
      return twice ? { ...item, moved: '' } : item;
    }),
  };
}

function saidChange(item: ChangeFact, worst: HazardFacts | undefined, m: Messages, tell: Teller): PageChange {
  const moved = movedWords(item.moved, m, tell);
  switch (item.code) {
    case 'level': {
      const { before, now } = item;
      const what = worst === undefined ? '' : tell.hazard(worst).label.toLowerCase();
      const sentence =
        now > before ? m.changed.hazardUp(before, now, what) : m.changed.hazardDown(before, now);
      return { about: 'safety', quantity: null, before, now, sentence, moved };
    }
    case 'order': {
      const sentence = m.changed.firstPlace(
        lowerFirst(tell(item.before.name)),
        lowerFirst(tell(item.now.name)),
      );
      return { about: 'order', quantity: null, before: null, now: null, sentence, moved };
    }
    case 'airFall': {
      const sentence = m.changed.airFall(quantity('temperatureDifference', item.fallK));
      return { about: 'airFall', quantity: null, before: null, now: null, sentence, moved };
    }
    case 'figure': {
      const { signal, quantity: kind, before, now } = item;
      return { about: signal, quantity: kind, before, now, sentence: figureSentence(item, m), moved };
    }
  }
}

function figureSentence(item: Extract<ChangeFact, { code: 'figure' }>, m: Messages): string {
  const label = rowLabel(item.signal, m);
  const printed = (value: number, guess: typeof item.guess): string => {
    if (guess !== undefined) return m.clarity.guess(m.clarity.class[guess]);
    return item.quantity === null ? '' : quantity(item.quantity, value, item.signed);
  };
  if (item.now === null) return m.changed.lost(label);
  if (item.before === null) return m.changed.back(label, printed(item.now, item.guess));
  return m.changed.figure(label, printed(item.before, item.guessBefore), printed(item.now, item.guess));
}

function movedWords(moved: MovedFact, m: Messages, tell: Teller): string {
  switch (moved.code) {
    // The sentence itself names the danger.
    case 'readHazard':
    case 'noMove':
      return '';
    case 'because':
      return tell(moved.reason);
    case 'movedUp':
      return m.changed.movedUp(lowerFirst(tell(moved.place.name)), moved.before, moved.now);
    case 'movedDown':
      return m.changed.movedDown(lowerFirst(tell(moved.place.name)), moved.before, moved.now);
    case 'entered':
      return m.changed.entered(lowerFirst(tell(moved.place.name)), moved.now);
    case 'strengthened':
      return m.changed.strengthened(lowerFirst(tell(moved.place.name)));
    case 'weakened':
      return m.changed.weakened(lowerFirst(tell(moved.place.name)));
  }
}
