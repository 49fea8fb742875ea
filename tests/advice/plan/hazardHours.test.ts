/** What hazards leave of a day: no bank by the wind on it, no place in closed hours (common practice, no source). */
import { describe, expect, it } from 'vitest';
import { whatIfSchema } from '../../../src/advice/whatIf/index.ts';
import { gatePlaces, gatePlan } from '../../../src/gate/index.ts';
import { whatIfAnswer } from '../../../src/schedule/whatIfAnswer.ts';
import { dayOf } from '../../gate/day.ts';
import { rules, TACKLE, type Form } from '../support.ts';
import { minutes } from './support.ts';

const answer = (form: Form) => whatIfAnswer(whatIfSchema.parse(form), rules, TACKLE);

/** Cold water, still until two, then a north wind of 18 mph. */
const COLD_WIND: Form = {
  date: '2026-12-05',
  latitude: 33,
  species: 'largemouth',
  waterBody: 'hill-land-reservoir',
  sky: 'clear',
  air: { mean24h: '44 F', mean3d: '46 F', mean7d: '50 F', overnightLow: '30 F', highToday: '60 F' },
  water: { main: '56 F', change3d: '-2 F', change7d: '-4 F', pocket: '52 F', clarity: '3 ft' },
  hours: [
    { at: '06:00', air: '30 F', wind: '0 mph', windFrom: 'N' },
    { at: '10:00', air: '45 F', wind: '3 mph' },
    { at: '14:00', air: '60 F', wind: '18 mph' },
  ],
};
const warm = (form: Form): Form => ({
  ...form,
  date: '2026-10-05',
  water: { main: '74 F', clarity: '3 ft' },
});

describe('while wind over cold water keeps boats to the lee', () => {
  const { advice, dropped } = answer(COLD_WIND);

  it('no bank gains by the wind on it, in the plan nor in the ranking', () => {
    const told = advice.plan!.blocks.flatMap(({ because, whyChange }) => [
      ...because.map(({ code }) => code),
      ...(whyChange?.code === 'reason' ? [whyChange.reason.code] : []),
    ]);
    expect(told).not.toContain('windOnIt');
    for (const { evidence } of advice.positions)
      expect(evidence.map(({ rule }) => rule)).not.toContain('wind.chop');
    expect(dropped).toEqual([]);
  });

  it('the hours of the wind are spent in the lee of it', () => {
    const last = advice.plan!.blocks.at(-1)!;
    expect(minutes(last.to)).toBeGreaterThan(minutes('15:00'));
    expect(['creek_arm', 'pocket', 'secondary_point', 'dock', 'marina', 'laydown']).toContain(last.place);
  });

  it('over warm water the same wind does speak for banks', () => {
    const rulesOf = answer(warm(COLD_WIND)).advice.positions.flatMap(({ evidence }) => evidence);
    expect(rulesOf.map(({ rule }) => rule)).toContain('wind.chop');
  });

  it('the gate refuses a wind on a bank in those hours, and lets it stand in others', () => {
    const { plan, world } = dayOf(warm(COLD_WIND));
    const windy = { ...world, hours: world.hours.map((hour) => ({ ...hour, windMs: 6 })) };
    const [block] = plan.blocks;
    const said = {
      ...plan,
      blocks: [{ ...block!, because: [{ code: 'windOnIt', windMs: 6 } as const], whyChange: null }],
    };
    const kept = (lee: typeof world.lee) => gatePlan(said, { ...windy, lee }).plan.blocks[0]!.because;
    const { fromMs, toMs } = block!;
    expect(kept([])).toHaveLength(1);
    expect(kept([{ hazard: 'cold-water-wind' }])).toHaveLength(0);
    expect(kept([{ hazard: 'cold-water-wind', hours: [{ fromMs: toMs - 1, toMs: toMs + 1 }] }])).toHaveLength(
      0,
    );
    expect(kept([{ hazard: 'cold-water-wind', hours: [{ fromMs: toMs, toMs: toMs + 1 }] }])).toHaveLength(1);
    expect(fromMs).toBeLessThan(toMs);
  });
});

/** Gusts close the day from ten on. */
const GUSTS: Form = {
  ...COLD_WIND,
  hours: [
    { at: '05:00', air: '45 F', wind: '3 mph', windFrom: 'S' },
    { at: '10:00', air: '50 F', wind: '20 mph', gust: '38 mph' },
  ],
};

describe('a day that hazards close in part', () => {
  const { advice, dropped } = answer(GUSTS);
  const plan = advice.plan!;

  it('has ranked places for its open hours alone', () => {
    expect(plan.closed.length).toBeGreaterThan(0);
    const closedFrom = Math.min(...plan.closed.map(({ from }) => minutes(from) / 60));
    for (const { hours, bound, place } of advice.positions) {
      if (bound === 'closed') continue;
      expect(hours?.[1], place).toBeLessThanOrEqual(closedFrom - 1);
    }
    expect(advice.positions.some(({ bound }) => bound === 'open')).toBe(true);
    expect(dropped).toEqual([]);
  });

  it('is refused by the gate where a place is told for all of it, or for closed hours', () => {
    const { positions } = advice;
    const { hours: _, bound: __, ...first } = positions[0]!;
    const told = (position: object) => gatePlaces([{ ...first, ...position } as never], plan);
    for (const lie of [{ period: 'all_day' }, { hours: [12, 20], period: 'later' }]) {
      const { positions: passed, faults } = told(lie);
      expect(faults).toHaveLength(1);
      expect(passed[0]).toMatchObject({ bound: 'closed' });
      expect(passed[0]!.hours).toBeUndefined();
    }
    expect(told({ hours: [7, 8], period: 'earlier' }).faults).toEqual([]);
  });
});

describe('a day that a hazard closes of which no hours are told', () => {
  const thunder: Form = {
    date: '2026-07-12',
    latitude: 33,
    waterBody: 'hill-land-reservoir',
    sky: 'partly',
    thunder: '50 %',
    air: { mean24h: '80 F', highToday: '88 F' },
    wind: { speed: '5 mph' },
    water: { main: '84 F', clarity: '3 ft' },
  };

  it('says that with its hours the open ones can be planned', () => {
    expect(answer(thunder).advice.plan!.notPlanned).toMatchObject({ code: 'closed', hoursUnknown: true });
    const told = { ...thunder, hours: [{ at: '14:00', thunder: '50 %' }] };
    expect(answer(told).advice.plan!.blocks.length).toBeGreaterThan(0);
  });
});

describe('a day in cold water', () => {
  const winter = (main: string, air: object): Form => ({
    date: '2026-01-20',
    latitude: 35,
    waterBody: 'highland-reservoir',
    sky: 'clear',
    air: { mean24h: '34 F', mean3d: '34 F', mean7d: '35 F', ...air },
    wind: { speed: '3 mph' },
    water: { main, clarity: '6 ft' },
  });
  const startOf = (form: Form) => answer(form).advice.plan!.blocks.map(({ startAt }) => startAt);

  it('may as well begin at ten after a freezing night, and says it once', () => {
    const [first, ...others] = startOf(winter('40 F', { overnightLow: '20 F' }));
    expect(first).toBe('10:00');
    for (const one of others) expect(one).toBeUndefined();
  });

  it('says nothing of it in milder water, after a mild night, or to who begins late', () => {
    expect(startOf(winter('50 F', { overnightLow: '20 F' }))[0]).toBeUndefined();
    expect(startOf(winter('40 F', { overnightLow: '40 F' }))[0]).toBeUndefined();
    const late = { ...winter('40 F', { overnightLow: '20 F' }), fishing: { from: '09:30', to: '17:00' } };
    expect(startOf(late)[0]).toBeUndefined();
  });
});
