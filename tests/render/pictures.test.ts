import { describe, expect, it } from 'vitest';
import { pageOf, wordsFor } from '../../src/words/index.ts';
import { castDrawing } from '../../src/render/charts/cast.ts';
import { dayClock } from '../../src/render/charts/dayClock.ts';
import { drawings } from '../../src/render/pictures.ts';
import { toPng } from '../../src/render/charts/png.ts';
import { drawing, label } from '../../src/render/charts/svg.ts';
import { tenDays } from '../../src/render/charts/tenDays.ts';
import { inUnits, renderBriefing } from '../../src/render/index.ts';
import { mornings } from '../helpers/mornings.ts';
import { sampleBriefing } from '../helpers/sampleBriefing.ts';
import { withPlan } from '../helpers/samplePlan.ts';

const words = wordsFor('en');
const m = words.page;
const doc = sampleBriefing();
const textsOf = (svg: string): string[] =>
  [...svg.matchAll(/<text[^>]*>([^<]*)</g)].map(([, text]) => text ?? '');

interface Box {
  readonly text: string;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Boxes of the labels: a letter of the font is on average about 0.52 of its size wide, capitals 0.73 of it high. */
function boxesOf(svg: string): Box[] {
  // The view from above is drawn lower down, in a group of its own.
  const lower = svg.indexOf('<g transform="translate(0 ');
  const shift = lower < 0 ? 0 : Number(/translate\(0 ([\d.]+)\)/.exec(svg.slice(lower))?.[1] ?? 0);
  return [
    ...svg.matchAll(
      /<text x="([-\d.]+)" y="([-\d.]+)"[^>]*font-size="(\d+)"[^>]*text-anchor="(\w+)"[^>]*>([^<]*)</g,
    ),
  ].map((found) => {
    const [, x, y, size, anchor, text = ''] = found;
    const width = 0.52 * Number(size) * text.length;
    const left = Number(x) - (anchor === 'start' ? 0 : anchor === 'middle' ? width / 2 : width);
    const bottom = Number(y) + (lower >= 0 && found.index > lower ? shift : 0);
    return { text, left, right: left + width, top: bottom - 0.73 * Number(size), bottom };
  });
}

/** Points of the drawn curves, close enough that no label fits between two; rules across the frame are none. */
function curvePoints(svg: string): [number, number][] {
  return [...svg.matchAll(/<path d="([^"]*)" fill="none"[^>]*stroke-width="3"/g)].flatMap(([, d = '']) => {
    const points = [...d.matchAll(/[ML]([-\d.]+) ([-\d.]+)/g)].map(
      ([, x, y]) => [Number(x), Number(y)] as const,
    );
    return points.slice(1).flatMap(([x, y], i) => {
      const [fromX, fromY] = points[i] ?? [x, y];
      return Array.from({ length: 12 }, (_, k): [number, number] => [
        fromX + ((x - fromX) * k) / 12,
        fromY + ((y - fromY) * k) / 12,
      ]);
    });
  });
}

describe('the pictures', () => {
  it('are drawn with letters: the font is found and used', async () => {
    const empty = await toPng(drawing(60, []));
    const lettered = await toPng(drawing(60, [label(10, 40, 'Lake 47 °F')]));
    expect(lettered.length).toBeGreaterThan(empty.length + 1000);
  });

  it('have the same bytes every time and stay small', async () => {
    const view = { units: 'us', form: 'full' } as const;
    const [a, b] = [await renderBriefing(doc, view), await renderBriefing(doc, view)];
    expect(a.attachments.map(({ filename }) => filename)).toEqual([
      'day.png',
      'cast-1.png',
      'cast-2.png',
      'ten-days.png',
    ]);
    for (const [i, { content }] of a.attachments.entries()) {
      expect(content.equals(b.attachments[i]?.content ?? Buffer.alloc(0))).toBe(true);
      expect(content.length).toBeLessThan(100_000);
      expect(content.readUInt32BE(16)).toBe(1104); // PNG header: width in pixels
    }
  });

  it('speak the reader’s units', () => {
    for (const draw of [
      (units: 'us' | 'metric') => tenDays(doc, units, m),
      (units: 'us' | 'metric') => dayClock(doc, { units, clock: '24h' }, words),
    ]) {
      expect(textsOf(draw('us')?.svg ?? '').join(' ')).toMatch(/°F/);
      const metric = textsOf(draw('metric')?.svg ?? '').join(' ');
      expect(metric).toMatch(/°C/);
      expect(metric).not.toMatch(/°F|mph| ft| in\b/);
    }
  });

  it('print today’s numbers on the lines and need no legend', () => {
    const all = textsOf(tenDays(doc, 'us', m)?.svg ?? '');
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

  describe.each(mornings())('of $name', ({ units, facts }) => {
    it.each([0, 3])('print no label over another or out of the frame, %s hours closed', (closedHours) => {
      const page = inUnits(pageOf(withPlan(facts, closedHours), words), units, '12h');
      for (const [id, { svg }] of drawings(page, { units, clock: '12h' }, words)) {
        const boxes = boxesOf(svg);
        for (const [i, one] of boxes.entries()) {
          expect(one.left, `${id}: ${one.text}`).toBeGreaterThan(-6);
          expect(one.right, `${id}: ${one.text}`).toBeLessThan(606);
          for (const other of boxes.slice(i + 1)) {
            const apart =
              other.left >= one.right ||
              other.right <= one.left ||
              other.top >= one.bottom ||
              other.bottom <= one.top;
            expect(apart, `${id}: ${other.text} over ${one.text}`).toBe(true);
          }
        }
      }
    });

    // A nil morning has no day to draw.
    it.runIf(facts.status !== 'nil')('print no label of the day over a curve', () => {
      const page = inUnits(pageOf(withPlan(facts), words), units, '12h');
      const clockPicture = drawings(page, { units, clock: '12h' }, words).find(([id]) => id === 'day');
      const { svg } = clockPicture?.[1] ?? { svg: '' };
      const curves = curvePoints(svg);
      expect(curves.length).toBeGreaterThan(20);
      for (const box of boxesOf(svg))
        for (const [x, y] of curves) {
          const inside = x > box.left && x < box.right && y > box.top + 2 && y < box.bottom;
          expect(inside, `${box.text} over a curve at ${x} ${y}`).toBe(false);
        }
    });
  });

  it('show hours of release under the other lanes, and pale what is only usual', () => {
    const day = doc;
    const middle = Math.floor(day.series.hours.length / 2);
    const released = (generationBy: 'operator' | 'weekday') =>
      dayClock(
        {
          ...day,
          series: {
            ...day.series,
            hours: day.series.hours.map((hour, i) =>
              i >= middle && i < middle + 4 ? { ...hour, generationOn: 1, generationBy } : hour,
            ),
          },
        },
        { units: 'us', clock: '24h' },
        words,
      );
    const [told, usual, none] = [
      released('operator'),
      released('weekday'),
      dayClock(day, { units: 'us', clock: '24h' }, words),
    ];
    expect(textsOf(told?.svg ?? '').join('\n')).toMatch(/Release\n\d\d:00 to \d\d:00 \(told\)/);
    expect(textsOf(usual?.svg ?? '').join('\n')).toMatch(/\(estimate\)/);
    expect(usual?.svg).toContain('opacity="0.45"');
    expect(told?.alt).toMatch(/Water runs through the dam: \d\d:00 to \d\d:00 \(told\)\./);
    expect(none?.svg).not.toContain('Release');
    // Within the frame of 600.
    for (const box of boxesOf(told?.svg ?? '')) expect(box.right).toBeLessThanOrEqual(604);
  });

  it('hold no number that is not finite', () => {
    for (const { document, units } of mornings()) {
      const local = inUnits(document, units);
      const cast = local.casts[0];
      const drawn = [
        tenDays(local, units, m),
        dayClock(local, { units, clock: '24h' }, words),
        cast === undefined ? null : castDrawing(cast, units, words),
      ];
      for (const picture of drawn) expect(picture?.svg ?? '').not.toMatch(/NaN|Infinity|undefined/);
    }
  });
});
