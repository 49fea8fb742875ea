// What stands in for a number that nobody knows, the dark, and the time to be in before weather.
import { describe, expect, it } from 'vitest';
import { whatIfSchema } from '../../../src/advice/whatIf/index.ts';
import { whatIfAnswer } from '../../../src/schedule/whatIfAnswer.ts';
import { rules, TACKLE, type Form } from '../support.ts';

const answer = (form: Form) =>
  whatIfAnswer(whatIfSchema.parse({ date: '2026-06-10', latitude: 36, ...form }), rules, TACKLE).advice;
const idsOf = ({ safety }: ReturnType<typeof answer>): string[] => safety.hazards.map(({ id }) => id);

describe('a flood of which only the day is known', () => {
  const flood: Form = {
    water: { main: '75 F' },
    wind: { speed: '5 mph' },
    level: { change24h: '6 ft' },
    flow: { dischargeRatio: '40 x' },
  };

  it('keeps everybody ashore, by the rise of the day and the flow', () => {
    const day = answer(flood);
    expect(day.safety.level).toBe(4);
    expect(idsOf(day)).toContain('high-flow-risen');
    expect(day.plan!.notPlanned).toMatchObject({ code: 'ashore' });
  });

  it('yields to a rate that is known: water that has come to a stand is a day of care', () => {
    const day = answer({ ...flood, level: { change24h: '6 ft', change6h: '0 ft' } });
    expect(idsOf(day)).not.toContain('high-flow-risen');
    expect(day.safety.level).toBe(3);
  });

  it('is no flood without the flow, nor without the rise', () => {
    expect(answer({ ...flood, flow: { dischargeRatio: '2 x' } }).safety.level).toBe(3);
    expect(answer({ ...flood, level: { change24h: '3 ft' } }).safety.level).toBe(3);
  });

  it('carries wood whether or not it has rained here', () => {
    expect(
      idsOf(answer({ ...flood, flow: { dischargeRatio: '4 x' }, level: { change24h: '1.2 ft' } })),
    ).toContain('debris-in-flood');
    expect(idsOf(answer({ water: { main: '75 F' }, level: { change24h: '4 ft' } }))).toContain(
      'debris-on-rise',
    );
    expect(idsOf(answer({ water: { main: '75 F' }, level: { change24h: '1.2 ft' } })).join()).not.toMatch(
      /debris/,
    );
  });
});

describe('hours of one’s own after dark', () => {
  const evening = (to: string) =>
    idsOf(answer({ water: { main: '82 F' }, wind: { speed: '3 mph' }, fishing: { from: '17:00', to } }));
  it('are named, and those of the light are not', () => {
    expect(evening('23:30')).toContain('running-in-the-dark');
    expect(evening('19:00')).not.toContain('running-in-the-dark');
    expect(idsOf(answer({ water: { main: '82 F' } }))).not.toContain('running-in-the-dark');
  });

  it('are planned where the form asks for the night', () => {
    const { plan } = answer({ water: { main: '82 F' }, time: 'night' });
    expect(plan!.fishing!.from >= '19:00').toBe(true);
    expect(plan!.blocks.length).toBeGreaterThan(0);
  });
});

describe('the hour to be in', () => {
  const day = (hours: Form[]) => answer({ water: { main: '75 F' }, hours }).plan!;
  it('lies an hour before wind and thunder that are forecast (common practice, no source)', () => {
    const wind = day([
      { at: '00:00', wind: '5 mph', thunder: '0 %' },
      { at: '13:00', wind: '30 mph' },
    ]);
    expect(wind.beInBy).toMatchObject({ at: '12:00' });
    expect(wind.blocks.every(({ to }) => to <= '12:00')).toBe(true);
    const storm = day([
      { at: '00:00', wind: '5 mph', thunder: '0 %' },
      { at: '14:00', thunder: '60 %' },
    ]);
    expect(storm.beInBy).toMatchObject({ at: '13:00' });
  });
});
