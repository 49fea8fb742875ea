import { expect, it } from 'vitest';
import { expandQuantities } from '../../src/units/placeholder.ts';
import { sampleBriefing } from '../helpers/sampleBriefing.ts';
import { sampleReport } from '../helpers/sampleReport.ts';

const note = (rainCheck?: { measuredMm: number; modelMm: number }) =>
  sampleBriefing({ report: { ...sampleReport(), ...(rainCheck ? { rainCheck } : {}) } }).conditions.find(
    ({ id }) => id === 'rain72Mm',
  )?.note;

it('says both sums where rain gauge and model disagree, in the units of the reader', () => {
  const text = note({ measuredMm: 0, modelMm: 38.1 });
  expect(expandQuantities(text ?? '', 'us')).toMatch(/^Measured 0\.00 in, weather model 1\.50 in\./);
  expect(expandQuantities(text ?? '', 'metric')).toMatch(/^Measured 0 mm, weather model 38 mm\./);
  expect(note()).toBeUndefined();
});

it('says of rain that fell in freezing air that it was snow, and of other rain nothing', () => {
  const noteOf = (rainMm: number, airC: number): string | undefined => {
    const report = sampleReport();
    const { signals } = report.conditions;
    const figure = { kind: 'estimated', asOfMs: report.conditions.asOfMs, freshness: 'fresh' } as const;
    const source = { code: 'weather', service: 'open-meteo' } as const;
    const rain24Mm = { ...figure, source, value: rainMm };
    const rainAirC = { ...figure, source, value: airC };
    const conditions = { ...report.conditions, signals: { ...signals, rain24Mm, rainAirC } };
    return sampleBriefing({ report: { ...report, conditions } }).conditions.find(
      ({ id }) => id === 'rain24Mm',
    )?.note;
  };
  expect(expandQuantities(noteOf(24, -2) ?? '', 'metric')).toMatch(/^As water: .*\(-2\.0.°C\) it was snow/s);
  expect(noteOf(24, 6)).toBeUndefined();
  expect(noteOf(0.1, -2)).toBeUndefined();
});
