import { describe, expect, it } from 'vitest';
import { days, faultsOf, minutes, planOf } from './support.ts';

// Written from common practice before the plan had rules (fixtures/plan/README.md); no source.
describe('whole days', () => {
  it('are thirty or more, over the year and the kinds of water', () => {
    expect(days.length).toBeGreaterThanOrEqual(30);
    const months = new Set(days.map(({ form }) => String(form['date']).slice(5, 7)));
    expect(months.size).toBeGreaterThanOrEqual(10);
  });

  it.each(days)('$id: $why', (day) => {
    expect(faultsOf(day, planOf(day.form))).toEqual([]);
  });

  it.each(days)('$id: keeps to the clock', ({ form }) => {
    const { blocks, fishing, beInBy, notPlanned } = planOf(form);
    expect(blocks.length === 0).toBe(notPlanned !== null);
    for (const [index, block] of blocks.entries()) {
      const next = blocks[index + 1];
      expect(block.toMs - block.fromMs).toBeGreaterThanOrEqual(0.75 * 3_600_000);
      expect(minutes(block.from)).toBeGreaterThanOrEqual(minutes(fishing!.from));
      expect(minutes(block.to)).toBeLessThanOrEqual(minutes(fishing!.to));
      expect(block.because.length).toBeGreaterThan(0);
      expect(block.depthM[0]).toBeLessThan(block.depthM[1]);
      expect(block.whyChange === null).toBe(index === 0);
      if (next) expect(next.fromMs).toBeGreaterThanOrEqual(block.toMs);
    }
    if (blocks.length > 0) expect(beInBy).not.toBeNull();
  });
});

const FRONT = days.find(({ id }) => id === 'march-front-at-noon')!.form;
const withHours = (
  form: typeof FRONT,
  change: (hour: Record<string, unknown>) => Record<string, unknown>,
) => ({
  ...form,
  hours: (form['hours'] as Record<string, unknown>[]).map(change),
});
const placeAt = (form: typeof FRONT, time: string): string =>
  planOf(form).blocks.find(({ from, to }) => minutes(from) <= minutes(time) && minutes(time) < minutes(to))
    ?.place ?? 'none';

describe('two days that differ in one thing', () => {
  it('differ where a front has passed, and are the same before it', () => {
    const without = withHours(FRONT, ({ at, pocket }) => ({
      at,
      pocket,
      air: '62 F',
      cloud: '85 %',
      wind: '10 mph',
      windFrom: 'SW',
    }));
    expect(placeAt(without, '09:00')).toBe(placeAt(FRONT, '09:00'));
    expect(placeAt(without, '16:00')).not.toBe(placeAt(FRONT, '16:00'));
  });

  // Common practice, no source: still, warm, clear water at first light is fished on the surface.
  it('differ at dawn where one is still and the other blows, and are the same from the hour the wind is', () => {
    const still = {
      date: '2026-06-20',
      latitude: 36,
      waterBody: 'highland-reservoir',
      species: 'largemouth',
      water: { main: '77 F', clarity: '8 ft' },
      hours: [
        { at: '05:00', air: '66 F', cloud: '20 %', wind: '1 mph', windFrom: 'S' },
        { at: '10:00', air: '82 F', wind: '9 mph', windFrom: 'SW' },
        { at: '19:00', wind: '2 mph' },
      ],
    };
    const blown = withHours(still, (hour) => (hour['at'] === '05:00' ? { ...hour, wind: '9 mph' } : hour));
    expect(planOf(still).blocks[0]?.lure.lureClass).toBe('topwater');
    expect(planOf(blown).blocks[0]?.lure.lureClass).not.toBe('topwater');
    expect(placeAt(blown, '14:00')).toBe(placeAt(still, '14:00'));
  });

  it('ask the thermometer only where the pocket’s own water lies', () => {
    const { blocks } = planOf({
      date: '2026-02-20',
      latitude: 34,
      waterBody: 'hill-land-reservoir',
      water: { main: '50 F', change7d: '4 F', pocket: '56 F', clarity: '2 ft' },
      air: { mean3d: '60 F', mean7d: '55 F', warmingDays: 5 },
      hours: [
        { at: '06:30', air: '52 F', cloud: '20 %', wind: '5 mph', windFrom: 'S', pocket: '53 F' },
        { at: '13:00', air: '70 F', pocket: '57 F' },
      ],
    });
    expect(blocks.map(({ place, giveUp }) => [place, giveUp.code])).toEqual([
      ['secondary_point', 'noBite'],
      ['pocket', 'noWarmth'],
    ]);
  });

  it('differ while water is released, and are the same at dawn', () => {
    const form = days.find(({ id }) => id === 'july-release-afternoon')!.form;
    const still = withHours(form, (hour) => ({ ...hour, generation: 'off' }));
    expect(placeAt(still, '05:00')).toBe(placeAt(form, '05:00'));
    expect(placeAt(still, '15:00')).not.toBe(placeAt(form, '15:00'));
  });

  it('differ after a warm rain, and are the same before it', () => {
    const form = days.find(({ id }) => id === 'winter-warm-rain-comes-at-noon')!.form;
    const dry = withHours(form, (hour) => ({ ...hour, rain: '0 in', pocket: '46 F' }));
    expect(placeAt(dry, '08:00')).toBe(placeAt(form, '08:00'));
    expect(placeAt(dry, '16:00')).not.toBe(placeAt(form, '16:00'));
  });

  it('are the same in every hour when nothing in the hours differs', () => {
    const form = days.find(({ id }) => id === 'october-creeks')!.form;
    const written = withHours(form, (hour) => ({ ...hour }));
    expect(planOf(written)).toEqual(planOf(form));
  });
});
