/** The first screen answers what a reader asks at breakfast, in at most 110 words. */
import { describe, expect, it } from 'vitest';
import type { Briefing } from '../../src/briefing/index.ts';
import { inUnits } from '../../src/render/index.ts';
import { FRONT_WORDS, frontText, pageOf, wordsFor, type Front } from '../../src/words/index.ts';
import { morningNamed, mornings } from '../helpers/mornings.ts';
import { withPlan } from '../helpers/samplePlan.ts';

const words = wordsFor('en');
const count = (text: string): number => text.split(/\s+/).filter((word) => /[\p{L}\p{N}]/u.test(word)).length;

describe.each(mornings())('the front of $name', ({ facts, units }) => {
  const frontWith = (closedHours: number | null): Front => {
    const page = inUnits(
      pageOf(closedHours === null ? facts : withPlan(facts, closedHours), words),
      units,
      '12h',
    );
    if (page.front === undefined) throw new Error('no front');
    return page.front;
  };

  it.each([null, 0, 3])('has at most 110 words (plan with %s closed hours)', (closedHours) => {
    expect(count(frontText(facts.lake.name, frontWith(closedHours)))).toBeLessThanOrEqual(FRONT_WORDS);
  });

  it('says how dangerous it is, how sure, and what is new', () => {
    const front = frontWith(0);
    expect(front.danger).toContain(`${facts.safety.level} of 4`);
    expect(front.hazards.length).toBeGreaterThanOrEqual(Math.min(1, facts.safety.hazards.length));
    expect(front.hazards.length).toBeLessThanOrEqual(2);
    expect(front.sure).not.toBe('');
    expect(front.changed).toMatch(/^(New: |Nothing new|First issue)/);
  });

  it('says where, till when, with what, how heavy, how deep, and when to be in; at level 4 that nobody goes', () => {
    const front = frontWith(0);
    if (facts.status === 'nil' || facts.safety.level === 4) {
      expect(front.plan).toEqual([]);
      expect(front.beIn).toMatch(/^No plan today/);
      return;
    }
    const [first] = front.plan;
    expect(front.plan).toHaveLength(2);
    expect(first?.when).toMatch(/^\d+(:\d\d)?( am)? to \d+(:\d\d)? [ap]m$/);
    expect(first?.place).toMatch(/^[A-Z]/);
    expect(first?.what).toMatch(
      units === 'us' ? /^\d+ to \d+ ft, 3\/8 oz [A-Za-z]/ : /^[\d.]+ to [\d.]+ m, 11 g [A-Za-z]/,
    );
    expect(front.beIn).toMatch(/^Be in by \d+(:\d\d)? pm\./);
    expect(front.changed).toMatch(/Tomorrow: [a-z ]+\.$/);
  });

  it('never leaves out a level that moves', () => {
    const level = facts.conditions.find(({ id }) => id === 'level24hM')?.now?.value;
    if (level === undefined || Math.abs(level) < 0.03) return;
    for (const closed of [null, 0, 3])
      expect(frontWith(closed).water.map(({ what }) => what)).toContain('level in a day');
  });

  it('brings everybody in earlier where hours are closed', () => {
    if (facts.status === 'nil' || facts.safety.level === 4) return;
    expect(frontWith(3).beIn).not.toBe(frontWith(0).beIn);
  });

  it('answers ten questions of breakfast before any scrolling, or says that nobody goes', () => {
    const page = inUnits(pageOf(facts, words), units);
    const { front, plan } = page;
    if (front === undefined) throw new Error('no front');
    expect(count(frontText(facts.lake.name, front))).toBeLessThanOrEqual(FRONT_WORDS);
    const first = front.plan[0];
    if (plan == null || plan.blocks.length === 0) {
      expect(first).toBeUndefined();
      expect(front.beIn).not.toBe('');
      return;
    }
    const time = units === 'us' ? /\d+(:\d\d)?( [ap]m)?/ : /\d\d:\d\d/;
    const answers: Readonly<Record<string, readonly [string | undefined, RegExp]>> = {
      'where first': [first?.place, new RegExp(plan.blocks[0]?.title ?? '-', 'i')],
      'till when': [first?.when, new RegExp(`^${time.source} to ${time.source}`)],
      'which lure': [first?.what, /[a-z-]{3,}$/],
      'what weight': [
        first?.what,
        units === 'us' ? /\d oz |\d in .*, no weight/ : /\d g |\d cm .*, no weight/,
      ],
      'how deep': [first?.what, units === 'us' ? /^\d+ to \d+ ft/ : /^[\d.]+ to [\d.]+ m/],
      'what hurts': [
        [front.danger, ...front.hazards].join(' '),
        facts.safety.level > 1 ? /[A-Z]{3}/ : /1 of 4/,
      ],
      'when to be in': [front.beIn, new RegExp(`in by ${time.source}`, 'i')],
      'better tomorrow': [front.changed, /Tomorrow: [a-z]/],
      'how sure': [front.sure, /^How sure: /],
      'what changed': [front.changed, /^(New: |Nothing new|First issue)/],
    };
    expect(Object.keys(answers)).toHaveLength(10);
    for (const [question, [answer, looks]] of Object.entries(answers))
      expect(answer, question).toMatch(looks);
  });
});

describe('what is new', () => {
  const changedOf = (facts: Briefing): string => pageOf(facts, words).front?.changed ?? '';

  it('is the fall of the air on the day of a front, before any figure of the water', () => {
    const { facts } = morningNamed('front');
    expect(changedOf(facts)).toMatch(
      /^New: The day’s mean air is \{\{temperatureDifference:7\.\d+\}\} below/,
    );
    // Days that hold about the same air name none.
    for (const name of ['warm-rain-pulse', 'drawdown', 'spawn'])
      expect(changedOf(morningNamed(name).facts)).not.toContain('mean air');
  });

  it('names the day it is compared with where that was not yesterday', () => {
    const { facts } = morningNamed('drawdown');
    const { since, items } = facts.whatChanged;
    if (since === null) throw new Error('the morning has nothing to compare with');
    const older = { ...since, atMs: since.atMs - 2 * 86_400_000 };
    const compared = (changes: typeof items): string =>
      changedOf({ ...facts, whatChanged: { since: older, items: changes } });
    expect(compared(items)).toMatch(/^New since Tue 27 Oct \d\d:15: /);
    expect(compared([])).toMatch(/^Nothing new since Tue 27 Oct \d\d:15\./);
    expect(changedOf({ ...facts, whatChanged: { since, items: [] } })).toMatch(
      /^Nothing new since yesterday\./,
    );
  });
});
