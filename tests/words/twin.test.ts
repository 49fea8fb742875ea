/** The twin of a page for programs: JSON that says the same in fewer bytes. */
import { describe, expect, it } from 'vitest';
import { renderBriefing } from '../../src/render/index.ts';
import { sampleBriefing } from '../helpers/sampleBriefing.ts';

describe('the JSON of a page', () => {
  it('has its lists of numbers on one line, and every text as it was', async () => {
    const doc = sampleBriefing();
    const text = 'Ramp [\n 1,\n 2\n] is [ 3, 4 ]';
    const rings = [Array.from({ length: 400 }, (_, i): [number, number] => [i, 7 - i])];
    const { json } = await renderBriefing(
      { ...doc, notices: [{ text, from: doc.date, until: null }], map: { rings, places: [] } },
      { units: 'us', form: 'short' },
    );
    const read = JSON.parse(json) as { page: { map: { rings: number[][][] } } };
    expect(read.page.map.rings).toEqual(rings);
    expect(JSON.stringify(read)).toContain(JSON.stringify(text).slice(1, -1));
    expect(json).toContain('[399,-392]');
    // A pair of numbers over four lines, as an indent of two writes it, takes 40 characters more.
    expect(json.length).toBeLessThan(JSON.stringify(read, null, 2).length - 400 * 40);
  });
});
