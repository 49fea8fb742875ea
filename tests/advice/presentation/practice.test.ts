import { describe, expect, it } from 'vitest';
import { expandQuantities } from '../../../src/units/placeholder.ts';
import { wordsFor, type PresentationCard } from '../../../src/words/index.ts';
import { lureWords } from '../../../src/words/page/plan.ts';
import { presentAt, type PathPoint } from '../../../src/advice/presentation/index.ts';
import type { LureBook } from '../../../src/config/rulesLures.ts';
import type { SignalId } from '../../../src/signals/types.ts';
import { book, conditions, FT, LB, place, tackle, toC, presentCards } from './day.ts';

/** A book with one class only, to look at that class on its card. */
function only(id: string): LureBook {
  return { ...book, classes: book.classes.filter((entry) => entry.id === id) };
}

function card(
  id: string,
  where: string,
  band: readonly [number, number],
  signals: Partial<Record<SignalId, number>>,
): PresentationCard {
  const found = presentCards(conditions(signals), [place(where, band)], only(id), tackle)[0];
  if (found === undefined) throw new Error(`${id} cannot be worked at ${where}`);
  return found;
}

describe('a bait without any weight', () => {
  // Stick worms and soft jerkbaits are sold by their length; a 5-inch stick worm weighs about 3/8 oz (common practice, no source).
  it.each([
    ['weightless stick worm', 'dock'],
    ['soft jerkbait', 'secondary_point'],
  ])('%s is tied on by its length, its own weight called so', (id, where) => {
    const { steps } = card(id, where, [0.6, 1.5], { waterC: toC(68), clarityM: 2 });
    const tied = steps.find((step) => step.startsWith('Tie on')) ?? '';
    expect(tied).toMatch(/an unweighted \{\{baitLength:0\.1\d*\}\} bait of \{\{lureMass:0\.01\d*\}\}/);
    expect(tied.match(/lureMass/g)).toHaveLength(1);
  });

  it('is told so in a plan, where any other lure has its weight', () => {
    const front = wordsFor('en').front;
    expect(lureWords({ weightG: 10.2, baitM: 0.127 }, 'weightless stick worm', front)).toBe(
      '{{baitLength:0.127}} stick worm, no weight',
    );
    expect(expandQuantities('{{baitLength:0.127}}', 'us')).toBe('5 in');
    expect(expandQuantities('{{baitLength:0.127}}', 'metric')).toBe('13 cm');
    expect(lureWords({ weightG: 10.6 }, 'jig', front)).toBe('{{lureMass:0.0106}} jig');
  });
});

/** Depth of a way of straight pieces, m. */
function depthOn(path: readonly PathPoint[], alongM: number): number {
  const next = Math.max(
    1,
    path.findIndex((point) => point.alongM >= alongM),
  );
  const [from, to] = [path[next - 1]!, path[next]!];
  const share = to.alongM === from.alongM ? 1 : (alongM - from.alongM) / (to.alongM - from.alongM);
  return from.depthM + (to.depthM - from.depthM) * share;
}

/** Rules of thumb: common practice, no source. */
describe('the cast, by common practice', () => {
  it('puts the boat over 7 to 8 ft for a 6-ft lure, lands it in 2 to 3 ft well below 45 degrees, and loses bottom before the boat', () => {
    for (const top of [3, 4, 5]) {
      const sixFoot = card('flat-sided crankbait', 'channel_swing_bank', [top * FT, (12 - top) * FT], {
        waterC: toC(55),
        bankDeg: 30,
      });
      expect(sixFoot.runningDepthM / FT).toBeCloseTo(6, 0);
      expect(sixFoot.boatDepthM / FT).toBeGreaterThan(6.8);
      expect(sixFoot.boatDepthM / FT).toBeLessThan(8.1);
      expect(sixFoot.castDepthM / FT).toBeGreaterThanOrEqual(1.95);
      expect(sixFoot.castDepthM / FT).toBeLessThanOrEqual(3.05);
      expect(sixFoot.castAngleDeg).toBeLessThan(15);
      expect(sixFoot.contactShare).toBeGreaterThanOrEqual(0.3);
      expect(sixFoot.contactShare).toBeLessThan(0.6);
      expect(sixFoot.contactToM!).toBeLessThan(sixFoot.castLengthM - 2);
    }
  });

  // On banks steep enough for them. Common practice, no source: the fish are where the lure is to spend its way.
  it.each([
    ['flat-sided crankbait', 'secondary_point', [3, 10], 12],
    ['flat-sided crankbait', 'pocket', [2, 5], 6],
    ['round-bodied crankbait', 'main_point', [5, 14], 12],
    ['round-bodied crankbait', 'riprap', [4, 10], 30],
    ['square-lip crankbait', 'laydown', [1, 5], 15],
  ] as const)(
    'keeps a %s on a %s among fish at %s ft for most of the way',
    (id, where, [top, bottom], bankDeg) => {
      const [cast] = presentAt(
        conditions({ waterC: toC(58), clarityM: 1, bankDeg }),
        place(where, [top * FT, bottom * FT]),
        only(id),
        tackle,
      );
      const way = Array.from({ length: 201 }, (_, i) => depthOn(cast!.path, (i / 200) * 75 * FT));
      const among = way.filter((lureM) => lureM >= top * FT - 0.01 && lureM <= bottom * FT + 0.01);
      expect(among.length / way.length).toBeGreaterThan(0.5);
    },
  );

  it('lands a deep lure deeper where the fish begin deeper, and never shallower than a third of its depth', () => {
    const deep = (top: number): PresentationCard =>
      card('deep-diving crankbait', 'river_channel', [top * FT, (top + 7) * FT], { waterC: 27, bankDeg: 20 });
    expect(deep(13).castDepthM).toBeGreaterThan(deep(8).castDepthM);
    for (const top of [8, 10, 13])
      expect(deep(top).castDepthM / deep(top).runningDepthM).toBeGreaterThanOrEqual(0.32);
  });

  it('reaches 6 to 7 ft with a lure rated 6 ft on 12-lb fluorocarbon and a 30-yd cast', () => {
    const twelve = presentCards(
      conditions({ waterC: toC(56) }),
      [place('secondary_point', [6 * FT, 7 * FT])],
      only('flat-sided crankbait'),
      { ...tackle, linesKg: [12 * LB], castLengthM: 90 * FT },
    )[0]!;
    expect(twelve.ratedDepthM! / FT).toBeGreaterThan(5.5);
    expect(twelve.ratedDepthM! / FT).toBeLessThan(7.2);
  });

  it('covers slow work at 50-52 F and quick work at 58-65 F with one 6.8:1 reel', () => {
    const turns = (f: number): number =>
      card('flat-sided crankbait', 'secondary_point', [1, 2.5], { waterC: toC(f) }).turnsPerS;
    expect(turns(50)).toBeCloseTo(0.65, 1);
    expect(turns(60)).toBeCloseTo(1.03, 1);
    expect(turns(51)).toBeLessThan(turns(58));
  });

  it('turns 0.66 times a second at 47 F on a 5.4:1 reel that takes 21 in', () => {
    const slow = presentCards(
      conditions({ waterC: toC(47) }),
      [place('secondary_point', [1, 2.5])],
      only('flat-sided crankbait'),
      { ...tackle, reels: [{ name: 'slow', gear: 5.4, spoolM: (21 / 5.4 / Math.PI) * 0.0254 }] },
    )[0]!;
    expect(slow.turnsPerS).toBeCloseTo(0.66, 1);
  });

  it.each([
    ['most depths', 'secondary_point', [1.5, 3], 12],
    ['shallow', 'secondary_point', [0.8, 1.6], 14],
    ['heavier cover', 'laydown', [1, 2.5], 14],
    ['very shallow in heavy cover', 'flooded_cover', [0.3, 1], 17],
  ] as const)('ties fluorocarbon for %s: %s', (_, where, band, pounds) => {
    const square = card('square-lip crankbait', where, band, { waterC: toC(62), clarityM: 0.8 });
    expect(square.lineKg / LB).toBeCloseTo(pounds, 1);
  });

  it.each([
    [42, 9],
    [50, 4.5],
    [60, 1.5],
  ])('leaves a suspending lure hanging at %d F for %d s', (f, seconds) => {
    expect(card('jerkbait', 'secondary_point', [1, 3], { waterC: toC(f) }).pauseS).toBeCloseTo(seconds, 0);
  });

  it('pauses long near the bottom in the coldest water, with a body of little buoyancy', () => {
    const coldest = card('flat-sided crankbait', 'channel_swing_bank', [1.5, 2.4], { waterC: toC(43) });
    expect(coldest.pauseS).toBeGreaterThan(2);
    expect(coldest.pauseWords).toContain('near the bottom');
  });

  it('eases a round lip through wood with the rod high and the handle still, and not a square one', () => {
    const wood = (id: string): string =>
      card(id, 'laydown', [0.8, 2], { waterC: toC(58), clarityM: 1 }).steps.join(' ');
    expect(wood('flat-sided crankbait')).toMatch(/raise the rod, stop winding/);
    expect(wood('square-lip crankbait')).not.toMatch(/raise the rod/);
  });
});

/** Choice of lure: common practice, no source. */
describe('the choice of lure, by common practice', () => {
  const first = (
    where: string,
    band: readonly [number, number],
    signals: Partial<Record<SignalId, number>>,
  ): string[] =>
    presentCards(conditions(signals), [place(where, band)], book, tackle).map((entry) => entry.lureClass);

  it('gives a flat-sided crankbait a place from 50 to 62 F on stained rock', () => {
    for (const f of [50, 53, 56, 59, 62]) {
      expect(
        first('channel_swing_bank', [1, 2.5], { waterC: toC(f), clarityM: 1, windMs: 3, cloudPct: 40 }),
      ).toContain('flat-sided crankbait');
    }
  });

  it('works slowly in clear winter water, never on top', () => {
    const winter = first('bluff', [4, 8], { waterC: toC(43), clarityM: 3, windMs: 1, cloudPct: 10 });
    for (const id of winter)
      expect([
        'jig',
        'finesse worm',
        'jerkbait',
        'hair jig',
        'underspin',
        'metal blade or spoon',
        'small finesse jig',
      ]).toContain(id);
  });

  it('stirs muddy water in flooded cover', () => {
    expect(
      first('flooded_cover', [0.3, 1.2], { waterC: 16, clarityM: 0.3, windMs: 3, cloudPct: 90 })[0],
    ).toBe('spinnerbait');
  });

  it('goes on top at first light on a calm summer point', () => {
    expect(
      first('main_point', [1, 3], {
        waterC: 27,
        clarityM: 2,
        windMs: 1,
        cloudPct: 20,
        lowLightShare: 0.8,
      })[0],
    ).toBe('topwater');
  });

  it('goes vertical in the deep winter basin', () => {
    expect(first('main_lake_basin', [8, 14], { waterC: 6, clarityM: 3, windMs: 1 })[0]).toBe(
      'metal blade or spoon',
    );
  });

  it('turns from searching to slow lures after a sharp fall of the air temperature', () => {
    const score = (id: string, airDrop24hC: number): number =>
      card(id, 'pocket', [0.8, 2], { waterC: 13, clarityM: 1.5, airDrop24hC }).score;
    expect(score('jig', 9)).toBeGreaterThan(score('jig', 0));
    expect(score('bladed jig', 9)).toBeLessThan(score('bladed jig', 0));
  });
});

describe('a lure and a bank that do not go together', () => {
  it('are said to be so, and one that works is offered', () => {
    const wall = presentCards(
      conditions({ waterC: 12, clarityM: 1, windMs: 4, cloudPct: 60, bankDeg: 80 }),
      [place('bluff', [1, 2])],
      book,
      tackle,
    );
    expect(wall.length).toBe(2);
    for (const { family } of wall) expect(family).not.toBe('diving');
    expect(
      presentCards(conditions({ waterC: 12 }), [place('bluff', [1, 2])], only('flat-sided crankbait'), {
        ...tackle,
        castLengthM: 60,
      }),
    ).toHaveLength(1);
  });

  it('too deep for every lure but some still gives one that reaches', () => {
    for (const entry of presentCards(
      conditions({ waterC: 12 }),
      [place('river_channel', [9, 12])],
      book,
      tackle,
    )) {
      const lure = book.classes.find((known) => known.id === entry.lureClass)!;
      expect(lure.depthM[1] + lure.drawsFromM).toBeGreaterThanOrEqual(9);
    }
  });

  it('where the bank is gentle there is no misfit', () => {
    const gentle = presentCards(
      conditions({ waterC: 12, clarityM: 1, windMs: 4, cloudPct: 60 }),
      [place('pocket', [0.6, 1.8])],
      book,
      tackle,
    );
    expect(gentle[0]!.misfit).toBeUndefined();
  });
});

describe('what is unknown', () => {
  it('temperature: is said, with a slow default and a wide range', () => {
    const unknown = presentCards(conditions({}), [place('secondary_point', [1, 3])], book, tackle)[0]!;
    const known = presentCards(
      conditions({ waterC: 10 }),
      [place('secondary_point', [1, 3])],
      {
        ...book,
        classes: book.classes.filter((entry) => entry.id === unknown.lureClass),
      },
      tackle,
    )[0]!;
    expect(unknown.temperatureWords).toMatch(/unknown/);
    expect(unknown.because).toMatch(/not known/);
    expect(unknown.retrieveHighMs - unknown.retrieveLowMs).toBeGreaterThan(
      known.retrieveHighMs - known.retrieveLowMs,
    );
  });

  it('temperature of the lake, but not of the air: guesses and says so', () => {
    const guessed = presentCards(
      conditions({ airMean7dC: 11 }),
      [place('secondary_point', [1, 3])],
      book,
      tackle,
    )[0]!;
    expect(guessed.temperatureWords).toMatch(/guess from the week's air/);
  });

  it('tackle: falls back on the book', () => {
    const bare = presentCards(conditions({ waterC: 12 }), [place('pocket', [0.6, 1.8])], book, {
      reels: [],
      linesKg: [],
      castLengthM: 0,
    });
    expect(bare[0]!.reel).toContain('6.4:1');
    expect(bare[0]!.castLengthM).toBeGreaterThan(15);
  });
});

describe('a warm pocket', () => {
  it('sets the pace by a blend of pocket and lake, because the fish may have just moved', () => {
    const speed = (signals: Partial<Record<SignalId, number>>): number =>
      card('flat-sided crankbait', 'inflow', [0.9, 1.8], signals).retrieveMs;
    const blended = speed({ waterC: 8.3, pocketC: 13.9 });
    expect(blended).toBeGreaterThan(speed({ waterC: 8.3 }));
    expect(blended).toBeLessThan(speed({ waterC: 13.9 }));
  });
});
