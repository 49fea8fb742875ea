/** Nothing is said of a season or a place that the day's own numbers, or the water, do not bear out. */
import { describe, expect, it } from 'vitest';
import { giveUpOf } from '../../src/advice/plan/giveUp.ts';
import { parseYaml } from '../../src/config/index.ts';
import { understand, whatIfSchema } from '../../src/advice/whatIf/index.ts';
import { whatIfAnswer } from '../../src/schedule/index.ts';
import { expandQuantities } from '../../src/units/index.ts';
import { stringify } from 'yaml';
import { adviceFor, rules, table, TACKLE, type Form } from './support.ts';

const answerTo = (form: Form) =>
  whatIfAnswer(parseYaml(stringify(form), 'test', whatIfSchema), rules, TACKLE).advice;

const JULY: Form = {
  date: '2026-07-18',
  latitude: 36,
  species: 'largemouth',
  waterBody: 'highland-reservoir',
  sky: 'clear',
  air: { mean24h: '82 F', mean3d: '81 F', mean7d: '81 F', overnightLow: '72 F', highToday: '93 F' },
  wind: { speed: '3 mph' },
  water: { main: '85 F', clarity: '3 ft' },
};
const bodies = [
  'highland-reservoir',
  'hill-land-reservoir',
  'run-of-river',
  'tailwater',
  'natural-lake',
  'pond',
];

describe('the ranking', () => {
  it.each(bodies)('on a %s with nothing declared is of places that a plan may visit', (waterBody) => {
    const { positions, plan } = answerTo({ ...JULY, waterBody, water: { main: '78 F', clarity: '3 ft' } });
    const ranked = new Set(positions.map(({ place }) => place));
    for (const { place } of plan?.blocks ?? []) expect(ranked).toContain(place);
    // Of two that are far apart the plan visits the first.
    const [first, second] = positions;
    if (first !== undefined && second !== undefined && first.total - second.total > 1)
      expect(plan?.blocks.map(({ place }) => place)).toContain(first.place);
  });

  it('of night hours is no ranking of a bright day', () => {
    const night = answerTo({
      ...JULY,
      fishing: { from: '21:30', to: '23:59' },
      sun: { dawn: '05:00', rise: '05:30', noon: '13:00', set: '20:20', dusk: '20:50' },
    });
    expect(night.positions[0]?.place).toBe(night.plan?.blocks[0]?.place);
    for (const { because } of night.positions) expect(because.join(' ')).not.toMatch(/[Bb]right/);
  });

  it('leaves out covered ground while no water covers it, declared or not', () => {
    const at = (level: object | undefined) =>
      answerTo({ ...JULY, level, places: ['flooded_cover', 'dock'] }).positions.map(({ place }) => place);
    expect(at({ aboveNormal: '1 ft' })).toContain('flooded_cover');
    expect(at({ change24h: '0.5 ft' })).toContain('flooded_cover');
    expect(at({ change24h: '0 ft', aboveNormal: '-12 ft' })).not.toContain('flooded_cover');
    expect(at(undefined)).not.toContain('flooded_cover');
  });

  it('of a pond goes no deeper than ponds are (common practice, no source: 15 ft)', () => {
    const { positions } = answerTo({
      ...JULY,
      date: '2026-01-10',
      waterBody: 'pond',
      water: { main: '42 F' },
    });
    for (const { depthM } of positions) expect(depthM[1]).toBeLessThanOrEqual(15 * 0.3048 + 0.05);
  });
});

describe('the season', () => {
  const season = (form: Form): string => expandQuantities(answerTo(form).phase.because, 'us');

  it('is called by its temperature, and the trend stands as a number', () => {
    const warming = { main: '40 F', change3d: '2 F', change7d: '3 F' };
    for (const main of ['40 F', '52 F', '60 F', '66 F', '74 F'])
      for (const date of ['2026-01-15', '2026-03-14', '2026-04-20', '2026-10-28', '2026-11-20'])
        expect(season({ ...JULY, date, water: { ...warming, main } })).not.toMatch(/[Ww]arming|[Cc]ooling/);
    expect(season({ ...JULY, date: '2026-02-10', water: warming })).toContain('+3 °F over the week');
  });

  it('below a dam is told by the light where the release keeps the water from it', () => {
    const told = season({ ...JULY, waterBody: 'tailwater', species: 'smallmouth', water: { main: '54 F' } });
    expect(told).toMatch(/^Summer by the calendar/);
    expect(told).not.toMatch(/fall|spawning/);
  });

  it('speaks of the pond on a pond', () => {
    expect(season({ ...JULY, waterBody: 'pond' })).toContain('The pond is at');
    expect(season(JULY)).toContain('The main lake is at');
  });

  it('is no fall while days grow, and no spring while they shorten', () => {
    for (const { id, conditions } of table.scenarios) {
      const { dayLengthChangeHPerWeek: turn } = understand(
        parseYaml(stringify(conditions), 'test', whatIfSchema),
      ).conditions.signals;
      const { membership } = adviceFor(conditions).phase;
      if (turn === undefined || Math.abs(turn.value) < 0.15) continue;
      const wrong = turn.value > 0 ? membership.fall + membership.early_fall : membership.prespawn;
      expect(wrong, id).toBeLessThan(0.1);
    }
  });
});

describe('a sentence that names a kind of place', () => {
  const SAID: readonly (readonly [RegExp, readonly string[]])[] = [
    [/\bcreeks?\b/, ['creek_arm', 'inflow']],
    [/\bchannel\b/, ['river_channel', 'channel_swing_bank', 'creek_arm']],
    [/\bpockets?\b/, ['pocket', 'inflow']],
    [/\b[Rr]unoff\b/, ['inflow', 'pocket', 'creek_arm']],
    [/\bdocks?\b/, ['dock', 'marina']],
  ];

  it.each(bodies)('is said on a %s only where there is one', (waterBody) => {
    const base = answerTo({ ...JULY, waterBody }).positions.map(({ place }) => place);
    for (const { conditions } of table.scenarios) {
      // A pond has no turbines.
      const { positions, searchPlan } = answerTo({ ...conditions, flow: undefined, waterBody });
      const here = new Set([...base, ...positions.map(({ place }) => place)]);
      const words = [
        ...positions.flatMap(({ because, limitedBy }) => [...because, limitedBy]),
        ...searchPlan.flatMap(({ step, moveOn }) => [step, moveOn]),
      ];
      for (const [named, needs] of SAID)
        if (!needs.some((place) => here.has(place)))
          for (const said of words)
            // Of water that has none it is said that it has none.
            if (!/have no drowned channel/.test(said)) expect(said).not.toMatch(named);
    }
  });
});

describe('counts of fish', () => {
  it('are told once of a place, with what they found there', () => {
    const river = {
      ...JULY,
      species: 'smallmouth',
      waterBody: 'run-of-river',
      flow: { current: '1.2 ft/s' },
    };
    const { positions, plan } = answerTo({ ...river, water: { main: '79 F', clarity: '6 ft' } });
    const said = positions.flatMap(({ because }) => because.filter((words) => /counts/i.test(words)));
    expect(said.length).toBeGreaterThan(0);
    for (const { because } of positions)
      expect(because.filter((words) => /counts/i.test(words)).length).toBeLessThanOrEqual(1);
    for (const words of said) expect(words).toMatch(/found more smallmouth here/);
    for (const { limitedBy } of positions)
      if (/counts/i.test(limitedBy)) expect(limitedBy).toMatch(/found fewer smallmouth here/);
    for (const { because } of plan?.blocks ?? [])
      expect(
        because.filter((reason) => reason.code === 'rule' && reason.rule.startsWith('survey.')).length,
      ).toBeLessThanOrEqual(1);
  });
});

describe('nests', () => {
  it('are fished in the calm: no wind speaks for a spawning flat, nor is one left when it drops', () => {
    const { plan } = answerTo({
      ...JULY,
      date: '2026-06-05',
      latitude: 45,
      species: 'smallmouth',
      waterBody: 'natural-lake',
      air: { mean24h: '62 F', mean3d: '61 F', mean7d: '60 F' },
      wind: { speed: '9 mph' },
      water: { main: '64 F', change3d: '1 F', change7d: '3 F', clarity: '14 ft' },
      places: ['flat', 'pocket'],
    });
    expect(plan?.blocks.length).toBeGreaterThan(0);
    for (const { because, giveUp } of plan?.blocks ?? []) {
      expect(because.map(({ code }) => code)).not.toContain('windOnIt');
      expect(giveUp.code).not.toBe('windGone');
    }
  });

  it('and a lure of calm water is not put away when the wind drops', () => {
    const place = rules.positions.places.find(({ id }) => id === 'secondary_point');
    if (place === undefined) throw new Error('no such place');
    const because = [{ code: 'windOnIt', windMs: 4 }] as const;
    const left = (lure: { calm: number; windy: number }) =>
      giveUpOf(place, because, rules.hours.giveUp, { wind: lure }).code;
    expect(left({ calm: 1, windy: 0.1 })).toBe('noBite');
    expect(left({ calm: 0.4, windy: 0.9 })).toBe('windGone');
    // Nor is one told to wait for a calm that the forecast never comes near.
    const lure = { wind: { calm: 0.4, windy: 0.9 } };
    const blown = (leastMs: number) => giveUpOf(place, because, rules.hours.giveUp, lure, leastMs).code;
    expect(blown(rules.hours.giveUp.windNearMs)).toBe('windGone');
    expect(blown(rules.hours.giveUp.windNearMs + 0.1)).toBe('noBite');
  });
});

describe('the search', () => {
  it('begins each step with its place, and takes those of the plan first', () => {
    const { searchPlan, plan } = answerTo(JULY);
    const planned = [...new Set(plan?.blocks.map(({ place }) => place))];
    expect(searchPlan.map(({ place }) => place).slice(0, planned.length)).toEqual(planned);
    for (const { place, step } of searchPlan)
      expect(step.toLowerCase()).toMatch(new RegExp(`^${rules.text[`place.${place}.name`] ?? ''}\\. `));
  });
});
