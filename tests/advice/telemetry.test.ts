import { describe, expect, it } from 'vitest';
import { adviceFor, rankOf, rules, totalOf, type Form } from './support.ts';

// Directions only, from abstracts of tracking studies; the sizes are ours. Full citations stand in the rules file.
const base: Form = {
  date: '2026-02-10',
  latitude: 35.7,
  species: 'largemouth',
  rain: { last72h: '0 in' },
  level: { change24h: '0 ft' },
  water: { main: '50 F', change7d: '0 F', clarity: '4 ft' },
  wind: { speed: '6 mph' },
  sky: 'partly',
};
const water = (fields: object): object => ({ ...(base['water'] as object), ...fields });

describe('directions from telemetry', () => {
  it('farther offshore when colder (Woodward and Noble 1997, Jordan Reservoir)', () => {
    const cold = adviceFor({ ...base, water: water({ main: '42 F' }) });
    const mild = adviceFor({ ...base, water: water({ main: '52 F' }) });
    for (const place of ['channel_swing_bank', 'bluff', 'standing_timber', 'river_channel']) {
      expect(totalOf(cold, place), place).toBeGreaterThan(totalOf(mild, place));
    }
    for (const place of ['pocket', 'flat', 'flooded_cover']) {
      expect(totalOf(cold, place), place).toBeLessThan(totalOf(mild, place));
    }
  });

  it('inshore into flooded cover on a rise, even at 6 C (Woodward and Noble 1997)', () => {
    const rise = adviceFor({
      ...base,
      level: { change24h: '1 ft' },
      water: water({ main: '6 C', pocket: '6.5 C' }),
    });
    const steady = adviceFor({ ...base, water: water({ main: '6 C', pocket: '6.5 C' }) });
    expect(totalOf(rise, 'flooded_cover')).toBeGreaterThan(totalOf(steady, 'flooded_cover') + 2);
  });

  it('not drawn in by a rise where the shallows are colder (Karchesky and Bennett 2004, Pend Oreille River)', () => {
    const rise = adviceFor({
      ...base,
      level: { change24h: '2 ft' },
      water: water({ main: '6 C', pocket: '4.3 C' }),
    });
    const steady = adviceFor({ ...base, water: water({ main: '6 C', pocket: '4.3 C' }) });
    // Without the draw of the rise only the drying of cover at a steady pool is lifted.
    expect(totalOf(rise, 'pocket')).toBeLessThanOrEqual(totalOf(steady, 'pocket') + 1e-9);
    expect(rankOf(rise, 'flooded_cover')).toBeGreaterThanOrEqual(13);
  });

  it('smallmouth on drop-offs of 30 to 45 degrees to the old channel (Hubert and Lackey 1980)', () => {
    for (const date of ['2026-01-15', '2026-03-10', '2026-11-25']) {
      const main = date.startsWith('2026-01') ? '44 F' : '51 F';
      const steep = adviceFor({
        ...base,
        date,
        species: 'smallmouth',
        bank: '38 deg',
        water: water({ main }),
      });
      const gentle = adviceFor({
        ...base,
        date,
        species: 'smallmouth',
        bank: '8 deg',
        water: water({ main }),
      });
      expect(rankOf(steep, 'channel_swing_bank'), date).toBe(1);
      expect(totalOf(steep, 'channel_swing_bank')).toBeGreaterThan(
        totalOf(gentle, 'channel_swing_bank') + 0.5,
      );
    }
  });

  it('Alabama bass deeper and on rock, largemouth near shore and in wood (Clemson thesis, Lake Hartwell, 2022)', () => {
    const spotted = adviceFor({ ...base, species: 'spotted' });
    const largemouth = adviceFor({ ...base, species: 'largemouth' });
    for (const place of ['bluff', 'main_point', 'riprap', 'main_lake_basin']) {
      expect(totalOf(spotted, place), place).toBeGreaterThan(totalOf(largemouth, place));
    }
    for (const place of ['laydown', 'dock', 'pocket']) {
      expect(totalOf(largemouth, place), place).toBeGreaterThan(totalOf(spotted, place));
    }
  });

  it('slack water in the cold season (Karchesky and Bennett 2004)', () => {
    const fast = adviceFor({ ...base, flow: { current: '2 ft/s' } });
    const slack = adviceFor({ ...base, flow: { current: '0 ft/s' } });
    expect(totalOf(fast, 'river_channel')).toBeLessThan(totalOf(slack, 'river_channel') - 1.5);
    expect(totalOf(fast, 'creek_arm')).toBeGreaterThan(totalOf(slack, 'creek_arm') + 1);
  });

  it('away from water with little oxygen (Brown, Aday and Rice 2015: avoided below 1.8 mg/L)', () => {
    const summer = { ...base, date: '2026-08-10', water: water({ main: '84 F' }) };
    const low = adviceFor({ ...summer, water: water({ main: '84 F', bottomOxygen: '1 mg/L' }) });
    const good = adviceFor({ ...summer, water: water({ main: '84 F', bottomOxygen: '6 mg/L' }) });
    expect(totalOf(low, 'main_lake_basin')).toBeLessThan(totalOf(good, 'main_lake_basin') - 1.5);
  });

  it('air pressure and the moon move nothing (SEAFWA 1977; Warden and Lorio 1975)', () => {
    const signals = JSON.stringify(rules.positions.modifiers.map(({ when }) => when)).toLowerCase();
    expect(signals).not.toMatch(/pressure|hpa|moon|lunar/);
  });
});
