import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { expandQuantities } from '../../../src/units/index.ts';
import { book, conditions, place, tackle, toC, presentCards } from './day.ts';

const places = Object.keys(book.places);
const days = fc.record({
  where: fc.constantFrom(...places),
  top: fc.double({ min: 0, max: 8, noNaN: true }),
  width: fc.double({ min: 0.2, max: 5, noNaN: true }),
  signals: fc.record(
    {
      waterC: fc.double({ min: 0.5, max: 33, noNaN: true }),
      pocketC: fc.double({ min: 1, max: 33, noNaN: true }),
      clarityM: fc.double({ min: 0.1, max: 8, noNaN: true }),
      windMs: fc.double({ min: 0, max: 18, noNaN: true }),
      cloudPct: fc.double({ min: 0, max: 100, noNaN: true }),
      lowLightShare: fc.double({ min: 0, max: 1, noNaN: true }),
      bankDeg: fc.double({ min: 1, max: 85, noNaN: true }),
      airDrop24hC: fc.double({ min: -10, max: 15, noNaN: true }),
    },
    { requiredKeys: [] },
  ),
});

describe('every card', () => {
  it('holds finite numbers within their ranges, and sentences a reader can take in', () => {
    fc.assert(
      fc.property(days, ({ where, top, width, signals }) => {
        const cards = presentCards(conditions(signals), [place(where, [top, top + width])], book, tackle);
        const { waterC = 12, pocketC = waterC } = signals;
        if (Math.min(waterC, pocketC) > 5) expect(cards.length).toBeGreaterThan(0);
        for (const card of cards) {
          for (const value of Object.values(card)) {
            if (typeof value === 'number') expect(Number.isFinite(value)).toBe(true);
          }
          expect(card.contactShare).toBeGreaterThanOrEqual(0);
          expect(card.contactShare).toBeLessThanOrEqual(1);
          expect(card.castAngleDeg).toBeGreaterThanOrEqual(0);
          expect(card.castAngleDeg).toBeLessThanOrEqual(90);
          expect(card.boatDepthM).toBeGreaterThanOrEqual(card.castDepthM - 1e-9);
          expect(card.retrieveLowMs).toBeLessThanOrEqual(card.retrieveMs);
          expect(card.retrieveHighMs).toBeGreaterThanOrEqual(card.retrieveMs);
          const said = [
            ...card.steps,
            card.because,
            card.pauseWords,
            card.lineWords,
            card.reel,
            card.misfit ?? '',
          ];
          for (const text of said) {
            const plain = expandQuantities(text, 'us');
            expect(plain).not.toMatch(/NaN|undefined|\{\{/);
            for (const sentence of plain.split(/[.!?](?:\s|$)/)) {
              expect(sentence.trim().split(/\s+/).length, sentence).toBeLessThan(25);
            }
          }
        }
      }),
      { numRuns: 300 },
    );
  });

  it('winds faster in warmer water from 50 to 65 F, for every class and reel', () => {
    const reels = [
      { name: 'slow', gear: 5.4, spoolM: 0.033 },
      { name: 'middle', gear: 6.8, spoolM: 0.033 },
      { name: 'quick', gear: 8.1, spoolM: 0.034 },
    ];
    for (const lure of book.classes) {
      const alone = { ...book, classes: [lure] };
      const deep = Math.max(0.3, lure.depthM[0], Math.min(3, lure.depthM[1]));
      const turns = Array.from({ length: 31 }, (_, step) => {
        const cards = presentCards(
          conditions({ waterC: toC(50 + step / 2) }),
          [place('secondary_point', [deep * 0.7, deep])],
          alone,
          { ...tackle, reels },
        );
        return cards[0]?.turnsPerS ?? 0;
      });
      turns.forEach((value, index) => {
        if (index > 0) expect(value, lure.id).toBeGreaterThanOrEqual(turns[index - 1]!);
      });
      // A class made for colder or warmer water than these has no card at one end.
      if (lure.family === 'diving' && turns[0]! > 0 && lure.id !== 'deep-diving crankbait')
        expect(turns.at(-1)!).toBeGreaterThan(turns[0]! * 1.2);
    }
  });

  it('is the same whatever the order of the classes, reels and lines', () => {
    fc.assert(
      fc.property(days, ({ where, top, width, signals }) => {
        const at = [place(where, [top, top + width])];
        const shuffled = {
          ...tackle,
          linesKg: [...tackle.linesKg].reverse(),
          reels: [...tackle.reels].reverse(),
        };
        expect(presentCards(conditions(signals), at, book, shuffled)).toEqual(
          presentCards(conditions(signals), at, book, tackle),
        );
      }),
      { numRuns: 50 },
    );
  });

  it('never rates a class higher because a signal is missing', () => {
    fc.assert(
      fc.property(
        days,
        fc.constantFrom('clarityM' as const, 'windMs' as const, 'cloudPct' as const),
        ({ where, top, width, signals }, missing) => {
          const without = Object.fromEntries(Object.entries(signals).filter(([id]) => id !== missing));
          for (const lure of book.classes) {
            // Wind forbids a surface lure and the lightest; where nobody knows the wind it cannot.
            const blown = lure.family === 'surface' || lure.wind.most !== undefined;
            if (blown && missing === 'windMs') continue;
            // So does water too blind for it, which begins a little below its least clarity.
            const blind = signals.clarityM !== undefined && signals.clarityM < 0.85 * lure.clarityM[0];
            if (blind && missing === 'clarityM') continue;
            const alone = { ...book, classes: [lure] };
            const score = (given: Partial<typeof signals>): number =>
              presentCards(conditions(given), [place(where, [top, top + width])], alone, tackle)[0]?.score ??
              0;
            expect(score(without)).toBeLessThanOrEqual(score(signals) + 1e-12);
          }
        },
      ),
      { numRuns: 60 },
    );
  });

  it('comes for the first place twice and for the second once, whatever the order they are handed in', () => {
    const first = place('pocket', [0.6, 1.8], { rank: 1 });
    const second = place('bluff', [2, 5], { rank: 2 });
    const third = place('hump', [2, 5], { rank: 3 });
    const cards = presentCards(conditions({ waterC: 12, clarityM: 1 }), [third, second, first], book, tackle);
    expect(cards.map((card) => card.place)).toEqual(['pocket', 'pocket', 'bluff']);
    expect(cards[0]!.lureClass).not.toBe(cards[1]!.lureClass);
    expect(presentCards(conditions({}), [], book, tackle)).toEqual([]);
  });
});
