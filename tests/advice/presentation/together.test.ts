import { describe, expect, it } from 'vitest';
import { along } from '../../../src/advice/presentation/curves.ts';
import { presentAt, type Presentation } from '../../../src/advice/presentation/index.ts';
import { cardOf } from '../../../src/advice/cards.ts';
import { sayCast } from '../../../src/words/index.ts';
import { expandQuantities } from '../../../src/units/index.ts';
import { book, conditions, FT, place, tackle, toC } from './day.ts';

interface Card {
  readonly cast: Presentation;
  readonly said: string;
  readonly where: string;
}

/** Every class at every kind of place, near freezing to hot, shallow and deep, short and long casts: what it says of it. */
const CARDS: readonly Card[] = book.classes.flatMap((lure) =>
  Object.keys(book.places).flatMap((where) =>
    [41, 52, 66, 84].flatMap((waterF) =>
      [
        [0.5, 2],
        [2, 5],
        [4, 12],
        [12, 24],
      ].flatMap(([top = 0, bottom = 0]) =>
        [20 * FT, 75 * FT].flatMap((castLengthM) =>
          presentAt(
            conditions({ waterC: toC(waterF), clarityM: 1, windMs: 2 }),
            place(where, [top * FT, bottom * FT]),
            { ...book, classes: [lure], situations: [] },
            { ...tackle, castLengthM },
          ).map((cast) => ({
            cast,
            said: expandQuantities(sayCast(cardOf(cast), {}).steps.join(' '), 'us'),
            where: `${lure.id} at ${where}`,
          })),
        ),
      ),
    ),
  ),
);

function everyCard(check: (cast: Presentation, said: string, where: string) => void): number {
  for (const { cast, said, where } of CARDS) check(cast, said, where);
  return CARDS.length;
}

const MOVES = /[Kk]eep it moving|[Hh]ardly pause/;
/** Pairs of which no card may hold both. Common practice, no source: each is one lure told two things. */
const AGAINST_EACH_OTHER: readonly (readonly [RegExp, RegExp])[] = [
  [MOVES, /let it (?:drop|lie|rest|fall down|hang)|leave it hanging|stop it in|[Dd]rop it (?:into|through)/],
  [MOVES, /[Ss]top winding now and then|Pause only|Stop for|Hold it still/],
  [/down the slope/, /[Dd]rop it through|into the gaps|into the openings|fall down each post|into the brush/],
  [/Expect bottom|first \d+ ft; then wind in/, /[Dd]rop it through the mat/],
  [/let it lie for/i, /let (?:it tumble|the water carry)/],
  [/Wind (?:one|two|three|four|five)/, /leave it hanging|let it lie|Hold it still/],
  [/[Ss]kip it|pitch /, /cast (?:3[0-9]|[4-9][0-9]|1[0-9]{2}) ft/],
  [/limb|branch/, /post|stems|leaves|mat\b/],
  [/Tick the tops/, /hangs easily/],
];

describe('the words of one lure at one kind of cover', () => {
  it('never tell two things against each other', () => {
    const found = new Set<string>();
    const cards = everyCard((_, said, where) => {
      for (const [one, other] of AGAINST_EACH_OTHER)
        if (one.test(said) && other.test(said))
          found.add(`${where}: ${String(one)} and ${String(other)} in ${said}`);
    });
    expect([...found]).toEqual([]);
    expect(cards).toBeGreaterThan(2000);
  });

  it('tick the tops of grass only with what swims that deep, and speak of a lure that sinks only where it does', () => {
    everyCard((cast, said, where) => {
      if (cast.family === 'surface') expect(said, where).not.toMatch(/Tick|bottom|drop(?:s)? away|count/);
      if (cast.family === 'diving' || cast.family === 'suspending')
        expect(said, where).not.toMatch(/let it drop/);
    });
  });

  it('leave a cast on the bottom short enough for four in the minutes of the smallest place, one move at the least', () => {
    everyCard((cast, _, where) => {
      if (cast.family !== 'bottom' || cast.contact === null) return;
      const { castS, contact, moveM, pauseS, castLengthM } = cast;
      expect(castS, where).toBeLessThanOrEqual(301);
      const rests = moveM === null ? 0 : (contact.toM / moveM) * pauseS;
      expect(rests + (castLengthM - contact.toM) / 1.4, where).toBeLessThanOrEqual(301);
    });
  });

  it('move and rest a lure on the bottom as the book has it for the water, however long a cast takes', () => {
    everyCard((cast, said, where) => {
      if (cast.family !== 'bottom') return;
      const lure = book.classes.find(({ id }) => id === cast.lureClass)!;
      const { waterC } = cast.water;
      expect(cast.pauseS, where).toBeCloseTo(lure.rest === undefined ? 0 : along(lure.rest, waterC), 9);
      if (lure.move !== undefined) expect(cast.moveM, where).toBeCloseTo(along(lure.move, waterC), 9);
      // What one cast has no time for is left to the next.
      if (cast.deeperToM !== undefined)
        expect(said, where).toMatch(/land each next cast deeper|into [\d.]+ to [\d.]+ ft/);
    });
  });

  it('speak of a hook, and of which lure of a class, as one and not as a range', () => {
    everyCard((_, said, where) => expect(said, where).not.toMatch(/\d\/?0?-\d| or single/));
  });

  it('ask a lure without a beat for no feel of it, and let none be dropped that is told to be stopped only on a strike', () => {
    everyCard((cast, said, where) => {
      if (cast.silent === true && cast.family === 'sinking') expect(said, where).not.toMatch(/feel it work/);
      expect(/stop only when/.test(said) && /as the bottom drops away/.test(said), where).toBe(false);
    });
  });

  it('keep every diving lure over more water than it runs in, by half a foot or more', () => {
    everyCard((cast, _, where) => {
      if (cast.family === 'diving')
        expect(cast.boatDepthM - cast.runningDepthM, where).toBeGreaterThanOrEqual(0.5 * FT - 0.01);
    });
  });

  it('let no sinking lure drop for longer than there is water below it', () => {
    everyCard((cast, said, where) => {
      if (cast.family !== 'sinking' || cast.down === null || !/let it drop/.test(said)) return;
      const bottomM = Math.max(cast.boatDepthM, cast.castDepthM);
      expect(cast.pauseS * cast.down.fallMs, where).toBeLessThanOrEqual(bottomM - cast.runningDepthM + 0.3);
      expect(cast.pauseS, where).toBeLessThanOrEqual(5);
    });
  });

  it('ask of no hand what it cannot do: no rate of turns slower than one in ten seconds, none behind a pull', () => {
    everyCard((cast, said, where) => {
      if (cast.pauseStyle === 'hang') expect(said, where).not.toMatch(/Wind (?:one|two|three)|[Ww]ind about/);
      expect(said, where).not.toMatch(/ in 1[1-9] s/);
    });
  });

  it('aim to five degrees and land to half a foot', () => {
    everyCard((_, said, where) => {
      for (const [, degrees] of said.matchAll(/(\d+)°/g)) expect(Number(degrees) % 5, where).toBe(0);
      for (const [, feet] of said.matchAll(/to land in ([\d.]+) ft/g))
        expect((Number(feet) * 2) % 1, where).toBe(0);
    });
  });
});
