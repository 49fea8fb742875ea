import { describe, expect, it } from 'vitest';
import { fixtureRivers, type ObservedRiver } from '../../../bench/river-data.ts';
import { scoreRiver } from '../../../bench/river-score.ts';

// Toffolon and Piccolroaz (2015), Environ. Res. Lett. 10, 114011, applied the equation to these rivers (and a
// snow-fed one) with daily data. From memory, no table at hand: errors below 1 degC in daily mean; discharge matters
// little in the lowland river and much in the dammed one fed by snow and ice.
const [mentue, rhone] = fixtureRivers();
const free = (river: ObservedRiver): number =>
  scoreRiver(river, { kind: river.kind, belief: { [river.ownBase]: 1 }, everyDays: 0 }).model.rmseC;
const withoutFlow = (river: ObservedRiver): ObservedRiver => ({
  ...river,
  weather: river.weather.map(({ date, airC }) => ({ date, airC })),
});

describe('stream equation against what was published of it', () => {
  it.each([mentue, rhone])('$name: error of held-out days below 1 degC without any reading', (river) => {
    expect(free(river)).toBeLessThan(1);
  });

  it('gains more from discharge in the dammed river than in the lowland one', () => {
    const gain = (river: ObservedRiver): number => free(withoutFlow(river)) / free(river) - 1;
    expect(gain(rhone)).toBeGreaterThan(0.3);
    expect(gain(mentue)).toBeLessThan(0.2);
  });
});
