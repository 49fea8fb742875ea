import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  displayUnit,
  formatNumber,
  formatQuantity,
  SI_UNIT,
  type QuantityKind,
} from '../../src/units/index.ts';

const KINDS = Object.keys(SI_UNIT) as QuantityKind[];

/**
 * Exact or defined conversions: international foot 0.3048 m, pound 0.45359237 kg, mile 1609.344 m, inch 25.4 mm
 * (NIST SP 811, 2008, appendix B); 1 inHg (0 °C) = 3386.38 Pa in the same table.
 */
describe('values written for people', () => {
  it.each<[QuantityKind, number, string, string]>([
    ['temperature', 0, '32 °F', '0.0 °C'],
    ['temperature', -40, '-40 °F', '-40.0 °C'],
    ['temperature', 100, '212 °F', '100.0 °C'],
    ['temperatureDifference', 10, '18 °F', '10.0 °C'],
    ['temperatureError', 0.6, '1.1 °F', '0.6 °C'],
    ['level', 0.3048, '1.0 ft', '0.30 m'],
    ['levelError', 0.0508, '2.0 in', '5.1 cm'],
    ['depth', 3.048, '10 ft', '3.0 m'],
    ['rain', 25.4, '1.00 in', '25 mm'],
    ['windSpeed', 0.44704 * 20, '20 mph', '32 km/h'],
    ['windSpeedError', 0.44704 * 1.5, '1.5 mph', '2.4 km/h'],
    ['lureSpeed', 0.6096, '2.0 ft/s', '0.61 m/s'],
    ['flow', 28.316846592, '1000 ft³/s', '28.3 m³/s'],
    ['pressure', 1013.25, '29.92 inHg', '1013 hPa'],
    ['lineTest', 0.45359237 * 14, '14 lb', '6.4 kg'],
    ['share', 0.42, '42%', '42%'],
    ['lineTake', 0.66, '26 in', '0.66 m'],
    ['angle', 45, '45°', '45°'],
    ['landing', 0.3048 * 2.6, '2.5 ft', '0.8 m'],
    ['landing', 0.3048 * 15.3, '15.5 ft', '4.7 m'],
    ['landing', 0.3048 * 4, '4 ft', '1.2 m'],
    ['castAngle', 37, '35°', '35°'],
    ['count', 3, '3', '3'],
  ])('%s %d reads %s or %s', (kind, si, us, metric) => {
    expect(formatQuantity(si, kind, 'us')).toBe(us);
    expect(formatQuantity(si, kind, 'metric')).toBe(metric);
  });

  it('print of a flow three digits, as a gauge is rated to a few per cent, from a creek to a flood', () => {
    const cfs = 0.028316846592;
    const us = [0.04, 0.36, 48.23, 405.4, 999.6, 1775, 12_881].map((v) =>
      formatQuantity(v * cfs, 'flow', 'us'),
    );
    expect(us).toEqual([
      '0.0 ft³/s',
      '0.4 ft³/s',
      '48.2 ft³/s',
      '405 ft³/s',
      '1000 ft³/s',
      '1780 ft³/s',
      '12900 ft³/s',
    ]);
    expect(formatQuantity(0.034, 'flow', 'metric')).toBe('0.03 m³/s');
    expect(formatQuantity(9.996, 'flow', 'metric')).toBe('10.0 m³/s');
    expect(formatQuantity(-364.8, 'flow', 'metric', true)).toBe('-365 m³/s');
    expect(formatNumber(0, 'flow', 'metric', true)).toBe('0.00');
  });

  it('never print minus zero', () => {
    expect(formatNumber(-0.001, 'levelChange', 'metric', true)).toBe('0.00');
    expect(formatNumber(-0.01, 'temperatureDifference', 'us', true)).toBe('0');
  });

  it('round halves away from zero, alike on both sides', () => {
    expect(formatNumber(0.125, 'levelChange', 'metric')).toBe('0.13');
    expect(formatNumber(-0.125, 'levelChange', 'metric')).toBe('-0.13');
  });

  it('print a plus sign only when asked', () => {
    expect(formatNumber(1, 'levelChange', 'metric')).toBe('1.00');
    expect(formatNumber(1, 'levelChange', 'metric', true)).toBe('+1.00');
  });

  it('come back to the SI value they were made from, for every kind', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...KINDS),
        fc.constantFrom('us' as const, 'metric' as const),
        fc.double({ min: -1e6, max: 1e6, noNaN: true }),
        (kind, system, si) => {
          const unit = displayUnit(kind, system);
          expect(unit.toSi(unit.fromSi(si))).toBeCloseTo(si, 6);
        },
      ),
    );
  });

  it('differ from the value by at most half a printed step', () => {
    fc.assert(
      fc.property(
        // Lures are shown in fractions of an ounce, which are no decimals.
        fc.constantFrom(...KINDS.filter((kind) => kind !== 'lureMass')),
        fc.constantFrom('us' as const, 'metric' as const),
        fc.double({ min: -1e4, max: 1e4, noNaN: true }),
        (kind, system, si) => {
          const unit = displayUnit(kind, system);
          const printed = Number(formatNumber(si, kind, system));
          const shown = unit.fromSi(si);
          const size = Math.floor(Math.log10(Math.abs(shown))) + 1;
          const decimals = Math.min(unit.decimals, (unit.significant ?? Infinity) - size);
          const step = unit.step ?? 10 ** -decimals;
          expect(Math.abs(printed - shown)).toBeLessThanOrEqual(0.5 * step + 1e-6);
        },
      ),
    );
  });
});
