import { describe, expect, it } from 'vitest';
import type { Advice } from '../../src/advice/types.ts';
import { sayAdvice } from '../../src/words/index.ts';
import { loadRules } from '../../src/config/rules.ts';
import { advise } from '../../src/advice/index.ts';
import { understand, whatIfSchema } from '../../src/advice/whatIf/index.ts';
import { TACKLE } from '../advice/support.ts';

const rules = loadRules();
const form = whatIfSchema.parse({
  date: '2026-04-10',
  latitude: 35.9,
  waterBody: 'highland-reservoir',
  units: 'us',
  air: { mean24h: '60 F' },
  water: { main: '60 F', change7d: '2 F', clarity: '4 ft' },
  hours: [{ at: '05:00', air: '58 F', cloud: '40 %', wind: '9 mph', windFrom: 'SW' }],
});
const { conditions, day } = understand(form);
const advice: Advice = advise(conditions, rules, { tackle: TACKLE, day });
const stepsOf = (own: Advice): string[] => sayAdvice(own, rules.text).searchPlan.map(({ step }) => step);
/** The plan of the day with a main point in the wind first. */
const onThePoint = (fromDeg: number | undefined): Advice => {
  const { plan } = advice;
  const [first] = plan?.blocks ?? [];
  if (plan === null || first === undefined) throw new Error('no plan');
  const because = [{ code: 'windOnIt' as const, windMs: 4, ...(fromDeg === undefined ? {} : { fromDeg }) }];
  return {
    ...advice,
    searchPlan: [{ place: 'main_point', minutes: 20 }],
    plan: { ...plan, blocks: [{ ...first, place: 'main_point', because }] },
  };
};

describe('the side of a point to begin on', () => {
  it('is named by the wind of its hours', () => {
    expect(stepsOf(onThePoint(225))).toEqual([
      'Main-lake point. Cast across the point from shallow to deep, the southwest side, where the wind comes from, first.',
    ]);
    expect(stepsOf(onThePoint(10)).join()).toMatch(/the north side, where the wind comes from/);
  });

  it('is told by the wind where its direction is not known', () => {
    expect(stepsOf(onThePoint(undefined))).toEqual([
      'Main-lake point. Cast across the point from shallow to deep, the side the wind comes from first.',
    ]);
  });

  it('leaves no word in braces in any step', () => {
    for (const place of rules.positions.places)
      for (const step of stepsOf({ ...advice, searchPlan: [{ place: place.id, minutes: 5 }] }))
        expect(step.replaceAll(/\{\{[a-z]+:[^}]*\}\}/gi, '')).not.toMatch(/[{}]/);
  });
});
