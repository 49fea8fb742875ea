import { describe, expect, it } from 'vitest';
import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { days, planned, planOf } from './support.ts';

/** Every block of the whole days, with the water of its day. Common practice, no source. */
const BLOCKS = days.flatMap(({ id, form }) => {
  const { plan } = planned(form);
  return (plan?.blocks ?? []).map((block) => ({ id, block }));
});
const reasonsOf = (code: string) =>
  BLOCKS.flatMap(({ id, block }) => {
    const change = block.whyChange?.code === 'reason' ? [block.whyChange.reason] : [];
    return [...block.because, ...change]
      .filter((reason) => reason.code === code)
      .map((reason) => ({ id, block, reason }));
  });

describe('a reason of a block fits its place, its depth and its water', () => {
  it('low light sends nobody shallow where the fish begin deep', () => {
    const told = reasonsOf('lowLight');
    expect(told.length).toBeGreaterThan(3);
    for (const { id, block } of told) expect(block.depthM[0], id).toBeLessThanOrEqual(2.1);
  });

  it('a high sun draws to shade where there is any, and sends deeper where there is none', () => {
    const told = reasonsOf('highSun');
    expect(told.length).toBeGreaterThan(0);
    for (const { id, block, reason } of told) {
      const shadeless = [
        'hump',
        'hard_spot',
        'river_channel',
        'bluff',
        'main_point',
        'riprap',
        'bridge',
        'pond_dam',
      ];
      expect(reason.code === 'highSun' && reason.sends === 'deeper', id).toBe(
        shadeless.includes(block.place),
      );
    }
  });

  it('the warmth of a pocket is told of the pocket and its inflow alone', () => {
    const told = reasonsOf('pocketWarmer');
    expect(told.length).toBeGreaterThan(0);
    for (const { id, block } of told) expect(['pocket', 'inflow'], id).toContain(block.place);
  });

  it('in water under 50 F no wind speaks for a place', () => {
    const form = (main: string) => ({
      date: '2026-01-20',
      latitude: 36,
      waterBody: 'highland-reservoir',
      water: { main, clarity: '5 ft' },
      hours: [{ at: '07:00', air: '44 F', cloud: '60 %', wind: '10 mph', windFrom: 'S' }],
    });
    const winds = (main: string) =>
      planOf(form(main)).blocks.flatMap(({ because }) => because.filter(({ code }) => code === 'windOnIt'));
    expect(winds('41 F')).toEqual([]);
    expect(winds('48 F')).toEqual([]);
  });

  it('nothing is said to begin with a block that was so in the hour before', () => {
    const still = {
      date: '2026-06-20',
      latitude: 36,
      waterBody: 'highland-reservoir',
      species: 'largemouth',
      water: { main: '77 F', clarity: '5 ft' },
      hours: [{ at: '05:00', air: '78 F', cloud: '20 %', wind: '2 mph', windFrom: 'S' }],
    };
    for (const { whyChange } of planOf(still).blocks)
      if (whyChange?.code === 'reason') expect(whyChange.reason.code).not.toBe('calm');
  });

  it('a river far above its usual flow in the cold keeps the plan off the old channel’s banks', () => {
    const lead = (dischargeRatio: string) =>
      planned({
        date: '2026-01-20',
        latitude: 36,
        waterBody: 'hill-land-reservoir',
        water: { main: '43 F', clarity: '2 ft' },
        flow: { dischargeRatio },
      }).positions;
    const rank = (ratio: string) => lead(ratio).find(({ place }) => place === 'channel_swing_bank')!.rank;
    expect(rank('14 x')).toBeGreaterThan(rank('1 x'));
    expect(lead('14 x')[0]!.place).not.toBe('channel_swing_bank');
  });
});

describe('the sentences of the rules', () => {
  const words = parse(readFileSync('config/rules/words.en.yaml', 'utf8')) as Record<string, string>;
  const { places } = parse(readFileSync('config/rules/positions.yaml', 'utf8')) as {
    places: { id: string; base: Record<string, { points: number }> }[];
  };

  it('of a place that a season speaks for do not speak against it', () => {
    for (const { id, base } of places) {
      for (const [phase, { points }] of Object.entries(base)) {
        if (points <= 0) continue;
        const said = words[`base.${id}.${phase}`] ?? '';
        expect(said, `${id} ${phase}`).not.toMatch(
          /^(?:Few|Nothing|Only|Most (?:of the )?fish|The fish nest)|[Oo]nly worth|worth fishing only|hardly grown|do not favour/,
        );
      }
    }
  });

  // PLACES.md rule 3, common practice: bait, fish and oxygen are never stated as seen.
  it('never tell of bait as if it had been seen', () => {
    for (const [id, said] of Object.entries(words)) {
      if (!id.startsWith('base.') || !/\b(?:[Bb]ait|[Ff]ry)\b/.test(said)) continue;
      expect(said, id).toMatch(/tend|look for|often|with bait|follow the bait|the way of bait/);
    }
  });

  it('tell no angler of a study in place of a reason', () => {
    for (const [id, said] of Object.entries(words))
      if (/^(?:base|depth|body)\./.test(id))
        expect(said, id).not.toMatch(/studied|Texas|strongly select|[Tt]racked/);
  });
});
