import { describe, expect, it } from 'vitest';
import type { Advice } from '../../src/advice/types.ts';
import { sayAdvice } from '../../src/words/index.ts';
import { placesHere } from '../../src/advice/positions/here.ts';
import type { WaterBody } from '../../src/vocabulary/index.ts';
import { adviceFor, hasOn, rankOf, rules, table, totalOf } from './support.ts';

// Practitioners' judgement written for this project: common practice, no source, unless a scenario names one.
const answers = new Map<string, Advice>(
  table.scenarios.map(({ id, conditions }) => [id, adviceFor(conditions)]),
);
const answer = (id: string): Advice => {
  const found = answers.get(id);
  if (!found) throw new Error(`no scenario ${id}`);
  return found;
};

describe('scenarios', () => {
  it('cover at least forty days over all nine phases', () => {
    expect(table.scenarios.length).toBeGreaterThanOrEqual(40);
    const leading = new Set([...answers.values()].map((advice) => advice.phase.leading));
    expect([...leading].sort()).toEqual(
      [
        'early_fall',
        'early_prespawn',
        'fall',
        'late_fall',
        'postspawn',
        'prespawn',
        'spawn',
        'summer',
        'winter',
      ].sort(),
    );
  });

  it.each(table.scenarios.filter(({ first }) => first))('$id: $why', ({ id, first, top3, low, phase }) => {
    const advice = answer(id);
    expect(first).toContain(advice.positions[0]!.place);
    for (const place of top3 ?? []) expect(rankOf(advice, place), place).toBeLessThanOrEqual(3);
    // The lower half: rank 10 of 17, or as far down a shorter list.
    const lower = Math.floor((advice.positions.length * 10) / 17);
    for (const place of low ?? []) expect(rankOf(advice, place), place).toBeGreaterThanOrEqual(lower);
    if (phase) expect(phase).toContain(advice.phase.leading);
  });

  it('always rank every place that the water has, each once, with totals that the evidence adds up to', () => {
    for (const [id, advice] of answers) {
      const water = table.scenarios.find((scenario) => scenario.id === id)?.conditions['waterBody'];
      const body = (water ?? 'highland-reservoir') as WaterBody;
      const known = placesHere(body, { has: hasOn(body) });
      // Cover that high water covers is a place only while it does.
      const ranked = advice.positions.map(({ place }) => place);
      expect(new Set<string>([...ranked, 'flooded_cover']), id).toEqual(new Set([...known, 'flooded_cover']));
      for (const [index, position] of advice.positions.entries()) {
        expect(position.rank).toBe(index + 1);
        const sum = position.evidence.reduce((total, entry) => total + entry.contribution, 0);
        expect(sum).toBeCloseTo(position.total, 9);
        const spoken = sayAdvice(advice, rules.text).positions[index]!.because;
        expect(spoken.length).toBeGreaterThan(0);
        expect(spoken.length).toBeLessThanOrEqual(2);
        expect(new Set(spoken).size).toBe(spoken.length);
        expect(position.depthM[0]).toBeLessThan(position.depthM[1]);
      }
    }
  });

  it('name no more than three periods of the day', () => {
    for (const advice of answers.values()) {
      expect(new Set(advice.positions.map(({ period }) => period)).size).toBeLessThanOrEqual(3);
    }
  });
});

describe('contrasts', () => {
  it.each(table.contrasts)('$why: from $a to $b', ({ a, b, up, down }) => {
    for (const place of up) {
      expect(totalOf(answer(b), place), `${place} up`).toBeGreaterThan(totalOf(answer(a), place) + 0.1);
    }
    for (const place of down) {
      expect(totalOf(answer(b), place), `${place} down`).toBeLessThan(totalOf(answer(a), place) - 0.1);
    }
  });
});
