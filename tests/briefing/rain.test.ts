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
  expect(expandQuantities(text ?? '', 'us')).toMatch(
    /^The gauge measured 0\.00 in, the weather model has 1\.50 in/,
  );
  expect(expandQuantities(text ?? '', 'metric')).toMatch(/measured 0 mm, the weather model has 38 mm/);
  expect(note()).toBeUndefined();
});
