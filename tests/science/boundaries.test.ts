// Where one class, branch or formula ends and the next begins: each end belongs to the side that its source gives it to.
import { describe, expect, it } from 'vitest';
import {
  adjustCurveNumber,
  antecedentMoisture,
  classOf,
  eventWaterShare,
  EVENT_WATER,
  hydrographOrdinate,
  hydrographShares,
  humidityPct,
  isFogCode,
  isSunlit,
  isThunderCode,
  runoffIn,
  skyView,
  sunPosition,
  sunShare,
  swollenStreamC,
  theilSen,
  thermoclineM,
  waterDensity,
  wetBulbC,
} from '../../src/science/index.ts';
import { bottomContact } from '../../src/science/contact.ts';
import { heatIndexC } from '../../src/science/heatIndex.ts';
import { surfaceWind } from '../../src/science/heatExchange.ts';
import { fetchWaves } from '../../src/science/waves.ts';
import { windChillC } from '../../src/science/windChill.ts';

describe('present weather', () => {
  // WMO Manual on Codes (WMO-No. 306), code table 4677: the whole table of 0 to 99, by what it prints beside each figure.
  it('is a thunderstorm at 17 and from 95 to 99', () => {
    const thunder = Array.from({ length: 100 }, (_, code) => code).filter(isThunderCode);
    expect(thunder).toEqual([17, 95, 96, 97, 98, 99]);
    expect(isThunderCode(100)).toBe(false);
  });
  it('is fog from 41 to 49, not the fog at a distance of 40 nor the drizzle of 50', () => {
    const fog = Array.from({ length: 100 }, (_, code) => code).filter(isFogCode);
    expect(fog).toEqual([41, 42, 43, 44, 45, 46, 47, 48, 49]);
  });
});

describe('a class', () => {
  it('of clarity begins at its own bound: 5, 2 and 1 ft (common practice, no source)', () => {
    expect([1.5, 1.4999, 0.6, 0.5999, 0.3, 0.2999].map(classOf)).toEqual([
      'clear',
      'stained',
      'stained',
      'muddy',
      'muddy',
      'very-muddy',
    ]);
  });
  it('of moisture is average at both its printed bounds, 1.4 and 2.1 in. growing, 0.5 and 1.1 dormant', () => {
    const inches = (rain: number, growing: boolean) => antecedentMoisture(rain * 25.4, growing);
    expect([1.39, 1.4001, 2.0999, 2.11].map((rain) => inches(rain, true))).toEqual([
      'dry',
      'average',
      'average',
      'wet',
    ]);
    expect([0.49, 0.5001, 1.0999, 1.11].map((rain) => inches(rain, false))).toEqual([
      'dry',
      'average',
      'average',
      'wet',
    ]);
  });
});

describe('runoff', () => {
  it('is nothing up to the initial abstraction, at it too, and grows from there (TR-55, eq. 2-2)', () => {
    const abstraction = 0.2 * (1000 / 70 - 10);
    expect(runoffIn(abstraction / 2, 70)).toBe(0);
    expect(runoffIn(abstraction, 70)).toBe(0);
    expect(runoffIn(abstraction + 0.1, 70)).toBeGreaterThan(0);
    // A paved watershed of number 100 keeps nothing back.
    expect(runoffIn(0, 100)).toBe(0);
    expect(runoffIn(2, 100)).toBe(2);
  });
  it('is no flow before it begins, nor from five times the time to its peak on', () => {
    expect([-1, -0.01, 0, 5, 5.01, 99].map(hydrographOrdinate)).toEqual([0, 0, 0, 0, 0, 0]);
    expect(hydrographOrdinate(0.05)).toBeCloseTo(0.015, 12);
  });
  it('of a wetter watershed goes through every row of the printed table (Beven, table B6.3.2)', () => {
    expect([30, 40, 50, 60, 70, 80, 90, 100].map((cn) => adjustCurveNumber(cn, 'wet'))).toEqual([
      50, 60, 70, 78, 85, 91, 96, 100,
    ]);
    expect([30, 40, 50, 60, 70, 80, 90, 100].map((cn) => adjustCurveNumber(cn, 'dry'))).toEqual([
      15, 22, 31, 40, 51, 63, 78, 100,
    ]);
    expect(adjustCurveNumber(75, 'wet')).toBe(88);
    expect(adjustCurveNumber(75, 'dry')).toBe(57);
  });
  it('passes as the printed curve does: 37.5 % before the peak, 87 % by twice that time', () => {
    // NEH-630, table 16-1, mass curve (from memory).
    const shares = hydrographShares(10, 1);
    const passed = (ratio: number) =>
      shares.slice(0, Math.round(ratio * 10)).reduce((sum, share) => sum + share, 0);
    for (const [ratio, share] of [
      [0.1, 0.001],
      [0.5, 0.065],
      [0.8, 0.228],
      [1, 0.375],
      [1.3, 0.589],
      [1.6, 0.751],
      [2, 0.871],
      [3, 0.977],
    ] as const)
      expect(passed(ratio)).toBeCloseTo(share, 2);
    expect(passed(5)).toBeCloseTo(1, 12);
    expect(Math.max(...shares)).toBe(Math.max(shares[9] ?? 0, shares[10] ?? 0));
  });
});

describe('a stream swollen by rain', () => {
  it('is half of its most at the rain that is named for it, and nears its most', () => {
    for (const land of Object.values(EVENT_WATER)) {
      expect(eventWaterShare(land, 0)).toBe(0);
      expect(eventWaterShare(land, land.halfMm)).toBeCloseTo(land.most / 2, 12);
      expect(eventWaterShare(land, 1e6)).toBeCloseTo(land.most, 3);
    }
    expect(eventWaterShare(EVENT_WATER.wooded, 8)).toBeCloseTo(0.42, 12);
  });
  it('goes from what the ground held to the rain, by that share', () => {
    expect(swollenStreamC(EVENT_WATER.wooded, 15, 9, 0)).toBe(9);
    expect(swollenStreamC(EVENT_WATER.wooded, 15, 9, 8)).toBeCloseTo(9 + 0.42 * 6, 9);
    expect(swollenStreamC(EVENT_WATER.urban, 4, 9, 1)).toBeCloseTo(9 - 0.49 * 5, 9);
  });
});

describe('moist air', () => {
  it('is full where the dew point reaches the air, and never fuller', () => {
    expect(humidityPct(20, 20)).toBe(100);
    expect(humidityPct(20, 25)).toBe(100);
    // 20 degC and 50 %: dew point 9.26 degC, as dewPointC says of itself.
    expect(humidityPct(20, 9.26)).toBeCloseTo(50, 1);
  });
  it('that is nearly dry cools a wet bulb by what the psychrometer equation gives, within its paper’s error', () => {
    // Stull (2011), figure 1, at 5 %: about 2.5 degC for air of 10 degC and 16 degC for 40 degC; read off, +-1.
    expect(Math.abs(wetBulbC(40, 5) - 16)).toBeLessThan(1.5);
    expect(Math.abs(wetBulbC(10, 5) - 1)).toBeLessThan(2);
  });
});

describe('the heat index', () => {
  const f = (airF: number, rhPct: number): number => heatIndexC((airF - 32) / 1.8, rhPct) * 1.8 + 32;
  // The regression of Rothfusz (1990), worked out apart from this program, before any adjustment.
  it('has no adjustment for moist air below 80 and above 87 degF', () => {
    expect(f(79, 100)).toBeCloseTo(83.8005, 3);
    // The chart of the weather service prints 132 at 90 degF and 100 %, 122 at 90 % (from memory).
    expect(Math.round(f(90, 100))).toBe(132);
    expect(Math.round(f(90, 90))).toBe(122);
  });
  it('goes over without a step where its adjustment for dry air ends, at 112 degF and 13 %', () => {
    expect(Math.abs(f(111.999, 5) - f(112.001, 5))).toBeLessThan(0.1);
    expect(Math.abs(f(100, 12.999) - f(100, 13.001))).toBeLessThan(0.1);
    expect(f(105, 8)).toBeCloseTo(98.1239, 3);
  });
  it('takes bone-dry and saturated air, and no more', () => {
    expect(heatIndexC(30, 0)).toBeLessThan(heatIndexC(30, 100));
    expect(() => heatIndexC(30, -0.01)).toThrow(/humidity between 0 and 100/);
    expect(() => heatIndexC(30, 100.01)).toThrow(RangeError);
    expect(() => heatIndexC(Infinity, 50)).toThrow(RangeError);
  });
});

describe('wind', () => {
  it('of none chills nothing and raises nothing, and is no mistake', () => {
    expect(windChillC(-5, 0)).toBe(-5);
    expect(fetchWaves(0, 1000)).toEqual({ frictionMs: 0, heightM: 0, periodS: 0 });
    expect(fetchWaves(10, 0)).toEqual({ frictionMs: expect.closeTo(0.3808, 3), heightM: 0, periodS: 0 });
    expect(() => windChillC(-5, -0.1)).toThrow(/wind of 0 m\/s or more/);
    expect(() => windChillC(-5, Infinity)).toThrow(RangeError);
    expect(() => fetchWaves(-0.1, 1000)).toThrow(/fetch of 0 or more/);
    expect(() => fetchWaves(5, -1)).toThrow(RangeError);
  });
  it('takes heat by contact at Bowen’s 0.47 mmHg/K of what it takes by evaporation, whatever it blows', () => {
    for (const windMs of [0, 2, 7, 20]) {
      const { evaporationWm2MmHg, sensibleWm2K } = surfaceWind(windMs);
      expect(sensibleWm2K / evaporationWm2MmHg).toBeCloseTo(0.47, 12);
    }
  });
  it('over shallow water raises the waves of the fetch that would give their period', () => {
    for (const [windMs, fetchM, depthM] of [
      [15, 8000, 0.4],
      [10, 20_000, 0.3],
    ] as const) {
      const held = fetchWaves(windMs, fetchM, depthM);
      // That fetch, looked for by halving, with no depth to hold it.
      let [low, high]: [number, number] = [0, fetchM];
      for (let k = 0; k < 60; k++) {
        const middle = (low + high) / 2;
        if (fetchWaves(windMs, middle).periodS < held.periodS) low = middle;
        else high = middle;
      }
      expect(held.heightM).toBeCloseTo(fetchWaves(windMs, high).heightM, 6);
      expect(held.frictionMs).toBe(fetchWaves(windMs, fetchM).frictionMs);
    }
  });
});

describe('a trend', () => {
  it('is bounded by slopes that the ranks name, with halves to the even one', () => {
    // 8 values without ties: 28 slopes, variance 65.33, half-width 15.84: ranks 6.08 - 1 and 21.92, as Sen (1968) has it.
    const ys = [0, 1, 4, 9, 16, 25, 36, 49];
    const slopes = ys
      .flatMap((y, i) => ys.slice(i + 1).map((later, k) => (later - y) / (k + 1)))
      .sort((a, b) => a - b);
    const { slope, low, high } = theilSen([0, 1, 2, 3, 4, 5, 6, 7], ys);
    expect(slope).toBe(7);
    expect(low).toBe(slopes[5]);
    expect(high).toBe(slopes[22]);
  });
});

describe('the layer of a lake', () => {
  it('is held by the relation for small basins below 5 km alone, in either direction', () => {
    // Gorham and Boyce (1989): deeper than the first relation's third where the lake is barely layered, at 12 degC.
    const barely = thermoclineM(4900, 12);
    const second = 2 * Math.sqrt(0.156 / (9.81 * (waterDensity(10) - waterDensity(12)))) * Math.sqrt(4900);
    expect(barely.highM).toBeCloseTo(second, 6);
    expect(barely.highM).toBeGreaterThan(1.31 * barely.depthM);
    const large = thermoclineM(5000, 12);
    expect(large.highM).toBeCloseTo(1.3 * large.depthM, 9);
    expect(large.lowM).toBeCloseTo(0.7 * large.depthM, 9);
    // ... and shallower than it in a short lake under hot water.
    const hot = thermoclineM(50, 40);
    expect(hot.lowM).toBeCloseTo(
      2 * Math.sqrt(0.156 / (9.81 * (waterDensity(10) - waterDensity(40)))) * Math.sqrt(50),
      6,
    );
  });
});

describe('the sun', () => {
  it('stands where the example of NREL’s solar position algorithm has it', () => {
    // Reda and Andreas (2004), NREL/TP-560-34302, table A5.1: 39.872046 before refraction, azimuth 194.340241 (from memory).
    const { altitudeDeg, azimuthDeg } = sunPosition(39.742476, -105.1786, Date.parse('2003-10-17T19:30:30Z'));
    expect(altitudeDeg).toBeCloseTo(39.872046, 3);
    expect(azimuthDeg).toBeCloseTo(194.340241, 3);
  });
  const equator = { latDeg: 0, lonDeg: 0, horizonDeg: [0] };
  const NOON = Date.parse('2026-03-20T12:00:00Z');
  const HOUR_MS = 3_600_000;
  it('of an hour of night, or of none, leaves what is seen of the sky', () => {
    const hills = { ...equator, horizonDeg: [60] };
    expect(sunShare(hills, NOON - 11 * HOUR_MS, 100)).toBeCloseTo(skyView([60]), 12);
    expect(sunShare(hills, NOON, 0)).toBeCloseTo(skyView([60]), 12);
  });
  it('of an hour that straddles sunset behind a hill is lit for the quarters before it', () => {
    // At the equator on the equinox the sun sinks 15 degrees an hour and passes 30 degrees two hours before it sets.
    const hills = { ...equator, horizonDeg: [30] };
    const setMs = NOON + 7.5 * 60_000 + 6 * HOUR_MS;
    const clear = 900;
    const before = sunShare(hills, setMs - 2.25 * HOUR_MS, clear);
    const during = sunShare(hills, setMs - 1.5 * HOUR_MS, clear);
    const after = sunShare(hills, setMs - 0.75 * HOUR_MS, clear / 3);
    expect(before).toBeGreaterThan(0.9);
    expect(during).toBeGreaterThan(after);
    expect(during).toBeLessThan(before);
    expect(after).toBeLessThan(skyView([30]));
  });
  it('on the line of a bank shines along it and not onto it', () => {
    const bank = { ...equator, bank: { facesDeg: 90, slopeDeg: 89.9 } };
    expect(isSunlit(bank, NOON - 3 * HOUR_MS)).toBe(true);
    expect(isSunlit(bank, NOON + 3 * HOUR_MS)).toBe(false);
  });
});

describe('a diving lure over a level bottom', () => {
  const cast = {
    runningDepthM: 2,
    diveSlope: 0.2,
    riseLengthM: 5,
    castLengthM: 20,
    boatDepthM: 1.5,
    castDepthM: 1.5,
  };
  it('touches from where it has dived to it until the line lifts it', () => {
    // 1.5 m at 0.2 a metre: from 7.5 m; lifted over 5 m of 2 m depth: off the bottom 3.75 m before the boat.
    expect(bottomContact(cast)).toEqual({ share: expect.closeTo(8.75 / 20, 9), fromM: 7.5, toM: 16.25 });
  });
  it('just reaches a bottom at its running depth, and never one below it', () => {
    const at = (depthM: number) => bottomContact({ ...cast, boatDepthM: depthM, castDepthM: depthM }).share;
    expect(at(2)).toBeGreaterThan(0);
    expect(at(2.001)).toBe(0);
    expect(at(0)).toBe(1);
  });
  it('needs every length and slope above nothing', () => {
    for (const name of ['runningDepthM', 'diveSlope', 'riseLengthM', 'castLengthM'] as const)
      expect(() => bottomContact({ ...cast, [name]: 0 })).toThrow(/positive lengths and slopes/);
    expect(() => bottomContact({ ...cast, castDepthM: -0.1 })).toThrow(RangeError);
  });
});
