import { describe, expect, it } from 'vitest';
import { loadRules } from '../../src/config/rules.ts';
import { goneWords, sortedThresholds, tuneRules, tunableNumbers } from '../../src/config/tune.ts';

const rules = loadRules();

describe('a reader’s own numbers', () => {
  it('take the place of shipped ones, by id and by name', () => {
    const tuned = tuneRules(rules, {
      'safety.hazards.cold-water.classes.danger.at': 16,
      'lures.settings.diameterExponent': -0.5,
      'lures.classes.jig.waterC.max': 36,
      'lures.settings.fluorocarbonMm.0.1': 0.2,
    });
    const danger = tuned.safety.hazards
      .find((row) => row.id === 'cold-water')!
      .classes.find((row) => row.name === 'danger');
    expect(danger!.at).toBe(16);
    expect(tuned.lures.settings.diameterExponent).toBe(-0.5);
    expect(tuned.lures.classes.find((row) => row.id === 'jig')!.waterC.max).toBe(36);
    expect(tuned.lures.settings.fluorocarbonMm[0]).toEqual([2.72, 0.2]);
  });

  it('leave the shipped rules as they are', () => {
    const before = JSON.stringify(rules);
    tuneRules(rules, { 'lures.settings.castExponent': 0.9 });
    expect(JSON.stringify(rules)).toBe(before);
    expect(tuneRules(rules, {})).toBe(rules);
  });

  it.each(['lures.settings.nothing', 'safety.hazards.cold-water.label', 'lures', 'toString.length'])(
    'are refused where a key leads to no number: %s',
    (key) => {
      expect(() => tuneRules(rules, { [key]: 1 })).toThrow(/leads to no number/);
    },
  );

  it('are refused where the rules would no longer hold together', () => {
    expect(() => tuneRules(rules, { 'safety.hazards.cold-water.classes.danger.at': 1 })).toThrow(
      /no longer hold together/,
    );
  });

  it('that these rules no longer have are told apart and named, so that an upgrade stops no morning', () => {
    const thresholds = {
      'safety.hazards.cold-water.classes.danger.at': 16,
      'positions.rules.survey.largemouth.gone.points.pocket': 2,
    };
    const { kept, gone } = sortedThresholds(rules, thresholds);
    expect(kept).toEqual({ 'safety.hazards.cold-water.classes.danger.at': 16 });
    expect(gone).toEqual(['positions.rules.survey.largemouth.gone.points.pocket']);
    expect(() => tuneRules(rules, kept)).not.toThrow();
    expect(goneWords(gone[0]!)).toMatch(
      /"positions\.rules\.survey\.largemouth\.gone.*left out.*take it away/,
    );
  });

  it('of every shipped number are kept', () => {
    const all = Object.fromEntries(tunableNumbers(rules));
    expect(sortedThresholds(rules, all)).toEqual({ kept: all, gone: [], moved: [] });
  });
});
