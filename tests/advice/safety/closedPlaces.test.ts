// Where a hazard says to stay out, nobody is sent: not by the plan, not by the ranking's front, not by another pattern.
import { describe, expect, it } from 'vitest';
import { whatIfSchema } from '../../../src/advice/whatIf/index.ts';
import { gatePlan } from '../../../src/gate/index.ts';
import { whatIfAnswer } from '../../../src/schedule/whatIfAnswer.ts';
import { dayOf } from '../../gate/day.ts';
import { rules, TACKLE, type Form } from '../support.ts';

const answer = (form: Form) => whatIfAnswer(whatIfSchema.parse(form), rules, TACKLE).advice;

/** A warm rain into cold water: the inflows draw fish, and the water comes up by half a metre in a day. */
const COLD_RISE: Form = {
  date: '2026-03-18',
  latitude: 35.5,
  species: 'largemouth',
  waterBody: 'hill-land-reservoir',
  air: { mean24h: '60 F', mean3d: '58 F', mean7d: '54 F', warmingDays: '4 days' },
  rain: { last72h: '1.5 in', temperature: '60 F', hoursSince: '30 h' },
  level: { change24h: '1.2 ft', change72h: '2.5 ft' },
  water: { main: '53 F', change7d: '3 F', pocket: '57 F', clarity: '2 ft' },
  wind: { speed: '8 mph' },
  sky: 'overcast',
};
const SLOW_RISE: Form = { ...COLD_RISE, level: { change24h: '0.5 ft' } };

const placesOf = ({ plan }: ReturnType<typeof answer>): string[] => [
  ...(plan?.blocks ?? []).map(({ place }) => place),
  ...[plan?.second, plan?.bigFish, plan?.manyFish].flatMap((one) =>
    one !== undefined && 'place' in one ? [one.place] : [],
  ),
];

describe('kinds of place that a standing hazard closes', () => {
  const closed = new Set<string>(
    rules.safety.combinations.find(({ id }) => id === 'cold-water-rising')!.closesPlaces,
  );

  it('are the inflows, creek arms with the points in them, and narrows that cold rising water names', () => {
    expect(closed).toEqual(new Set(['inflow', 'creek_arm', 'secondary_point', 'pocket', 'bridge']));
  });

  it('hold no block, are no pattern and lead no cast, though fish would be there', () => {
    const calm = answer(SLOW_RISE);
    expect(placesOf(calm).some((place) => closed.has(place))).toBe(true);
    const day = answer(COLD_RISE);
    expect(day.safety.hazards[0]).toMatchObject({ id: 'cold-water-rising', level: 3 });
    expect(day.plan!.blocks.length).toBeGreaterThan(0);
    expect(placesOf(day).filter((place) => closed.has(place))).toEqual([]);
    expect(day.presentations.filter(({ place }) => closed.has(place))).toEqual([]);
    expect(day.searchPlan.filter(({ place }) => closed.has(place))).toEqual([]);
    for (const { place, closedBy } of day.positions)
      expect(closedBy, place).toBe(closed.has(place) ? 'cold-water-rising' : undefined);
  });

  it('are told of where one of them would come first', () => {
    const { plan } = answer({ ...COLD_RISE, places: { hasNot: ['flooded_cover'] } });
    expect(plan!.leftOut).toMatchObject({ hazard: 'cold-water-rising' });
    expect(plan!.leftOut!.places.every(({ place }) => closed.has(place))).toBe(true);
    expect(answer(SLOW_RISE).plan!.leftOut).toBeNull();
  });

  it('are further ones in a river, where a strong flow runs through the main bed', () => {
    const flow: Form = {
      date: '2026-06-10',
      latitude: 38,
      water: { main: '72 F' },
      flow: { dischargeRatio: '8 x' },
    };
    const closedIn = (waterBody: string) =>
      answer({ ...flow, waterBody })
        .positions.filter(({ closedBy }) => closedBy !== undefined)
        .map(({ place }) => place);
    expect(closedIn('run-of-river')).toContain('channel_swing_bank');
    expect(closedIn('highland-reservoir')).not.toContain('channel_swing_bank');
    expect(closedIn('highland-reservoir')).toContain('inflow');
    // At many times its flow no bank of a river is one to drift along; a reservoir is large.
    expect(answer({ ...flow, waterBody: 'run-of-river' }).plan!.blocks).toEqual([]);
    expect(answer({ ...flow, waterBody: 'highland-reservoir' }).plan!.blocks.length).toBeGreaterThan(0);
  });

  it('are dropped by the gate from whatever plan names them', () => {
    const { plan, world } = dayOf(COLD_RISE);
    const lie = { ...plan, blocks: plan.blocks.map((block) => ({ ...block, place: 'creek_arm' })) };
    const { plan: gated, faults } = gatePlan(lie, world);
    expect(gated.blocks).toEqual([]);
    expect(faults[0]).toMatchObject({ check: 'place', found: 'is closed by cold-water-rising' });
  });
});

describe('wind over cold water', () => {
  const figures: Form = {
    date: '2026-03-05',
    latitude: 36,
    water: { main: '44 F' },
    wind: { speed: '18 mph', gust: '28 mph' },
  };
  it('closes the day alike whether it is written as one figure or by the hour', () => {
    const { wind: _, ...rest } = figures;
    const hourly: Form = { ...rest, hours: [{ at: '00:00', wind: '18 mph', gust: '28 mph' }] };
    for (const form of [figures, hourly]) {
      const { plan } = answer(form);
      expect(plan!.blocks).toEqual([]);
      expect(plan!.notPlanned).toMatchObject({ code: 'closed' });
    }
  });

  it('that comes in the afternoon leaves the morning, and no pattern on open water beside it', () => {
    const { plan } = answer({
      ...figures,
      wind: undefined,
      hours: [
        { at: '00:00', wind: '4 mph', gust: '6 mph' },
        { at: '14:00', wind: '18 mph', gust: '28 mph' },
      ],
    });
    expect(plan!.blocks.length).toBeGreaterThan(0);
    const others = [plan!.second, plan!.bigFish, plan!.manyFish].flatMap((one) =>
      'place' in one ? [one.place] : [],
    );
    const planned = new Set(plan!.blocks.map(({ place }) => place));
    const open = new Set<string>(rules.safety.openWater);
    expect(others.filter((place) => open.has(place) && !planned.has(place))).toEqual([]);
  });
});
