/** The units in which a form that names none is answered, and what does not hang on how it is written. */
import { describe, expect, it } from 'vitest';
import { understand, unitsOfAnswer, whatIfSchema } from '../../src/advice/whatIf/index.ts';
import type { Form } from './support.ts';

const read = (form: Form) => whatIfSchema.parse(form);
const units = (form: Form) => unitsOfAnswer(read(form));

describe('the units of an answer', () => {
  it.each<[string, Form]>([
    ['degrees Celsius', { water: { main: '9 C' } }],
    ['degrees Celsius, with the sign', { water: { main: '9 °C' } }],
    ['a change in kelvin', { water: { main: '9 C', change7d: '2 K' } }],
    ['metres of level', { level: { change24h: '0.2 m' } }],
    ['millimetres of rain', { rain: { last24h: '12 mm' } }],
    ['wind in m/s', { wind: { speed: '4 m/s' } }],
    ['wind in km/h', { wind: { speed: '15 km/h' } }],
    ['an hour in Celsius', { hours: [{ at: '08:00', air: '9 C' }] }],
    ['Celsius and knots, which both use', { water: { main: '9 C' }, wind: { speed: '8 kt' } }],
  ])('are metric for %s', (_, form) => {
    expect(units(form)).toBe('metric');
  });

  it.each<[string, Form]>([
    ['degrees Fahrenheit', { water: { main: '48 F' } }],
    ['a mixture', { water: { main: '9 C' }, wind: { speed: '8 mph' } }],
    ['a mixture with an hour', { water: { main: '9 C' }, hours: [{ at: '08:00', air: '48 F' }] }],
    ['knots alone', { wind: { speed: '8 kt' } }],
    ['a pure number', { rain: { hoursSince: 6 } }],
    ['nothing', {}],
  ])('are those of the US for %s', (_, form) => {
    expect(units(form)).toBe('us');
  });

  it('are those that the form asks for, whatever it is written in', () => {
    expect(units({ units: 'us', water: { main: '9 C' } })).toBe('us');
    expect(units({ units: 'metric', water: { main: '48 F' } })).toBe('metric');
  });
});

describe('the hours of a form', () => {
  const form = (hours: readonly Form[]): Form => ({
    date: '2026-03-06',
    latitude: 36,
    water: { main: '48 F' },
    wind: { speed: '5 mph' },
    hours,
  });
  const early = { at: '08:00', wind: '3 mph', air: '40 F' };
  const late = { at: '14:00', wind: '12 mph', air: '55 F' };

  it('have to be listed in the order of the day', () => {
    expect(whatIfSchema.safeParse(form([early, late])).success).toBe(true);
    expect(() => read(form([late, early]))).toThrow(/order of the day/);
  });
});

describe('runoff', () => {
  const rainy = (rain: Form): Form => ({
    date: '2026-03-06',
    latitude: 36,
    water: { main: '48 F' },
    air: { mean24h: '60 F' },
    rain: { last24h: '1.2 in', hoursSince: 6, ...rain },
  });
  const runoffOf = (rain: Form) => understand(read(rainy(rain))).conditions.signals.runoffC;

  it('is surer where the air of the rain is given than where it is guessed', () => {
    const [told, guessed] = [runoffOf({ temperature: '62 F' }), runoffOf({})];
    const width = (figure: typeof told) => (figure?.high ?? NaN) - (figure?.low ?? NaN);
    expect(width(told)).toBeGreaterThan(0);
    expect(width(guessed)).toBeGreaterThan(width(told));
    expect(told!.value - told!.low!).toBeLessThan(guessed!.value - guessed!.low!);
  });
});
