import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { countDownOf, fallOf } from '../../../src/advice/presentation/countDown.ts';
import { cardOf } from '../../../src/advice/cards.ts';
import { presentAt, type Presented } from '../../../src/advice/presentation/index.ts';
import { holdSpeedMs, liftOf } from '../../../src/advice/presentation/pace.ts';
import { sayCast } from '../../../src/words/index.ts';
import { bottomContact } from '../../../src/science/contact.ts';
import { sinkRateMs } from '../../../src/science/sinkRate.ts';
import { book, conditions, FT, place, tackle } from './day.ts';

const table = JSON.parse(
  readFileSync(new URL('../../../fixtures/advice-presentation/tackle.json', import.meta.url), 'utf8'),
) as {
  slackFtS: Record<string, [number, number][]>;
  countDown: {
    land_ft: number;
    boat_ft: number;
    cast_ft: number;
    target_ft: number;
    clearance_ft: number;
    fall_ft_s: number;
    count_s: number;
    extra_s_per_10ft: number;
    follows_slope_until_ft: number;
  }[];
  hold: { fall_ft_s: number; distance_ft: number; depth_ft: number; fastest_ft_s: number }[];
  contact: { D_ft: number; cast_ft: number; boat_ft: number; land_ft: number; contact_share: number }[];
};
const OZ = 28.3495;
const classOf = (id: string) => book.classes.find((entry) => entry.id === id)!;
const LINE = { lengthM: 3.05, diameterM: 0.00033, weightNPerM: 0.00065 };

describe('the fall of a lure', () => {
  // Falls computed apart from this program from the same force balance; drag areas are guesses from size.
  it.each(Object.entries(table.slackFtS))('of a %s is the one worked out apart', (id, rows) => {
    for (const [oz, feet] of rows) {
      const fallMs = fallOf(classOf(id), oz * OZ, 'fluorocarbon', 0.33)!;
      // The large swimbait is one body of a stated volume: its two-parameter fit is the loosest.
      expect(Math.abs(fallMs / FT / feet - 1), `${oz} oz`).toBeLessThan(
        id === 'large swimbait' ? 0.12 : 0.09,
      );
    }
  });

  it('balances weight in water against drag by hand: 10.6 g of lead, 10 cm2, no line', () => {
    const volumeM3 = 0.0106 / 11340;
    const radiusM = ((3 * volumeM3) / (4 * Math.PI)) ** (1 / 3);
    const pullN = 9.80665 * (0.0106 - 998 * volumeM3);
    const byHand = Math.sqrt((2 * pullN) / (998 * (10e-4 + 0.5 * Math.PI * radiusM ** 2)));
    const bare = sinkRateMs(
      { massKg: 0.0106, volumeM3, dragM2: 10e-4 },
      { ...LINE, lengthM: 1e-6, weightNPerM: 0 },
    );
    expect(bare).toBeCloseTo(byHand, 4);
    // "A little over 1 ft/s" by practice, from memory; 1.4 computed.
    expect(bare / FT).toBeGreaterThan(1.2);
    expect(bare / FT).toBeLessThan(1.6);
  });

  it('is faster for a heavier lure of every class, and none for what floats', () => {
    for (const lure of book.classes) {
      const falls = [...lure.weightsG]
        .sort((a, b) => a - b)
        .map((grams) => fallOf(lure, grams, 'fluorocarbon', 0.33));
      for (const [index, fall] of falls.entries()) {
        if (lure.sink === undefined) expect(fall).toBeNull();
        else if (index > 0) expect(fall!).toBeGreaterThan(falls[index - 1]!);
      }
    }
    expect(sinkRateMs({ massKg: 0.01, volumeM3: 1.2e-5, dragM2: 1e-3 }, { ...LINE, weightNPerM: 0 })).toBe(0);
  });

  it('takes the rate that somebody measured instead', () => {
    expect(fallOf({ ...classOf('jig'), fallMs: 0.5 }, 10.6, 'fluorocarbon', 0.33)).toBe(0.5);
  });
});

describe('the count-down', () => {
  it.each(table.countDown)(
    'over $land_ft ft to $boat_ft ft with a target of $target_ft ft is at most $count_s s',
    (row) => {
      const lure = { ...classOf('soft swimbait'), guard: row.clearance_ft < 1 ? 'guarded' : 'open' } as const;
      const slopeM = ((row.boat_ft - row.land_ft) / row.cast_ft) * FT;
      // The target that the bottom allows under the boat, as the cast itself sets it.
      const runningDepthM = Math.min(row.target_ft, row.boat_ft - row.clearance_ft) * FT;
      const down = countDownOf(
        lure,
        {
          castDepthM: row.land_ft * FT,
          boatDepthM: row.boat_ft * FT,
          castLengthM: row.cast_ft * FT,
          castAngleDeg: 20,
          bankDeg: 20,
          runningDepthM,
          contact: null,
        },
        row.fall_ft_s * FT,
        book,
      );
      expect(Math.abs(down.countS - row.count_s)).toBeLessThan(0.25);
      expect(Math.abs(down.moreEvery3mS - row.extra_s_per_10ft)).toBeLessThan(0.12);
      if (slopeM > 0 && row.follows_slope_until_ft > 0)
        expect(Math.abs(down.untilM / FT - row.follows_slope_until_ft)).toBeLessThan(2.5);
    },
  );
});

describe('the speed at which a lure still holds its depth', () => {
  it.each(table.hold)(
    'falling $fall_ft_s ft/s at $distance_ft ft and $depth_ft ft is $fastest_ft_s ft/s',
    (row) => {
      const lure = { ...classOf('jig'), hold: 1 };
      const held = holdSpeedMs(lure, row.fall_ft_s * FT, 2 * row.distance_ft * FT, row.depth_ft * FT, book);
      expect(held / FT).toBeCloseTo(row.fastest_ft_s, 1);
    },
  );
});

describe('contact with the bottom', () => {
  it.each(table.contact)('of a $D_ft-ft lure, boat over $boat_ft ft, landing in $land_ft ft', (row) => {
    const share = bottomContact({
      runningDepthM: row.D_ft * FT,
      diveSlope: Math.max(0.2, row.D_ft / 32),
      riseLengthM: Math.min(2.7 * row.D_ft, 32) * FT,
      castLengthM: row.cast_ft * FT,
      boatDepthM: row.boat_ft * FT,
      castDepthM: row.land_ft * FT,
    }).share;
    expect(Math.abs(share - row.contact_share)).toBeLessThan(0.006);
  });

  // The trade's own case: a 6-ft lure, boat over 7 to 8 ft, landing in 2 to 3 ft. Practice calls it most of the way.
  it.each([
    [7, 2],
    [7.5, 2.5],
    [8, 3],
  ])('of the trade’s own case, boat over %s ft and landing in %s ft, is 0.3 to 0.6', (boat, land) => {
    const { share } = bottomContact({
      runningDepthM: 6 * FT,
      diveSlope: 0.2,
      riseLengthM: 16.2 * FT,
      castLengthM: 75 * FT,
      boatDepthM: boat * FT,
      castDepthM: land * FT,
    });
    expect(share).toBeGreaterThan(0.3);
    expect(share).toBeLessThan(0.6);
  });

  const divers = book.classes.filter(({ family }) => family === 'diving');
  const only = (id: string) => ({ ...book, classes: [classOf(id)], situations: [] });

  it('is at least 30 % for every diving lure offered over hard bottom, and ends before the boat', () => {
    let offered = 0;
    for (const lure of divers) {
      for (const where of [
        'channel_swing_bank',
        'riprap',
        'secondary_point',
        'main_point',
        'pocket',
        'laydown',
      ]) {
        for (const top of [0.3, 0.8, 1.2, 1.8, 2.5, 3.5]) {
          for (const bankDeg of [4, 12, 20, 30, 45]) {
            for (const cast of presentAt(
              conditions({ waterC: 18, bankDeg }),
              place(where, [top, top + 1.2]),
              only(lure.id),
              tackle,
            )) {
              if (cast.family !== 'diving') throw new Error('not a diving lure');
              // The trade's own case computes to 0.30 to 0.59 in the planar geometry: what is offered touches as much.
              expect(cast.contact!.share).toBeGreaterThanOrEqual(0.3 - 1e-9);
              expect(cast.boatDepthM).toBeGreaterThan(cast.runningDepthM);
              offered += 1;
              expect(cast.contact!.toM / cast.castLengthM).toBeLessThanOrEqual(0.92);
            }
          }
        }
      }
    }
    expect(offered).toBeGreaterThan(100);
  });

  it('that cannot be had is said in few words, and another class is offered', () => {
    const deep = { ...book, classes: [classOf('deep-diving crankbait'), classOf('Carolina rig')] };
    const cards = presentAt(
      conditions({ waterC: 27, clarityM: 1.2, windMs: 5, cloudPct: 60, currentMs: 0.4 }),
      place('river_channel', [4, 6]),
      deep,
      { ...tackle, castLengthM: 45 * FT },
    );
    expect(cards[0]!.lureClass).toBe('Carolina rig');
    expect(cards[0]!.misfit?.problem).toMatchObject({ code: 'littleContact' });
    expect(sayCast(cardOf(cards[0]!), {}).misfit).toBe(
      'A deep-diving crankbait would suit the water, but it would hardly touch bottom on this cast. A Carolina rig works here.',
    );
  });

  // Where the trade ties on a deep diver, it is offered: ledges and humps of summer, a cast of 90 ft, fish at 12 to 18 ft.
  it.each(['river_channel', 'hump', 'main_point', 'hard_spot'])(
    'is enough for a deep diver at a summer %s',
    (where) => {
      const [first] = presentAt(
        conditions({ waterC: 27, clarityM: 1.2, windMs: 3, bankDeg: 12 }),
        place(where, [12 * FT, 18 * FT]),
        only('deep-diving crankbait'),
        { ...tackle, castLengthM: 90 * FT },
      );
      expect(first?.lureClass).toBe('deep-diving crankbait');
      expect(first?.family === 'diving' && first.contact!.share).toBeGreaterThanOrEqual(0.3);
    },
  );
});

const days = fc.record({
  where: fc.constantFrom(...Object.keys(book.places)),
  top: fc.double({ min: 0.2, max: 8, noNaN: true }),
  width: fc.double({ min: 0.2, max: 5, noNaN: true }),
  lure: fc.constantFrom(...book.classes.map(({ id }) => id)),
  signals: fc.record(
    {
      waterC: fc.double({ min: 4, max: 32, noNaN: true }),
      clarityM: fc.double({ min: 0.1, max: 6, noNaN: true }),
      windMs: fc.double({ min: 0, max: 12, noNaN: true }),
      currentMs: fc.double({ min: 0, max: 0.6, noNaN: true }),
      bankDeg: fc.double({ min: 1, max: 80, noNaN: true }),
    },
    { requiredKeys: ['waterC'] },
  ),
});

function eachCast(check: (cast: Presented) => void): void {
  fc.assert(
    fc.property(days, ({ where, top, width, lure, signals }) => {
      const one = { ...book, classes: [classOf(lure)] };
      for (const at of [book, one])
        for (const cast of presentAt(conditions(signals), place(where, [top, top + width]), at, tackle))
          check(cast);
    }),
    { numRuns: 400 },
  );
}

/** Depth of the bottom, m; the bank is a plane. */
function bottomAt(cast: Presented, alongM: number): number {
  if (cast.family === 'vertical') return cast.boatDepthM;
  return cast.castDepthM + ((cast.boatDepthM - cast.castDepthM) * alongM) / cast.castLengthM;
}

/** Depth of the way, m, between its corners; the deeper one where it falls straight down. */
function wayAt({ path }: Presented, alongM: number): number {
  const next = path.findIndex((corner, i) => i > 0 && corner.alongM >= alongM && corner.alongM > 0);
  const [from, to] = [path[next - 1]!, path[next]!];
  return from.depthM + ((to.depthM - from.depthM) * (alongM - from.alongM)) / (to.alongM - from.alongM);
}

describe('the way of the lure', () => {
  it('leads from the surface where it lands to the boat, and never lies below the bottom', () => {
    const families = new Set<string>();
    eachCast((cast) => {
      families.add(cast.family);
      const { path } = cast;
      expect(path[0]).toEqual({ alongM: 0, depthM: 0 });
      expect(path.at(-1)!.alongM).toBe(cast.family === 'vertical' ? 0 : cast.castLengthM);
      for (const [i, { alongM, depthM }] of path.entries()) {
        expect(alongM).toBeGreaterThanOrEqual(path[i - 1]?.alongM ?? 0);
        expect(depthM).toBeLessThanOrEqual(bottomAt(cast, alongM) + 1e-9);
        expect(depthM).toBeGreaterThanOrEqual(0);
      }
      if (cast.family === 'sinking' && cast.down !== null) {
        const { countS, fallMs, startDepthM } = cast.down;
        expect(countS * fallMs).toBeLessThanOrEqual(cast.castDepthM);
        expect(startDepthM).toBeLessThanOrEqual(cast.runningDepthM + 1e-9);
      }
      if (cast.family === 'vertical' || cast.family === 'suspending' || cast.family === 'sinking')
        expect(cast.runningDepthM).toBeLessThan(cast.boatDepthM);
    });
    expect([...families].sort()).toEqual([
      'bottom',
      'diving',
      'sinking',
      'surface',
      'suspending',
      'vertical',
    ]);
  });

  it('lies on the bottom where the card says, and nowhere else', () => {
    let touching = 0;
    eachCast((cast) => {
      if (cast.family === 'vertical' || cast.family === 'surface') return;
      const contact = 'contact' in cast ? cast.contact : null;
      for (let k = 1; k < 50; k += 1) {
        const alongM = (cast.castLengthM * k) / 50;
        const off = bottomAt(cast, alongM) - wayAt(cast, alongM);
        if (contact !== null && alongM >= contact.fromM && alongM <= contact.toM) {
          touching += 1;
          expect(off).toBeCloseTo(0, 6);
        } else if (cast.family !== 'sinking') expect(off).toBeGreaterThan(0);
      }
    });
    expect(touching).toBeGreaterThan(1000);
  });

  // The trade's figures for a 6-ft lure, as rules of practice: 6 ft in 30 ft down, lifted over about 16 ft.
  it('dives and is lifted at the slopes of the rules', () => {
    const [cast] = presentAt(
      conditions({ waterC: 14, clarityM: 1.2 }),
      place('secondary_point', [5 * FT, 7 * FT]),
      { ...book, classes: [classOf('jerkbait')], situations: [] },
      tackle,
    );
    const { path } = cast!;
    const runM = Math.max(...path.map(({ depthM }) => depthM));
    const [dived, lifted] = [path[1]!, path.at(-2)!];
    expect(dived.depthM / dived.alongM).toBeCloseTo(0.2, 6);
    expect(75 * FT - lifted.alongM).toBeCloseTo(2.7 * runM, 6);
  });

  it.each(table.hold)(
    'of a sinking lure that falls $fall_ft_s ft/s and is wound $fastest_ft_s ft/s is lifted from $distance_ft ft off',
    (row) => {
      const lift = liftOf(
        row.fastest_ft_s * FT,
        { ...classOf('jig'), hold: 1 },
        row.fall_ft_s * FT,
        row.depth_ft * FT,
        book,
      );
      // The table's speed is rounded to a tenth.
      expect(Math.abs(lift.lengthM / FT / row.distance_ft - 1)).toBeLessThan(2 * (0.05 / row.fastest_ft_s));
    },
  );
});
