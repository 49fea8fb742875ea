/** A pattern beside the plan is told once, with what else speaks for it. */
import { describe, expect, it } from 'vitest';
import { whatIfPlan } from '../../src/words/index.ts';
import { days, planOf } from '../advice/plan/support.ts';
import { rules } from '../advice/support.ts';

describe('the patterns beside a plan', () => {
  it('are each told once, and the one that larger fish tend to be at says so', () => {
    let joined = 0;
    for (const { form, id } of days) {
      const plan = planOf(form);
      const beside = whatIfPlan(plan, rules.text)
        .filter(({ head }) => /^(At the same time|Larger fish|More fish)/.test(head))
        .map(({ head, lines }) => ({ pattern: head.replace(/^[^:]*: /, ''), lines }));
      const patterns = beside.map(({ pattern }) => pattern);
      expect(new Set(patterns).size, id).toBe(patterns.length);
      joined += beside.filter(({ lines }) => lines.length > 0).length;
    }
    expect(joined).toBeGreaterThan(0);
  });
});
