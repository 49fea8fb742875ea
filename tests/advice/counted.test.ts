import { describe, expect, it } from 'vitest';
import { understand } from '../../src/advice/whatIf/index.ts';
import { phaseMembership } from '../../src/advice/phase.ts';
import { scorePlaces } from '../../src/advice/positions/score.ts';
import { bestPoint, spotTotal } from '../../src/advice/positions/spot.ts';
import { leadBetween } from '../../src/advice/positions/lead.ts';
import { knownOf } from '../../src/advice/rules/known.ts';
import type { Species, WaterBody } from '../../src/vocabulary/index.ts';
import { advise } from '../../src/advice/index.ts';
import { rules, TACKLE } from './support.ts';

const pool = (date: string, waterBody: WaterBody, latitude = 42, species: Species = 'largemouth') =>
  knownOf(
    understand({
      units: 'metric',
      date,
      latitude,
      species,
      waterBody,
      water: { main: 28, change7d: 0, clarity: 0.5 },
      flow: { current: 0.4 },
    }).conditions,
  );
const trade = { ...rules.positions, counted: [] };
const scored = (known: ReturnType<typeof pool>, positions = rules.positions) =>
  new Map(
    scorePlaces(known, phaseMembership(known, rules.phases), positions).map((place) => [place.place, place]),
  );
const given = (known: ReturnType<typeof pool>, rule: string, positions = rules.positions): number =>
  scored(known, positions)
    .get('channel_swing_bank')!
    .evidence.filter((one) => one.rule === rule)
    .reduce((sum, { contribution }) => sum + contribution, 0);

describe('where fish were counted', () => {
  const july = pool('2026-07-20', 'run-of-river');

  it('the trade counts a share of what it says elsewhere, and nothing where fish contradict it', () => {
    const { keep } = rules.positions.counted[0]!;
    expect(given(july, 'body.run-of-river')).toBeCloseTo(keep * given(july, 'body.run-of-river', trade), 9);
    expect(given(july, 'current.warm-season', trade)).toBeGreaterThan(0.3);
    expect(given(july, 'current.warm-season')).toBe(0);
  });

  it('only counted kinds of place are moved', () => {
    const [before, after] = [scored(july, trade), scored(july)];
    for (const place of ['dock', 'bluff', 'hump', 'pads'] as const)
      expect(after.get(place)!.total).toBe(before.get(place)!.total);
    expect(after.get('riprap')!.total).not.toBe(before.get('riprap')!.total);
  });

  it.each([
    ['a reservoir in July', pool('2026-07-20', 'highland-reservoir')],
    ['a river pool in April', pool('2026-04-10', 'run-of-river')],
    ['a river pool in winter', pool('2026-12-15', 'run-of-river')],
    ['a river pool far south', pool('2026-07-20', 'run-of-river', 29)],
    ['mixed bass', pool('2026-07-20', 'run-of-river', 42, 'mixed')],
  ] as const)('%s stays as the trade has it', (_, known) => {
    for (const [place, { total }] of scored(known))
      expect(total).toBe(scored(known, trade).get(place)!.total);
  });

  it('a lead along one number is the difference of the totals', () => {
    const places = scored({ ...july, signals: { ...july.signals, waterC: 24 } });
    expect(leadBetween(july, rules, 'riprap', 'laydown')('waterC')(24)).toBeCloseTo(
      places.get('riprap')!.total - places.get('laydown')!.total,
      9,
    );
    const north = scored({ ...july, signals: { ...july.signals, latitudeDeg: 34 } });
    expect(leadBetween(july, rules, 'riprap', 'pocket')('latitudeDeg')(34)).toBeCloseTo(
      north.get('riprap')!.total - north.get('pocket')!.total,
      9,
    );
  });
});

describe('a sentence that names places', () => {
  it('is said of those only, as a reason and as a limit', () => {
    const form = { units: 'metric', date: '2026-07-20', latitude: 42, species: 'largemouth' } as const;
    const { conditions } = understand({
      ...form,
      waterBody: 'run-of-river',
      water: { main: 28, change7d: 0, clarity: 0.5 },
      flow: { current: 0.03 },
    });
    const saidOf = new Map(rules.positions.modifiers.map(({ id, saidOf: places }) => [id, places]));
    const told = advise(conditions, rules, { tackle: TACKLE }).positions.flatMap((position) =>
      [...position.because, position.limitedBy].flatMap((fact) =>
        fact.code === 'rule' && fact.rule.startsWith('survey.')
          ? [{ place: position.place, named: saidOf.get(fact.rule) }]
          : [],
      ),
    );
    expect(told.length).toBeGreaterThan(3);
    for (const { place, named } of told) expect(named).toContain(place);
  });
});

describe('a spot that is several kinds of place', () => {
  const totals = new Map([
    ['laydown', 2],
    ['pocket', 1],
    ['channel_swing_bank', -1],
  ]);
  const totalOf = (kind: string) => totals.get(kind);
  const bank = { name: 'Bank log', place: 'laydown', also: ['channel_swing_bank'] };
  const back = { name: 'Cove log', place: 'laydown', also: ['pocket'] };

  it('is worth the mean of them', () => {
    expect(spotTotal([2, 1])).toBe(1.5);
  });

  it('of two spots of one kind the one is named that is the better whole, whichever was written first', () => {
    expect(bestPoint([bank, back], 'laydown', totalOf)?.name).toBe('Cove log');
    expect(bestPoint([back, bank], 'laydown', totalOf)?.name).toBe('Cove log');
    expect(bestPoint([bank, back], 'pocket', totalOf)?.name).toBe('Cove log');
    expect(bestPoint([bank, back], 'riprap', totalOf)).toBeUndefined();
  });

  it('of equals the first is named', () => {
    const other = { name: 'Second log', place: 'laydown' };
    expect(bestPoint([{ name: 'First log', place: 'laydown' }, other], 'laydown', totalOf)?.name).toBe(
      'First log',
    );
  });
});
