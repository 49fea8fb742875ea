import { describe, expect, it } from 'vitest';
import {
  expandQuantities,
  formatQuantity,
  quantity,
  quantityRange,
  SI_UNIT,
  ThawlineError,
  type QuantityKind,
} from '../../src/units/index.ts';
import fc from 'fast-check';

describe('quantities inside sentences', () => {
  it('are written in the system of the reader', () => {
    const sentence = 'Water is {{temperature:8.3}}; the lake went {{levelChange:+0.3}} in {{hours:24}}.';
    expect(expandQuantities(sentence, 'metric')).toBe('Water is 8.3 °C; the lake went +0.30 m in 24 h.');
    expect(expandQuantities(sentence, 'us')).toBe('Water is 47 °F; the lake went +1.0 ft in 24 h.');
  });

  it('keep a minus sign and print no plus sign unless asked', () => {
    expect(expandQuantities('{{levelChange:-0.3}} {{levelChange:0.3}}', 'metric')).toBe('-0.30 m 0.30 m');
  });

  it('print a range with its unit once', () => {
    expect(expandQuantities('{{depth:0.6..2.4}}', 'us')).toBe('2 to 8 ft');
    expect(expandQuantities('{{depth:1.50..1.52}}', 'us')).toBe('5 ft');
  });

  it('leave a sentence without placeholders alone', () => {
    expect(expandQuantities('Cast {slowly}.', 'us')).toBe('Cast {slowly}.');
  });

  it.each(['{{speed:1}}', '{{depth:}}', '{{depth:two}}', '{{depth:NaN}}', '{{toString:1}}'])(
    'that cannot be read are refused, not printed: %s',
    (text) => {
      expect(() => expandQuantities(text, 'us')).toThrow(ThawlineError);
    },
  );

  it('are refused when they are not finite', () => {
    expect(() => quantity('depth', Number.NaN)).toThrow(/finite depth/);
    expect(() => quantityRange('depth', 0, Number.POSITIVE_INFINITY)).toThrow(ThawlineError);
  });

  it('come out as the formatter prints them, for every kind and both systems', () => {
    const kinds = Object.keys(SI_UNIT) as QuantityKind[];
    fc.assert(
      fc.property(
        fc.constantFrom(...kinds),
        fc.integer({ min: -500_000, max: 500_000 }).map((n) => n / 1000),
        fc.constantFrom('us' as const, 'metric' as const),
        fc.boolean(),
        (kind, si, system, signed) => {
          expect(expandQuantities(quantity(kind, si, signed), system)).toBe(
            formatQuantity(si, kind, system, signed && si >= 0),
          );
        },
      ),
    );
  });
});
