/** Words that say which hours, which danger, which number and which block is meant. */
import { describe, expect, it } from 'vitest';
import { advise } from '../../src/advice/index.ts';
import { understand, whatIfSchema } from '../../src/advice/whatIf/index.ts';
import { loadRules } from '../../src/config/rules.ts';
import { inUnits } from '../../src/render/index.ts';
import { pageOf, saySafety, whatIfPlan, wordsFor } from '../../src/words/index.ts';
import { TACKLE } from '../advice/support.ts';
import { morningNamed, mornings } from '../helpers/mornings.ts';
import { withPlan } from '../helpers/samplePlan.ts';

const words = wordsFor('en');
const rules = loadRules();

function answered(given: object) {
  const understood = understand(whatIfSchema.parse(given));
  const { conditions, day } = understood;
  return { understood, advice: advise(conditions, rules, { tackle: TACKLE, day }) };
}

const WINDY = {
  date: '2026-12-08',
  latitude: 35,
  air: { mean24h: '46 F', overnightLow: '40 F', highToday: '52 F' },
  wind: { speed: '15 mph', gust: '27 mph' },
  water: { main: '50 F', clarity: '8 ft' },
};

describe('a danger of several things at once', () => {
  it('names the gusts that make it one, once', () => {
    const { advice } = answered(WINDY);
    const told = saySafety(advice.safety, rules.text).hazards.map(({ what }) => what);
    const gusts = told.find((what) => what.startsWith('Gusts'));
    expect(gusts).toMatch(/^Gusts up to \{\{windSpeed:12\.0\d*\}\} put people in the water/);
    expect(told.join(' ').match(/Gusts up to/g)).toHaveLength(1);
  });
});

describe('hours of a day of which only the date is known', () => {
  const codes = (given: object): string[] =>
    answered(given).understood.assumptions.map(({ code }) => code as string);

  it('are said to be sun time, until a form says when the sun rises and sets', () => {
    expect(codes(WINDY)).toContain('sunTime');
    expect(codes({ ...WINDY, sun: { noon: '12:20' } })).not.toContain('sunTime');
    expect(codes({ ...WINDY, sun: { rise: '07:01', set: '17:05' } })).not.toContain('sunTime');
    expect(codes({ water: { main: '50 F' } })).not.toContain('sunTime');
  });
});

describe('a pattern that the plan fishes already', () => {
  it('is told of its block on a day of several, and is no line of its own', () => {
    const { facts } = morningNamed('drawdown');
    const sample = withPlan(facts);
    if (sample.status === 'nil' || sample.plan == null) throw new Error('no plan');
    const [first, second] = sample.plan.blocks;
    if (first === undefined || second === undefined) throw new Error('no blocks');
    const bigFish = { ...sample.plan.bigFish, ...second, because: [] };
    const told = pageOf({ ...sample, plan: { ...sample.plan, bigFish } }, words).plan;
    expect(told?.others).toEqual([]);
    expect(told?.blocks.map(({ because }) => because.includes('Larger fish tend to be here.'))).toEqual([
      false,
      true,
    ]);
    const alone = pageOf({ ...sample, plan: { ...sample.plan, bigFish, blocks: [second] } }, words).plan;
    expect(JSON.stringify(alone)).not.toContain('Larger fish');
  });

  it('is no line of a what-if either', () => {
    const { advice } = answered({
      date: '2026-06-05',
      latitude: 45,
      water: { main: '66 F', clarity: '6 ft' },
    });
    const { plan } = advice;
    if (plan === null || plan.blocks.length === 0) throw new Error('no plan');
    const heads = whatIfPlan(plan, rules.text).map(({ head }) => head);
    for (const [pattern, line] of [
      [plan.bigFish, 'Larger fish'],
      [plan.manyFish, 'More fish'],
    ] as const) {
      const adds =
        !('none' in pattern) &&
        !plan.blocks.some(
          ({ place, lure }) => place === pattern.place && lure.lureClass === pattern.lureClass,
        );
      expect(heads.some((head) => head.startsWith(line))).toBe(adds);
    }
  });
});

describe('what changed', () => {
  it('names the danger that makes the level worse, by what it is and not by who says so', () => {
    const { front, whatChanged } = morningNamed('scored').document;
    expect(front?.changed).toMatch(/^New: Danger level 1 → 2, worse: fog\./);
    expect(JSON.stringify(whatChanged)).not.toContain('safety lines');
    expect(morningNamed('level-4-flood').document.front?.changed).toContain('3 → 4, worse: flood.');
  });
});

describe.each(mornings())('the words of $name', ({ document, units }) => {
  it('say where to start, and never "first" of the hour beside "first" of the order', () => {
    expect(document.subject).not.toMatch(/ first$/);
  });

  it('write the sides of the compass in one way', () => {
    expect(JSON.stringify(inUnits(document, units))).not.toMatch(/(north|south)-(east|west)/);
  });
});
