import { describe, expect, it } from 'vitest';
import type { Figure, SignalId, SignalReport } from '../../src/signals/types.ts';
import { without } from '../../src/briefing/without.ts';
import { expandQuantities } from '../../src/units/placeholder.ts';
import { sampleBriefing, sampleFacts } from '../helpers/sampleBriefing.ts';
import { figure, SAMPLE_ISSUED_MS, sampleReport } from '../helpers/sampleReport.ts';

type Signals = Partial<Record<SignalId, Figure | undefined>>;

function notes(signals: Signals, levelBand?: SignalReport['levelBand']) {
  const report = without(sampleReport({ conditions: { signals } }), 'levelBand');
  const document = sampleBriefing({ report: { ...report, ...(levelBand ? { levelBand } : {}) } });
  const of = (id: string, units: 'us' | 'metric') =>
    expandQuantities(document.conditions.find((row) => row.id === id)?.note ?? '', units);
  return { us: of('levelM', 'us'), metric: of('levelM', 'metric'), pace: of('level24hM', 'us'), document };
}
const at = (levelM: number, vsNormal: number | undefined, share: number | undefined): Signals => ({
  levelM: figure(levelM),
  levelVsNormalM: vsNormal === undefined ? undefined : figure(vsNormal),
  levelBandShare: share === undefined ? undefined : figure(share),
});
const YEAR = { lowM: 187, highM: 190, days: 365 };

describe('where the level stands', () => {
  it('is said against normal pool and in thirds of the year, in the units of the reader', () => {
    const { us, metric } = notes(at(187.6, -0.4, 0.2), YEAR);
    expect(metric).toBe(
      '0.40 m below normal pool; in the lower third of the range of the past year, 187.00 m to 190.00 m.',
    );
    expect(us).toBe(
      '1.3 ft below normal pool; in the lower third of the range of the past year, 613.5 ft to 623.4 ft.',
    );
    expect(notes(at(188.5, 0.5, 0.5), YEAR).metric).toContain('above normal pool; in the middle third');
    expect(notes(at(189.9, 0.01, 0.97), YEAR).metric).toContain('At normal pool; in the upper third');
    expect(notes(at(190, undefined, 1), YEAR).metric).toMatch(/^In the upper third/);
    expect(notes(at(187, undefined, 0), YEAR).metric).toMatch(/^In the lower third/);
  });

  it('is outside the range only where it is clearly so', () => {
    expect(notes(at(190.4, undefined, 1.13), YEAR).metric).toMatch(/^Above the range of the past year/);
    expect(notes(at(186.8, undefined, -0.07), YEAR).metric).toMatch(/^Below the range/);
    expect(notes(at(190.02, undefined, 1.01), YEAR).metric).toMatch(/^In the upper third/);
  });

  it('does not call the range of some months that of a year', () => {
    expect(notes(at(188, undefined, 0.33), { ...YEAR, days: 214 }).metric).toContain(
      '214 days of the past year',
    );
  });

  it('says of a pool held steady that it was, instead of thirds of nothing', () => {
    expect(notes(at(188, undefined, 0.1), { lowM: 187.98, highM: 188.08, days: 365 }).metric).toBe(
      'Held within 0.10 m over the past year.',
    );
  });

  it('is left out, row and sentence, where it is not known', () => {
    expect(notes(at(188, undefined, undefined)).metric).toBe('');
    const { document } = notes({ ...at(188, undefined, undefined), levelM: undefined, level24hM: undefined });
    expect(document.conditions.map(({ id }) => id)).not.toContain('levelM');
    expect(document.conditions.find(({ id }) => id === 'level24hM')).toMatchObject({ now: null, last: null });
    expect(JSON.stringify(document.conditions)).not.toMatch(/normal pool|past year/);
  });
});

describe('how fast the level moves', () => {
  const pace = (six: number | undefined, three: number | undefined, rate?: number) =>
    notes({
      level6hM: six === undefined ? undefined : figure(six),
      level72hM: three === undefined ? undefined : figure(three),
      levelRateMPerH: rate === undefined ? undefined : figure(rate),
    }).pace;

  it('is said over six hours, with its rate, and over three days', () => {
    expect(pace(0.12, -0.3, 0.02)).toBe('+0.4 ft in 6 h (+0.07 ft/h); -1.0 ft in 72 h.');
  });

  it('is steady where wind and sensor explain what there is', () => {
    expect(pace(0, 0, 0)).toBe('Steady over 6 h; steady over 72 h.');
    expect(pace(undefined, 0)).toBe('Steady over 72 h.');
    expect(pace(undefined, undefined)).toBe('');
  });
});

describe('a fallback gauge on its own zero', () => {
  const GAUGE = { code: 'gauge', service: 'usgs', station: '1', where: 'invented' } as const;
  const levelChange = (fallback: boolean): string[] => {
    const previous = sampleFacts({ issuedMs: SAMPLE_ISSUED_MS - 86_400_000 });
    const report = sampleReport({
      conditions: {
        signals: { levelM: figure(3.2, { source: { ...GAUGE, fallback } }), level24hM: figure(0.24) },
      },
    });
    return sampleBriefing({ report, previous }).whatChanged.items.map(({ about }) => about);
  };

  it('is no fall of the lake by hundreds of metres', () => {
    expect(levelChange(true)).not.toContain('levelM');
    expect(levelChange(false)).toContain('levelM');
  });
});
