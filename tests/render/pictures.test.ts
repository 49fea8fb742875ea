import { describe, expect, it } from 'vitest';
import { messagesFor } from '../../src/words/index.ts';
import { castFromTheSide, lurePath } from '../../src/render/charts/cast.ts';
import { dayByHours } from '../../src/render/charts/hours.ts';
import { toPng } from '../../src/render/charts/png.ts';
import { drawing, label } from '../../src/render/charts/svg.ts';
import { tenDays } from '../../src/render/charts/tenDays.ts';
import { inUnits, renderBriefing } from '../../src/render/index.ts';
import { mornings } from '../helpers/mornings.ts';
import { sampleBriefing } from '../helpers/sampleBriefing.ts';
import { sampleAdvice, SAMPLE_CARD } from '../helpers/sampleReport.ts';

const m = messagesFor('en');
const doc = sampleBriefing();
const words = (svg: string): string[] =>
  [...svg.matchAll(/<text[^>]*>([^<]*)</g)].map(([, text]) => text ?? '');

describe('the pictures', () => {
  it('are drawn with letters: the font is found and used', () => {
    const empty = toPng(drawing(60, []));
    const lettered = toPng(drawing(60, [label(10, 40, 'Lake 47 °F')]));
    expect(lettered.length).toBeGreaterThan(empty.length + 1000);
  });

  it('have the same bytes every time and stay small', async () => {
    const view = { units: 'us', form: 'full' } as const;
    const [a, b] = [await renderBriefing(doc, view), await renderBriefing(doc, view)];
    expect(a.attachments).toHaveLength(3);
    for (const [i, { content }] of a.attachments.entries()) {
      expect(content.equals(b.attachments[i]?.content ?? Buffer.alloc(0))).toBe(true);
      expect(content.length).toBeLessThan(100_000);
      expect(content.readUInt32BE(16)).toBe(1104); // PNG header: width in pixels
    }
  });

  it('speak the reader’s units', () => {
    for (const draw of [tenDays, dayByHours]) {
      expect(words(draw(doc, 'us', m)?.svg ?? '').join(' ')).toMatch(/°F/);
      const metric = words(draw(doc, 'metric', m)?.svg ?? '').join(' ');
      expect(metric).toMatch(/°C/);
      expect(metric).not.toMatch(/°F|mph| ft| in\b/);
    }
  });

  it('print today’s numbers on the lines and need no legend', () => {
    const all = words(tenDays(doc, 'us', m)?.svg ?? '');
    expect(all).toEqual(
      expect.arrayContaining([
        'Air, daily mean',
        'Lake',
        'Rain a day',
        'Level',
        '47 °F',
        'reading 45 °F',
        'forecast',
      ]),
    );
  });

  it('print no value over a title, however early the peak', () => {
    const early = {
      ...doc,
      series: {
        ...doc.series,
        hours: doc.series.hours.map((hour, i) => ({
          ...hour,
          pocketMinusMainC: 4 - 0.1 * i,
          windMs: 8 - 0.1 * i,
          gustMs: 12 - 0.1 * i,
        })),
      },
    };
    for (const units of ['us', 'metric'] as const) {
      const svg = dayByHours(early, units, m)?.svg ?? '';
      const texts = [
        ...svg.matchAll(
          /<text x="([-\d.]+)" y="([-\d.]+)"[^>]*font-size="(\d+)"[^>]*text-anchor="(\w+)"[^>]*>([^<]*)</g,
        ),
      ].map(([, x, y, size, anchor, text]) => {
        // A letter of the font is on average about 0.52 of its size wide, capitals 0.73 of it high.
        const width = 0.52 * Number(size) * (text ?? '').length;
        const left = Number(x) - (anchor === 'start' ? 0 : anchor === 'middle' ? width / 2 : width);
        return { text, left, right: left + width, top: Number(y) - 0.73 * Number(size), bottom: Number(y) };
      });
      const titles = texts.filter(({ text }) => [m.pictures.pocket, m.pictures.wind].includes(text ?? ''));
      expect(titles).toHaveLength(2);
      for (const title of titles)
        for (const other of texts) {
          if (other === title) continue;
          const apart =
            other.left >= title.right ||
            other.right <= title.left ||
            other.top >= title.bottom ||
            other.bottom <= title.top;
          expect(apart, `${other.text} over ${title.text}`).toBe(true);
        }
    }
  });

  it('hold no number that is not finite', () => {
    for (const { document, units } of mornings()) {
      const local = inUnits(document, units);
      const cast = local.casts[0];
      const drawn = [
        tenDays(local, units, m),
        dayByHours(local, units, m),
        cast === undefined ? null : castFromTheSide(cast, units, m),
      ];
      for (const picture of drawn) expect(picture?.svg ?? '').not.toMatch(/NaN|Infinity|undefined/);
    }
  });
});

describe('the cast from the side', () => {
  const cast = sampleBriefing().casts[0];
  if (cast === undefined) throw new Error('the sample has no cast');

  it('is to scale: one metre is as long across as down', () => {
    const { svg } = castFromTheSide(cast, 'metric', m) ?? { svg: '' };
    const path = /stroke="#A84300" stroke-width="3"[^>]*/.exec(svg)?.index ?? -1;
    const points = [
      ...(/d="([^"]*)"/.exec(svg.slice(svg.lastIndexOf('<path', path)))?.[1] ?? '').matchAll(
        /[ML]([\d.]+) ([\d.]+)/g,
      ),
    ].map(([, x, y]) => [Number(x), Number(y)] as const);
    const expected = lurePath(cast);
    expect(points).toHaveLength(expected.length);
    const [first, second, last] = [points[0], points[1], points.at(-1)];
    if (first === undefined || second === undefined || last === undefined) throw new Error('no path');
    const across = (last[0] - first[0]) / cast.castLengthM;
    const down = (second[1] - first[1]) / (expected[1]?.[1] ?? 0);
    expect(down / across).toBeCloseTo(1, 1);
  });

  it('touches bottom exactly where the card says', () => {
    const way = lurePath(cast);
    const bottom = (x: number): number =>
      cast.castDepthM + ((cast.boatDepthM - cast.castDepthM) * x) / cast.castLengthM;
    for (const at of [cast.contactFromM, cast.contactToM]) {
      expect(way).toContainEqual([at, bottom(at ?? -1)]);
    }
  });

  it('is not drawn for a lure worked under the boat', () => {
    const [vertical] = sampleBriefing({
      advice: sampleAdvice({
        presentations: [{ ...SAMPLE_CARD, castLengthM: 0, contactFromM: null, contactToM: null }],
      }),
    }).casts;
    expect(vertical === undefined ? 'missing' : castFromTheSide(vertical, 'us', m)).toBeNull();
  });
});
