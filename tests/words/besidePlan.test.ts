/** What a what-if tells beside its plan, and where it tells nothing. */
import { describe, expect, it } from 'vitest';
import { isKeptInBy, whatIfPlan } from '../../src/words/index.ts';
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

describe('a lake that may be frozen', () => {
  it('is told without places to look at and lures to work', () => {
    const ice = planOf({
      date: '2026-01-15',
      latitude: 46,
      waterBody: 'natural-lake',
      water: { main: '33 F' },
    });
    expect(ice.notPlanned).toMatchObject({ code: 'frozen' });
    expect(isKeptInBy({ plan: ice })).toBe(true);
  });
});
