/** A service that changes the unit of a series is doubted; water and wind that change are not. */
import fc from 'fast-check';
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import type { Observation, Variable } from '../../src/record/types.ts';
import { otherUnit } from '../../src/services/unitFactor.ts';
import { withoutWrongSeries } from '../../src/services/wholeSeries.ts';

const HOUR_MS = 3_600_000;
const NOW_MS = Date.UTC(2026, 3, 15, 12);

const rows = (
  variable: Variable,
  values: readonly number[],
  part: Partial<Observation> = {},
  lastMs = NOW_MS,
): Observation[] =>
  values.map((value, i) => ({
    lake: 'harrow-fork',
    variable,
    source: 'usgs',
    station: 'USGS-1',
    kind: 'observed',
    atMs: lastMs - (values.length - 1 - i) * HOUR_MS,
    periodS: 0,
    value,
    issuedMs: null,
    ...part,
  }));
const calm = Array.from({ length: 72 }, (_, i) => 12 + 4 * Math.sin(i / 5) + i / 40);
const model = { source: 'open-meteo', station: '', kind: 'model' } as const;

describe('a series that is what it was before, times the number between two units', () => {
  // Factors: NIST SP 811 (2008), appendix B.8: 1 ft3 = 0.02831685 m3, 1 mi/h = 0.44704 m/s, 1 kn = 0.5144444 m/s, 1 ft = 0.3048 m.
  it.each<[string, Variable, number, string]>([
    ['discharge in ft3/s called m3/s', 'discharge', 1 / 0.02831685, 'ft3/s'],
    ['release in m3/s called ft3/s', 'release', 0.02831685, 'ft3/s'],
    ['inflow in litres', 'inflow', 1000, 'L/s'],
    ['wind in km/h called m/s', 'wind_speed', 3.6, 'km/h'],
    ['wind in mph called m/s', 'wind_speed', 1 / 0.44704, 'mph'],
    ['gusts in knots called m/s', 'wind_gust', 1 / 0.5144444, 'knots'],
    ['wind in m/s called ft/s', 'wind_speed', 0.3048, 'ft/s'],
  ])('is refused and named: %s', (_, variable, factor, unit) => {
    const isWind = variable.startsWith('wind');
    const part = isWind ? model : {};
    const right = calm.map((v) => v * (isWind ? 0.4 : 40));
    const known = rows(variable, right, part);
    const reply = rows(
      variable,
      // Rounded as services do.
      right.map((v) => Number((v * factor).toPrecision(3))),
      part,
    );
    const notes: string[] = [];
    const kept = withoutWrongSeries(reply, 36, (problem) => notes.push(problem), known);
    expect(kept).toEqual([]);
    expect(notes).toEqual([expect.stringContaining(`between`)]);
    expect(notes[0]).toContain(unit);
    // Nothing is said of the series that stayed as it was.
    expect(withoutWrongSeries(known, 36, (problem) => notes.push(problem), known)).toEqual(known);
    expect(notes).toHaveLength(1);
  });

  it('is told apart from another gauge, from too few instants and from a value that never changes', () => {
    const known = rows('discharge', calm);
    const wrong = calm.map((v) => v * 35.3147);
    expect(otherUnit(rows('discharge', wrong), known)).not.toBeNull();
    expect(otherUnit(rows('discharge', wrong, { station: 'USGS-2' }), known)).toBeNull();
    expect(otherUnit(rows('discharge', wrong.slice(-5)), known)).toBeNull();
    const still = calm.map(() => 4);
    expect(
      otherUnit(
        rows(
          'discharge',
          still.map(() => 4 * 35.3147),
        ),
        rows('discharge', still),
      ),
    ).toBeNull();
    expect(otherUnit(rows('level', wrong), rows('level', calm))).toBeNull();
  });
});

describe('water and wind that change', () => {
  it('are believed: a flood of any size in the hours that nobody knew yet', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.6, max: 500, noNaN: true }),
        fc.double({ min: 1, max: 2000, noNaN: true }),
        fc.integer({ min: 1, max: 48 }),
        (base, times, hours) => {
          const known = rows(
            'discharge',
            calm.map((v) => v * base),
            {},
            NOW_MS - hours * HOUR_MS,
          );
          const rise = Array.from(
            { length: hours },
            (_, i) => 14 * base * (1 + ((times - 1) * (i + 1)) / hours),
          );
          const reply = rows('discharge', [...calm.map((v) => v * base), ...rise]);
          expect(otherUnit(reply, known)).toBeNull();
        },
      ),
    );
  });

  it('are believed: a rating that was revised, by a little or much', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.3, max: 1.9, noNaN: true }), (times) => {
        expect(
          otherUnit(
            rows(
              'discharge',
              calm.map((v) => v * times),
            ),
            rows('discharge', calm),
          ),
        ).toBeNull();
      }),
    );
  });

  it('are believed: a forecast that is stronger than the one before by any mean factor, and not by a constant one', () => {
    const hour = fc.double({ min: 1, max: 12, noNaN: true });
    fc.assert(
      fc.property(
        fc.array(fc.tuple(hour, hour), { minLength: 24, maxLength: 72 }),
        fc.constantFrom(1, 1.943844, 2.236936, 3.6),
        (pairs, times) => {
          const known = rows(
            'wind_speed',
            pairs.map(([was]) => was),
            model,
          );
          const reply = rows(
            'wind_speed',
            pairs.map(([, now]) => now * times),
            model,
          );
          expect(otherUnit(reply, known)).toBeNull();
        },
      ),
    );
  });

  // Readings of the Environment Agency, Open Government Licence v3.0 (fixtures/services/README.md).
  it('are believed in a real record of a river, and its reply in another unit is not', () => {
    const readings = z
      .object({ items: z.array(z.object({ dateTime: z.string(), value: z.number() })) })
      .parse(JSON.parse(readFileSync('fixtures/services/ea/uk_readings_discharge.json', 'utf8')));
    const real = readings.items.map(({ dateTime, value }): Observation => ({
      ...rows('discharge', [value])[0]!,
      source: 'ea',
      atMs: Date.parse(dateTime),
      value: value * 10,
    }));
    expect(new Set(real.map(({ value }) => value)).size).toBeGreaterThan(3);
    expect(otherUnit(real, real)).toBeNull();
    const wrong = real.map((row) => ({ ...row, value: row.value * 35.3147 }));
    expect(otherUnit(wrong, real)).toBe('m3/s and ft3/s');
  });
});
