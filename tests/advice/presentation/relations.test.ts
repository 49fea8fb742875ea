import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { along } from '../../../src/advice/presentation/curves.ts';
import { presentAt, type Presentation } from '../../../src/advice/presentation/index.ts';
import { comesThrough } from '../../../src/advice/presentation/choose.ts';
import { hookOf, suitedLine, suitedWeightG } from '../../../src/advice/presentation/tackle.ts';
import { darkShare, holdSpeedMs, paceOf } from '../../../src/advice/presentation/pace.ts';
import { COLOURS } from '../../../src/config/rulesLures.ts';
import { book, conditions, FT, place, tackle } from './day.ts';

/** Relations between tackle, water and cover: common practice, no source, unless a line says otherwise. */
const temperatures = Array.from({ length: 57 }, (_, i) => 4 + i / 2);
const traits = (cover: 'light' | 'medium' | 'heavy', kind: 'rock' | 'wood' = 'wood') => ({
  ...book.places.pocket!,
  cover,
  kind,
});

describe('weight', () => {
  it('never falls with depth, wind or current', () => {
    for (const lure of book.classes) {
      for (const cover of ['light', 'heavy'] as const) {
        const at = (depthM: number, windMs: number, currentMs = 0): number =>
          suitedWeightG(
            lure,
            { ...traits(cover), inCurrent: true },
            [depthM / 2, 1.5 * depthM],
            conditions({ waterC: 18, windMs, currentMs }),
            book,
          ) ?? 0;
        for (let depthM = 0.5; depthM < 12; depthM += 0.5) {
          expect(at(depthM + 0.5, 1), lure.id).toBeGreaterThanOrEqual(at(depthM, 1));
          expect(at(depthM, 5), lure.id).toBeGreaterThanOrEqual(at(depthM, 1));
          expect(at(depthM, 8), lure.id).toBeGreaterThanOrEqual(at(depthM, 5));
          expect(at(depthM, 1, 0.3), lure.id).toBeGreaterThanOrEqual(at(depthM, 1));
        }
      }
    }
  });
});

describe('pace', () => {
  it('is never faster, and never rests shorter, in colder water', () => {
    for (const { id, speed, rest, move } of book.classes) {
      temperatures.slice(1).forEach((waterC, i) => {
        const colder = temperatures[i]!;
        expect(along(speed, waterC), id).toBeGreaterThanOrEqual(along(speed, colder));
        if (rest) expect(along(rest, waterC), id).toBeLessThanOrEqual(along(rest, colder));
        if (move) expect(along(move, waterC), id).toBeGreaterThanOrEqual(along(move, colder));
      });
    }
  });

  it('of bottom lures is at most 0.5 ft/s on average, of a finesse worm 0.3', () => {
    for (const { id, family, speed } of book.classes) {
      if (family !== 'bottom') continue;
      for (const waterC of temperatures)
        expect(along(speed, waterC) / FT, id).toBeLessThanOrEqual(id === 'finesse worm' ? 0.3 : 0.5);
    }
  });

  it('of what is wound is 0.6 to 0.75 of the day’s at night and in mud; what dives or lies keeps its own', () => {
    for (const lure of book.classes) {
      const free = (night: boolean, clarityM: number): number =>
        paceOf(
          lure,
          { waterC: 20, lowC: 20, highC: 20, basis: 'known', paceColderC: 0 },
          darkShare(lure, night, clarityM, book.settings),
          book,
        ).speedMs;
      const day = along(lure.speed, 20);
      expect(free(false, 2), lure.id).toBe(day);
      for (const dark of [free(true, 2), free(false, 0.2), free(true, 0.2)]) {
        if (lure.family === 'sinking' || lure.family === 'surface') {
          expect(dark / day, lure.id).toBeGreaterThanOrEqual(0.6);
          expect(dark / day, lure.id).toBeLessThanOrEqual(0.75);
        } else expect(dark, lure.id).toBe(day);
      }
    }
  });

  it('behind a front is that of colder water', () => {
    const at = (airDrop24hC: number): Presentation =>
      presentAt(
        conditions({ waterC: 14, cloudPct: 10, airDrop24hC }),
        place('channel_swing_bank', [1.2, 2.4]),
        { ...book, classes: book.classes.filter(({ id }) => id === 'flat-sided crankbait') },
        tackle,
      )[0]!;
    expect(at(9).pace.speedMs).toBeLessThan(at(0).pace.speedMs);
    expect(at(9).pauseS).toBeGreaterThan(at(0).pauseS);
  });
});

describe('line', () => {
  const lines = { ...tackle, linesKg: [2.7, 3.6, 4.5, 5.4, 6.35, 7.7, 9.1, 11.3] };
  const kgOf = (id: string, cover: 'light' | 'medium' | 'heavy', clarityM: number): number => {
    const lure = book.classes.find((entry) => entry.id === id)!;
    const { line } = suitedLine(lure, traits(cover), 2, conditions({ clarityM }), lines, book);
    return line.leaderKg ?? line.kg;
  };

  it('is never heavier in clearer water, and never weaker in thicker cover', () => {
    for (const { id } of book.classes) {
      for (const cover of ['light', 'medium', 'heavy'] as const) {
        for (const [clear, dirty] of [
          [2, 1],
          [1, 0.6],
          [0.6, 0.2],
        ] as const)
          expect(kgOf(id, cover, clear), id).toBeLessThanOrEqual(kgOf(id, cover, dirty));
      }
      for (const clarityM of [2, 1, 0.6, 0.2]) {
        expect(kgOf(id, 'light', clarityM), id).toBeLessThanOrEqual(kgOf(id, 'medium', clarityM));
        expect(kgOf(id, 'medium', clarityM), id).toBeLessThanOrEqual(kgOf(id, 'heavy', clarityM));
      }
    }
  });

  it('is braid for the frog, a leader on braid for the light lures, nylon for what must float', () => {
    const tied = (id: string): string => {
      const lure = book.classes.find((entry) => entry.id === id)!;
      const { line } = suitedLine(lure, book.places.grass_mat!, 1, conditions({}), lines, book);
      return `${line.material}${line.leaderKg === undefined ? '' : ' with leader'}`;
    };
    expect(tied('hollow frog')).toBe('braid');
    expect(tied('finesse worm')).toBe('braid with leader');
    expect(tied('topwater')).toBe('nylon');
  });
});

describe('colour', () => {
  // Naturalness as the trade orders it; trained largemouth mix up chartreuse with white, and blue with black
  // (Mitchem et al. 2019, Curr. Zool. 65:43-52, abstract read), so nothing sets one of these above the other.
  const NATURAL: Readonly<Record<(typeof COLOURS)[number], number>> = {
    'natural translucent': 5,
    'green-brown': 4,
    'shad-like': 4,
    'bluegill-like': 4,
    bone: 3,
    'craw red-brown': 3,
    white: 2,
    chartreuse: 1,
    dark: 1,
  };

  it('is never less natural in clearer water', () => {
    for (const { id, colours } of book.classes) {
      const order = [colours.clear, colours.mild, colours.stained, colours.muddy].flatMap((colour) =>
        colour === undefined ? [] : NATURAL[colour],
      );
      order.slice(1).forEach((value, i) => expect(value, id).toBeLessThanOrEqual(order[i]!));
    }
  });
});

const days = fc.record({
  where: fc.constantFrom(...Object.keys(book.places)),
  top: fc.double({ min: 0.2, max: 8, noNaN: true }),
  width: fc.double({ min: 0.2, max: 4, noNaN: true }),
  waterC: fc.double({ min: 4, max: 32, noNaN: true }),
  clarityM: fc.double({ min: 0.1, max: 6, noNaN: true }),
  windMs: fc.double({ min: 0, max: 12, noNaN: true }),
  night: fc.boolean(),
});

describe('what is offered', () => {
  it('lies within its window, is complete, comes through the cover, holds its depth, and suits the night', () => {
    fc.assert(
      fc.property(days, ({ where, top, width, waterC, clarityM, windMs, night }) => {
        const casts = presentAt(
          conditions({ waterC, clarityM, windMs }),
          place(where, [top, top + width]),
          book,
          tackle,
          { night },
        );
        for (const cast of casts) {
          const lure = book.classes.find(({ id }) => id === cast.lureClass)!;
          expect(waterC, lure.id).toBeGreaterThanOrEqual(lure.waterC.min);
          expect(waterC, lure.id).toBeLessThanOrEqual(lure.waterC.max);
          expect(cast.tied.hook, lure.id).toBeTruthy();
          expect(cast.tied.line.kg, lure.id).toBeGreaterThan(0);
          if (cast.family !== 'diving' && cast.family !== 'suspending')
            expect(cast.tied.weightG, lure.id).toBeGreaterThan(0);
          const at = book.places[where]!;
          if (at.cover === 'heavy') expect(comesThrough(lure, at), lure.id).toBeGreaterThan(1);
          if (night) expect(lure.light.night, lure.id).toBeGreaterThanOrEqual(0.5);
          if (cast.family === 'surface' && ['open', 'rock', 'wood', 'brush', 'current'].includes(at.kind))
            expect(windMs).toBeLessThanOrEqual(5.4);
          if (cast.family === 'vertical') expect(cast).not.toHaveProperty('castLengthM');
          if (cast.family === 'sinking' && cast.down !== null && cast.runningDepthM > 5 * FT) {
            const { fallMs } = cast.down;
            const most = holdSpeedMs(lure, fallMs, cast.castLengthM, cast.runningDepthM, book);
            expect(cast.pace.speedMs, lure.id).toBeLessThanOrEqual(most + 1e-9);
          }
        }
      }),
      { numRuns: 500 },
    );
  });

  it('is never faster, never moved farther and never rested for less in colder water or by night', () => {
    const colder = fc.double({ min: 0, max: 12, noNaN: true });
    fc.assert(
      fc.property(days, fc.constantFrom(...book.classes), colder, (day, lure, byK) => {
        const at = (waterC: number, night: boolean): Presentation | undefined =>
          presentAt(
            conditions({ waterC, clarityM: day.clarityM, windMs: day.windMs }),
            place(day.where, [day.top, day.top + day.width]),
            { ...book, classes: [lure] },
            tackle,
            { night },
          )[0];
        const warm = at(day.waterC, false);
        for (const slow of [at(day.waterC - byK, false), at(day.waterC, true)]) {
          if (warm === undefined || slow === undefined) continue;
          expect(slow.pace.speedMs, lure.id).toBeLessThanOrEqual(warm.pace.speedMs + 1e-9);
          expect(slow.pauseS, lure.id).toBeGreaterThanOrEqual(warm.pauseS - 1e-9);
          if (slow.family === 'bottom' && warm.family === 'bottom')
            expect(slow.moveM ?? 0, lure.id).toBeLessThanOrEqual((warm.moveM ?? 0) + 1e-9);
        }
      }),
      { numRuns: 600 },
    );
  });

  it('swims over more water than it runs in, and the boat lies deeper than a diving lure runs', () => {
    fc.assert(
      fc.property(days, ({ where, top, width, waterC, clarityM, windMs }) => {
        for (const lure of book.classes.filter(({ family }) => family === 'diving')) {
          const [cast] = presentAt(
            conditions({ waterC, clarityM, windMs }),
            place(where, [top, top + width]),
            { ...book, classes: [lure] },
            tackle,
          );
          if (cast?.family !== 'diving') continue;
          expect(cast.boatDepthM - cast.runningDepthM, lure.id).toBeGreaterThanOrEqual(0.5 * FT - 0.01);
          expect(cast.castDepthM, lure.id).toBeLessThan(cast.boatDepthM);
        }
      }),
      { numRuns: 200 },
    );
  });

  it('lies nowhere that the stream carries it off', () => {
    const tube = (where: string, currentMs: number): Presentation =>
      presentAt(
        conditions({ waterC: 19, clarityM: 1.8, windMs: 2, currentMs }),
        place(where, [0.5, 2.2]),
        { ...book, classes: book.classes.filter(({ id }) => id === 'tube') },
        tackle,
      )[0]!;
    expect(tube('riprap', 0.9).drifts).toBe(true);
    expect(tube('riprap', 0.1).drifts).toBeUndefined();
    // A pocket lies beside the stream: neither carried, nor weighted for it.
    expect(tube('pocket', 0.9).drifts).toBeUndefined();
    expect(tube('pocket', 0.9).tied.weightG).toBe(tube('pocket', 0).tied.weightG);
    expect(tube('riprap', 0.9).tied.weightG!).toBeGreaterThan(tube('riprap', 0).tied.weightG!);
  });

  it('has a hook that never shrinks as the lure grows, and is one size', () => {
    const rank = (hook: string): number => {
      const [, ought] = /(\d+)\/0/.exec(hook) ?? [];
      return ought === undefined ? -Number(/\d+/.exec(hook)?.[0]) : Number(ought);
    };
    for (const lure of book.classes) {
      const hooks = [...lure.weightsG].sort((a, b) => a - b).map((grams) => hookOf(lure, grams)!);
      for (const [index, hook] of hooks.entries()) {
        expect(hook, lure.id).toMatch(/^(?:treble \d|\d|\d\/0(?: double)?)$/);
        if (index > 0) expect(rank(hook), lure.id).toBeGreaterThanOrEqual(rank(hooks[index - 1]!));
      }
    }
  });

  it('is no light lure in a wind that takes it, nor a stick worm in current', () => {
    const offered = (signals: Parameters<typeof conditions>[0], where = 'main_point'): readonly string[] =>
      presentAt(
        conditions({ waterC: 18, clarityM: 2, ...signals }),
        place(where, [0.6, 2]),
        book,
        tackle,
      ).map(({ lureClass }) => lureClass);
    const light = [
      'finesse worm',
      'weightless stick worm',
      'small finesse jig',
      'hair jig',
      'soft jerkbait',
      'drop shot',
    ];
    for (const id of offered({ windMs: 7.5 })) expect(light).not.toContain(id);
    for (const id of offered({ windMs: 1, currentMs: 0.5 }, 'riprap'))
      expect(id).not.toBe('weightless stick worm');
  });

  it('answers wind over shallow water with one size of weight, and in a pitch with none', () => {
    const grams = (id: string, where: string, band: readonly [number, number], windMs: number): number =>
      suitedWeightG(
        book.classes.find((lure) => lure.id === id)!,
        book.places[where]!,
        band,
        conditions({ waterC: 16, windMs }),
        book,
      )!;
    const flat = [0.6, 1.5] as const;
    expect(grams('bladed jig', 'flat', flat, 5)).toBe(grams('bladed jig', 'flat', flat, 1));
    expect(grams('bladed jig', 'flat', flat, 9)).toBe(21.3);
    expect(grams('spinnerbait', 'riprap', [1, 3.6], 8)).toBe(21.3);
    expect(grams('spinnerbait', 'riprap', [2, 3.6], 8)).toBe(28.4);
    for (const windMs of [1, 5, 9])
      expect(grams('flipping creature bait', 'flooded_cover', [0.3, 0.9], windMs)).toBe(10.6);
  });

  it('has only the fields that its family gives a meaning', () => {
    const family = (id: string, where: string, band: readonly [number, number], waterC: number) =>
      presentAt(
        conditions({ waterC, clarityM: 1.2, windMs: 1 }),
        place(where, band),
        { ...book, classes: book.classes.filter((entry) => entry.id === id) },
        tackle,
      )[0]!;
    expect(family('topwater', 'main_point', [1, 2], 24)).not.toHaveProperty('runningDepthM');
    expect(family('jig', 'riprap', [1, 3], 18)).not.toHaveProperty('ratedDepthM');
    expect(family('jerkbait', 'bluff', [1, 3], 8)).not.toHaveProperty('contact');
    expect(family('soft swimbait', 'main_point', [1, 3], 18)).not.toHaveProperty('contact');
    expect(family('metal blade or spoon', 'river_channel', [6, 9], 8)).not.toHaveProperty('castAngleDeg');
  });
});

/** The trade's answers to named days: common practice, no source. */
describe('the days that the trade has an answer for', () => {
  const spawn = {
    winter: 0,
    early_prespawn: 0,
    prespawn: 0,
    spawn: 1,
    postspawn: 0,
    summer: 0,
    early_fall: 0,
    fall: 0,
    late_fall: 0,
  };
  const toC = (f: number): number => (f - 32) / 1.8;
  const firstAt = (
    where: string,
    band: readonly [number, number],
    signals: Parameters<typeof conditions>[0],
    season: Parameters<typeof presentAt>[4] = {},
  ): string => presentAt(conditions(signals), place(where, band), book, tackle, season)[0]!.lureClass;

  it('fish on the beds at 67 F in clear water get a weightless worm or a tube', () => {
    for (const where of ['pocket', 'flat', 'secondary_point'])
      expect(['weightless stick worm', 'tube']).toContain(
        firstAt(
          where,
          [0.4, 1.5],
          { waterC: toC(67), clarityM: 2.4, windMs: 2, cloudPct: 40 },
          { membership: spawn },
        ),
      );
  });

  it('a calm bright day behind a front gets finesse', () => {
    for (const where of ['channel_swing_bank', 'secondary_point', 'dock', 'bluff'])
      expect(['finesse worm', 'small finesse jig', 'drop shot']).toContain(
        firstAt(where, [1.5, 4], {
          waterC: toC(58),
          clarityM: 2.2,
          windMs: 1,
          cloudPct: 5,
          airDrop24hC: 9,
        }),
      );
  });

  it('bushes in warm water get a flipping bait on braid, dropped and lifted out, risen today or not', () => {
    for (const level24hM of [0, 0.4]) {
      const [cast] = presentAt(
        conditions({ waterC: 23, clarityM: 0.7, windMs: 3, cloudPct: 90, level24hM }),
        place('flooded_cover', [0.3, 0.9]),
        book,
        tackle,
      );
      expect(cast!.lureClass).toBe('flipping creature bait');
      expect(cast!.tied).toMatchObject({ weightG: 10.6, line: { material: 'braid', kg: 22.68 } });
      expect(cast!.family === 'bottom' && cast!.contact!.toM).toBeLessThan(1);
    }
  });

  it('cold mud that rises gets a pitch into the bush', () => {
    const casts = presentAt(
      conditions({ waterC: toC(54), clarityM: 0.25, windMs: 3, cloudPct: 90, level24hM: 0.6 }),
      place('flooded_cover', [0.4, 1.2]),
      book,
      tackle,
    );
    expect(['jig', 'flipping creature bait']).toContain(casts[0]!.lureClass);
    expect(casts[0]!.family === 'bottom' && casts[0]!.castLengthM).toBeLessThan(8);
  });

  it('mats and pads get a frog, grass a lure that comes free of it', () => {
    for (const where of ['grass_mat', 'pads'])
      expect(['hollow frog', 'flipping creature bait']).toContain(
        firstAt(where, [0.6, 1.8], { waterC: 27, clarityM: 1, windMs: 1, cloudPct: 20 }),
      );
    expect(['lipless crankbait', 'bladed jig', 'swim jig', 'Texas-rigged worm']).toContain(
      firstAt('grass_edge', [0.9, 2.4], { waterC: 20, clarityM: 1, windMs: 4, cloudPct: 60 }),
    );
  });

  it('a warm night gets dark lures that are easy to follow', () => {
    expect(['spinnerbait', 'Texas-rigged worm', 'jig', 'buzzbait']).toContain(
      firstAt('main_point', [1, 3], { waterC: 28, clarityM: 1.5, windMs: 1 }, { night: true }),
    );
  });
});
