/** What somebody wrote becomes an outing, or a list of everything that is wrong with it. */
import { describe, expect, it } from 'vitest';
import type { WrittenOuting } from '../../src/outings/index.ts';
import { wordsFor } from '../../src/words/index.ts';
import { entry, NOW, read } from './kit.ts';

const says = (change: Partial<WrittenOuting>): string =>
  read(change).problems.map(wordsFor('en').outingProblem).join(' ');

describe('an outing', () => {
  it('is kept in SI, with its hours from its clock', () => {
    const { outing } = entry();
    expect(outing).toMatchObject({
      date: '2026-03-05',
      clock: { fromMinute: 390, toMinute: 660 },
      hours: 4.5,
      places: [{ kind: 'main_point', name: 'Heron Point' }],
      lures: ['jerkbait'],
      bites: 4,
      fish: 2,
      shared: false,
    });
    // 1 lb is 0.45359237 kg by definition (international pound, 1959).
    expect(outing.biggestKg).toBeCloseTo(2.4 * 0.45359237, 4);
    expect(outing.waterC).toBeCloseTo(9.4444, 3);
  });

  it('without a fish is one as well', () => {
    expect(entry({ fish: '0', biggest: '', bites: '' }).outing.fish).toBe(0);
  });

  it('asks about more fish an hour than anybody catches', () => {
    // 4.5 hours at 40 an hour are 180.
    expect(says({ fish: '181', bites: '' })).toMatch(
      /40 an hour, and more than 40 .* check the fish and the hours/,
    );
    expect(says({ fish: '180', bites: '' })).toBe('');
  });

  it('names no place finer than the lake does', () => {
    expect(says({ places: ['35.512,-92.481'] })).toContain('Pine Hollow Lake does not have');
    expect(entry({ places: ['mill', 'bluff'] }).outing.places).toEqual([
      { kind: 'bluff' },
      { kind: 'pocket', name: 'Mill Pocket' },
    ]);
  });

  it('brings its water to the lake at the middle of its hours, and into the pocket that it names', () => {
    const atMs = Date.UTC(2026, 2, 5, 14, 45);
    expect(entry().reading).toMatchObject({ atMs, lake: 'pine-hollow', where: 'Heron Point', depthM: 0.3 });
    expect(entry().reading).not.toHaveProperty('pocket');
    expect(entry({ places: ['Mill Pocket'] }).reading).toMatchObject({ pocket: 'mill' });
  });

  it('of a pocket that is not configured teaches the main lake nothing', () => {
    expect(entry({ places: ['pocket'] }).reading).toBeUndefined();
    expect(entry({ places: ['pocket'] }).outing.waterC).toBeCloseTo(9.4444, 3);
  });

  it('has a name of its own that does not change with what was caught', () => {
    const { id } = entry().outing;
    expect(entry({ fish: '3' }).outing.id).toBe(id);
    expect(entry({ from: '06:00' }).outing.id).not.toBe(id);
    expect(entry({}, 'ben').outing.id).not.toBe(id);
  });

  it('never brings a reading from the future', () => {
    const { reading } = entry({ date: '2026-03-06', from: '', to: '', hours: '2' });
    expect(reading?.atMs).toBe(NOW);
  });
});

describe('what cannot be an outing is refused in a sentence', () => {
  it.each<[Partial<WrittenOuting>, string]>([
    [{ date: '2026-03-07' }, 'Date "2026-03-07" lies in the future: at Pine Hollow Lake it is 2026-03-06'],
    [{ date: '2026-03-06', to: '09:00' }, 'has not come yet today'],
    [{ date: '2026-02-30' }, 'is no local date'],
    [{ date: '1998-03-05' }, 'more than ten years ago'],
    [{ from: '', to: '', hours: '' }, 'Hours are missing: fish without hours give no rate'],
    [{ from: '', to: '', hours: '0' }, 'above 0'],
    [{ from: '', to: '', hours: '4,5' }, 'with a decimal point'],
    [{ hours: '6' }, 'more than lie between 06:30 and 11:00'],
    [{ from: '11:00', to: '06:30' }, 'is not after "from"'],
    [{ to: '' }, 'To is missing'],
    [{ to: '11:75' }, 'is no time of the day'],
    [{ fish: '' }, 'write 0 for none'],
    [{ fish: '-1' }, 'whole number'],
    [{ fish: '2.5' }, 'whole number'],
    [{ bites: '1' }, 'fewer than the fish'],
    [{ biggest: '40 lb' }, 'Biggest fish "40 lb" is heavier than any black bass on record'],
    [{ biggest: '17' }, 'with its unit'],
    [{ biggest: '150 cm' }, 'is no length of a bass'],
    [{ fish: '0', bites: '' }, 'is told, but no fish'],
    [{ water: '49 C' }, 'it looks like degrees Fahrenheit'],
    [{ water: '49' }, 'with its unit'],
    [{ water: '', clarity: '', depth: '2 m' }, 'belongs to a water temperature'],
    [{ places: ['main point', 'blufff'] }, 'for example bluff'],
    [{ places: ['pond_dam'] }, 'does not have'],
    [{ lures: ['jerkbate'] }, 'did you mean jerkbait?'],
    [{ plan: 'perhaps' }, '"followed" or "elsewhere"'],
    [{ note: 'x'.repeat(1001) }, 'longer than 1000'],
  ])('%o', (change, sentence) => {
    expect(says(change)).toContain(sentence);
  });

  it('all of it at once, and no outing', () => {
    const made = read({ date: '2026-03-07', fish: '', biggest: '40 lb' });
    expect(made.problems.map(({ field }) => field)).toEqual(['date', 'fish', 'biggest']);
    expect(made).not.toHaveProperty('outing');
  });

  it('repeats nothing of a note', () => {
    expect(says({ note: 'secret '.repeat(200) })).not.toContain('secret');
  });
});
