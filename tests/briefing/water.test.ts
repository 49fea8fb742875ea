/** The water row: how it has changed, and what is ahead with its interval. */
import { describe, expect, it } from 'vitest';
import { renderBriefing } from '../../src/render/index.ts';
import type { Figure } from '../../src/signals/types.ts';
import { expandQuantities } from '../../src/units/placeholder.ts';
import { sampleBriefing } from '../helpers/sampleBriefing.ts';
import { figure, sampleReport } from '../helpers/sampleReport.ts';

const about = (value: number, half: number): Figure =>
  figure(value, { low: value - half, high: value + half });
const noteOf = (signals: Record<string, Figure | undefined>): string => {
  const report = sampleReport({ conditions: { signals } });
  const row = sampleBriefing({ report }).conditions.find(({ id }) => id === 'waterC');
  return expandQuantities(row?.note ?? '', 'us');
};

describe('the change of the water', () => {
  it('is told over 3, 7 and 30 days, each with how sure it is', () => {
    expect(
      noteOf({
        waterChange3dC: about(0.6, 0.9),
        waterChange7dC: about(1.7, 1.2),
        waterChange30dC: about(-3.4, 1.5),
      }),
    ).toBe('+1 °F in 3 days (unsure), +3 °F in 7, -6 °F in 30.');
  });

  it('leaves out what prints as nothing, and says so where nothing is left', () => {
    expect(
      noteOf({
        waterChange3dC: about(0.1, 0.9),
        waterChange7dC: about(1.7, 1.2),
        waterChange30dC: undefined,
      }),
    ).toBe('+3 °F in 7 days.');
    expect(
      noteOf({ waterChange3dC: about(0.1, 0.9), waterChange7dC: about(-0.2, 1), waterChange30dC: undefined }),
    ).toBe('No clear change in 3 or 7 days.');
    expect(noteOf({ waterChange3dC: undefined, waterChange7dC: undefined, waterChange30dC: undefined })).toBe(
      '',
    );
  });
});

describe('the water of the next 48 hours', () => {
  it('has the interval of those days in text and page', async () => {
    // The sample's days ahead are 8.9 and 9.3 degC, known within 1.1 and 1.4 K: 7.8 to 10.7 degC.
    const { text, html } = await renderBriefing(sampleBriefing(), {
      units: 'metric',
      form: 'full',
      pictures: false,
      detail: 'web',
    });
    expect(text.replace(/\s+/g, ' ')).toContain('next 48 h 8.9 to 9.3 °C (7.8 to 10.7 °C likely)');
    expect(html.replaceAll('\u00a0', ' ')).toContain('next 48 h 8.9 to 9.3 °C (7.8 to 10.7 °C likely)');
  });

  it('has none where a day has none', () => {
    const report = sampleReport();
    const days = report.days.map(({ date, forecast, waterC = 8 }) => ({ date, forecast, waterC }));
    const row = sampleBriefing({ report: { ...report, days } }).conditions.find(({ id }) => id === 'waterC');
    expect(row?.next48h).not.toHaveProperty('likelyLow');
  });
});
