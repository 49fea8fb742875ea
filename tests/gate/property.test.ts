import { describe, expect, it } from 'vitest';
import { gatePlan, type Check } from '../../src/gate/index.ts';
import { dayOf } from './day.ts';
import { numbers, randomForm } from './random.ts';

/** Long form: npm run test:long. */
const MORNINGS = process.env['THAWLINE_LONG'] === undefined ? 500 : 20_000;

describe('many mornings', () => {
  it(
    `leave no statement of ${MORNINGS} random days that its numbers do not bear out`,
    { timeout: 1_800_000 },
    () => {
      const next = numbers(20_261_126);
      const caught = new Map<Check, number>();
      let planned = 0;
      for (let morning = 0; morning < MORNINGS; morning += 1) {
        const form = randomForm(next);
        const { plan, world } = dayOf(form);
        const { plan: gated, faults } = gatePlan(plan, world);
        if (plan.blocks.length > 0) planned += 1;
        for (const { check } of faults) caught.set(check, (caught.get(check) ?? 0) + 1);
        const again = gatePlan(gated, world).faults;
        expect(again, JSON.stringify(form)).toEqual([]);
      }
      // Most days can be planned; what the gate held back is printed, for the record.
      expect(planned).toBeGreaterThan(MORNINGS / 2);
      console.info('held back:', Object.fromEntries(caught), 'of', planned, 'plans');
    },
  );
});
