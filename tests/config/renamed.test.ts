/** A number under a name it had before: it counts, and the operator is told the name of today. */
import { describe, expect, it } from 'vitest';
import { RENAMED, todaysKey } from '../../src/config/renamed.ts';
import { loadRules } from '../../src/config/rules.ts';
import { movedWords, sortedThresholds } from '../../src/config/tune.ts';

const rules = loadRules();
const NOW = 'safety.hazards.cold-water.classes.danger.at';
const renamed = {
  'safety.hazards.chill': 'safety.hazards.cold-water',
  'safety.hazards.chill.classes.bad': 'safety.hazards.cold-water.classes.danger',
  'safety.hazards.frost': 'safety.hazards.chill',
};

describe('a threshold whose id was renamed', () => {
  it.each([
    'safety.hazards.chill.classes.danger.at',
    'safety.hazards.chill.classes.bad.at',
    'safety.hazards.frost.classes.danger.at',
    'safety.hazards.frost.classes.bad.at',
  ])('counts under its name of today: %s', (key) => {
    const sorted = sortedThresholds(rules, { [key]: 16 }, renamed);
    expect(sorted).toEqual({ kept: { [NOW]: 16 }, gone: [], moved: [{ from: key, to: NOW }] });
    expect(movedWords({ from: key, to: NOW })).toContain(`"${key}" is called "${NOW}" now`);
  });

  it('gives way to the same number under the new name', () => {
    const key = 'safety.hazards.chill.classes.danger.at';
    expect(sortedThresholds(rules, { [key]: 16, [NOW]: 15 }, renamed).kept).toEqual({ [NOW]: 15 });
    expect(sortedThresholds(rules, { [NOW]: 15, [key]: 16 }, renamed).kept).toEqual({ [NOW]: 15 });
  });

  it('is gone where its new name leads nowhere either, and a name that only begins alike is not it', () => {
    const keys = ['safety.hazards.chill.classes.none.at', 'safety.hazards.chillier.classes.danger.at'];
    const given = Object.fromEntries(keys.map((key) => [key, 1]));
    expect(sortedThresholds(rules, given, renamed)).toEqual({ kept: {}, gone: keys, moved: [] });
  });

  it('never leads in a circle', () => {
    expect(todaysKey('a.x', { a: 'b', b: 'a' })).toBe('a.x');
  });

  it('has, of every name in the list, a number today', () => {
    for (const [before, now] of Object.entries(RENAMED)) expect(todaysKey(before, RENAMED)).toContain(now);
  });
});
