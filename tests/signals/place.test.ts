/** The lake's own places in the wind of the day. Waves by the formula of EM 1110-2-1100, part II chapter 2. */
import { describe, expect, it } from 'vitest';
import type { LakeConfig, LakeShape } from '../../src/config/types.ts';
import { fetchesM, nearestBank, outlineOf, type Spot } from '../../src/shape/index.ts';
import { fetchWaves } from '../../src/science/waves.ts';
import { lakeReport } from '../../src/signals/place/index.ts';
import { readSignals, type HourPoint } from '../../src/signals/index.ts';
import { expandQuantities } from '../../src/units/index.ts';
import { say, wordsFor } from '../../src/words/index.ts';
import { recordView, testLake } from '../helpers/weatherRecord.ts';

const HOUR_MS = 3_600_000;
/** 06:00 at the lake, 6 March 2026. */
const START = Date.parse('2026-03-06T12:00:00Z');
const SUN = {
  dawnMs: START,
  riseMs: START + 0.3 * HOUR_MS,
  setMs: START + 11.8 * HOUR_MS,
  duskMs: START + 12.2 * HOUR_MS,
};
const day = (wind: (hour: number) => readonly [fromDeg: number, ms: number]): HourPoint[] =>
  Array.from({ length: 12 }, (_, i) => {
    const [windDirDeg, windMs] = wind(6 + i);
    return { atMs: START + i * HOUR_MS, windDirDeg, windMs, sunAltitudeDeg: 20, forecast: true };
  });
const said = (lake: LakeConfig, hours: readonly HourPoint[]): string[] =>
  (lakeReport(lake, hours, SUN)?.told ?? []).map((fact) =>
    expandQuantities(say(wordsFor('en').lake.fact, fact), 'us'),
  );

/** 6 km from west to east, 1 km wide, with a bay of 400 m that opens to the south in the middle of its north bank. */
const RINGS: Spot[] = [
  [0, 0],
  [6000, 0],
  [6000, 1000],
  [3050, 1000],
  [3050, 1400],
  [2950, 1400],
  [2950, 1000],
  [0, 1000],
];
const outline = outlineOf([RINGS]);
const placed = (name: string, kind: 'pocket' | 'point' | 'ramp', at: Spot): LakeShape['places'][number] => ({
  name,
  kind,
  at,
  bankM: nearestBank(outline, at).distanceM,
  facesDeg: nearestBank(outline, at).facesDeg,
  fetchesM: fetchesM(outline, at),
});
const places = [
  { ...placed('North Draw', 'pocket', [3000, 1390]), facesDeg: 180 },
  placed('East Shoulder', 'point', [5990, 500]),
  placed('West Ramp', 'ramp', [10, 500]),
  placed('East Ramp', 'ramp', [5990, 300]),
];
const shaped: LakeConfig = {
  ...testLake,
  points: [{ name: 'East Shoulder', place: 'main_point' }],
  ramps: [{ name: 'East Ramp' }, { name: 'West Ramp' }],
  shape: {
    outline: { ...outline, shores: 1 },
    drawn: outline.rings,
    waysM: [],
    places,
    openFetchesM: fetchesM(outline, [5990, 500]),
    longestFetchM: 6000,
  },
};

describe('with an outline', () => {
  const hours = day((hour) => [270, hour < 10 ? 1 : 9]);

  it('waves of a place come from its straight fetch along the wind of the hour', () => {
    const report = lakeReport(shaped, hours, SUN);
    const east = report?.places.find(({ name }) => name === 'East Shoulder');
    expect(east?.hours[0]?.waveM).toBeCloseTo(fetchWaves(1, 5990).heightM, 6);
    expect(east?.hours[8]?.waveM).toBeCloseTo(fetchWaves(9, 5990).heightM, 6);
    const bay = report?.places.find(({ name }) => name === 'North Draw');
    expect(bay?.hours[8]?.waveM).toBeLessThan(0.06);
  });

  it('the hazard is told by place: how high, where, by when, and who lies calm', () => {
    expect(said(shaped, hours)[0]).toBe(
      'Waves up to 1.1 ft on open water by 10:00, 1.1 ft at East Shoulder; North Draw calm.',
    );
  });

  it('the sheltered ramp is the one at the end that the wind comes from', () => {
    expect(said(shaped, hours)).toContainEqual(
      expect.stringMatching(/^Most sheltered ramp: West Ramp, open to the east, waves up to 0\.\d ft\.$/),
    );
    expect(
      said(
        shaped,
        day(() => [90, 9]),
      ),
    ).toContainEqual(expect.stringMatching(/ramp: East Ramp, open to the west/));
  });

  it('the water stands higher at the end that the wind blows towards, by its compass side', () => {
    expect(
      said(
        shaped,
        day(() => [270, 14]),
      ),
    ).toContainEqual(
      expect.stringMatching(/^By \d\d:00 the wind holds the water [\d.]+ in higher at the east end\.$/),
    );
  });

  it('in calm air nothing is told of waves, wind or ramps', () => {
    expect(
      said(
        shaped,
        day(() => [270, 0.5]),
      ).filter((line) => !line.startsWith('Longest direct sun')),
    ).toEqual([]);
  });
});

describe('without an outline, by the side a place faces', () => {
  const faced: LakeConfig = {
    ...testLake,
    pockets: testLake.pockets.map((pocket) => ({ ...pocket, facesDeg: 180 })),
    points: [
      { name: 'East Shoulder', place: 'main_point', facesDeg: 270 },
      { name: 'Shy Point', place: 'secondary_point', facesDeg: 90 },
      { name: 'Nameless side', place: 'secondary_point' },
    ],
    ramps: [{ name: 'Town Ramp', facesDeg: 90 }],
  };

  it('wind is told with its side, its hours, and who lies out of it', () => {
    expect(
      said(
        faced,
        day((hour) => [270, hour >= 11 && hour < 16 ? 7 : 1]),
      )[0],
    ).toBe(
      'Wind from the west stands on East Shoulder from 11:00 to 16:00; out of it: Shy Point (open to the east).',
    );
  });
  it('the ramp is told as in the wind or out of it, without waves that nobody knows', () => {
    expect(
      said(
        faced,
        day(() => [270, 7]),
      ),
    ).toContain('Ramp: Town Ramp, open to the east, out of the wind.');
    expect(
      said(
        faced,
        day(() => [90, 7]),
      ),
    ).toContain('Ramp: Town Ramp, open to the east, wind on it for a part of the day.');
  });
  it('a pocket that looks south has the longest sun, and its hours', () => {
    expect(
      said(
        faced,
        day(() => [270, 7]),
      ).at(-1),
    ).toMatch(
      /^Longest direct sun: North Draw, open to the south, 1[01] h between 06:\d\d and 1[67]:\d\d where the sky is clear\.$/,
    );
  });
  it('a lake that says nothing of its places is told nothing', () => {
    expect(
      lakeReport(
        testLake,
        day(() => [270, 7]),
        SUN,
      ),
    ).toBeNull();
  });
  it('no sentence says windward or lee', () => {
    const all = [faced, shaped].flatMap((lake) =>
      said(
        lake,
        day(() => [270, 12]),
      ),
    );
    expect(all.join(' ')).not.toMatch(/windward|leeward|\blee\b/i);
  });
});

describe('sun on a bank', () => {
  const sunOn = (points: LakeConfig['points'], more: Partial<LakeConfig> = {}) => {
    const lake: LakeConfig = { ...testLake, pockets: [], points, ...more };
    return lakeReport(lake, [], SUN);
  };
  const point = { name: 'East Shoulder', place: 'main_point', facesDeg: 180 } as const;

  it('is kept from it by its own horizon before the lake’s', () => {
    const walls = Array.from({ length: 8 }, () => 89);
    expect(sunOn([point])?.places[0]?.sun?.sunH).toBeGreaterThan(10);
    expect(sunOn([point], { horizonDeg: walls })?.places[0]?.sun?.sunH ?? 0).toBe(0);
    expect(
      sunOn([{ ...point, horizonDeg: [0] }], { horizonDeg: walls })?.places[0]?.sun?.sunH,
    ).toBeGreaterThan(10);
  });

  it('is told of the sunniest place, and of no ramp', () => {
    const north = { ...point, name: 'North Face', facesDeg: 0, horizonDeg: [40] };
    expect(sunOn([north, point])?.told).toMatchObject([{ code: 'sun', name: 'East Shoulder', faces: 4 }]);
    expect(sunOn([], { ramps: [{ name: 'Town Ramp', facesDeg: 180 }] })?.told).toEqual([]);
  });

  it('is not told where it neither rises nor sets', () => {
    const lake: LakeConfig = { ...testLake, pockets: [], points: [point] };
    const report = lakeReport(lake, [], { dawnMs: null, riseMs: null, setMs: null, duskMs: null });
    expect(report?.places[0]?.sun).toBeNull();
    expect(report?.told).toEqual([]);
  });
});

describe('sun that a pocket’s surroundings keep from it', () => {
  const clear = (facing: Partial<LakeConfig['pockets'][number]>) => {
    const lake = { ...testLake, pockets: testLake.pockets.map((pocket) => ({ ...pocket, ...facing })) };
    const view = recordView({
      asOf: '2026-03-06T12:00:00Z',
      weather: ({ hour }) => ({
        air: 10,
        wind: 1.5,
        cloud: 5,
        sun: Math.max(0, 700 * Math.sin(((hour - 6.5) * Math.PI) / 12)),
      }),
    });
    const [report] = readSignals(view, lake).pockets;
    if (report === undefined) throw new Error('no pocket');
    const shaded = report.story.find(({ code }) => code === 'shaded');
    return {
      surfaceC: report.surfaceC.value,
      shaded,
      sentence: shaded === undefined ? '' : expandQuantities(say(wordsFor('en').pockets.fact, shaded), 'us'),
    };
  };
  const hills = (open: number): number[] =>
    Array.from({ length: 8 }, (_, i) => (Math.min((i - open + 8) % 8, (open - i + 8) % 8) <= 1 ? 0 : 35));

  it('makes one that looks south warmer than one that looks north, and is stated with its hours and effect', () => {
    const south = clear({ horizonDeg: hills(4) });
    const north = clear({ horizonDeg: hills(0) });
    expect(south.surfaceC).toBeGreaterThan(north.surfaceC + 0.2);
    expect(north.sentence).toMatch(
      /^Its surroundings leave it \d h of direct sun today and make it \d+ °F colder than open water would be\.$/,
    );
  });
  it('is a guess, and said to be one, where only the side it faces is known', () => {
    const north = clear({ facesDeg: 0, landCover: 'wooded' });
    expect(north.sentence).toMatch(/^Trees and hills, by a guess, leave it \d+ h of direct sun/);
    expect(clear({}).sentence).toBe('');
  });
});
