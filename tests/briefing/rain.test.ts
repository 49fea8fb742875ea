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
