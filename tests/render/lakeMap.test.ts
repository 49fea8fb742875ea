import { chromium, type Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { lakeMap, type MapWidth } from '../../src/render/charts/lakeMap.ts';
import { inUnits, renderBriefing } from '../../src/render/index.ts';
import { COLOUR } from '../../src/render/style.ts';
import { toPage, wordsFor, type BriefingPage } from '../../src/words/index.ts';
import { mappedMorning } from '../helpers/mappedMorning.ts';
import { morningNamed } from '../helpers/mornings.ts';

const words = wordsFor('en');
const document = await mappedMorning(9);
const page = (units: 'us' | 'metric', of = document): BriefingPage => inUnits(toPage(of, words), units);
const mapAt = (width: MapWidth, units: 'us' | 'metric' = 'us', of = document) => {
  const drawn = lakeMap(page(units, of), { units, clock: units === 'us' ? '12h' : '24h', width }, words);
  if (drawn === null) throw new Error('no map');
  return drawn;
};

let browser: Browser;
beforeAll(async () => {
  browser = await chromium.launch({ executablePath: '/usr/bin/chromium', args: ['--no-sandbox'] });
});
afterAll(() => browser.close());

interface Box {
  readonly words: string;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
  readonly height: number;
}

/** Labels as chromium sets them that meet another one or leave the drawing. */
async function collisions(svg: string, width: number): Promise<string[]> {
  const tab = await browser.newPage({ viewport: { width, height: 900 } });
  try {
    await tab.setContent(`<body style="margin:0">${svg}</body>`);
    const boxes = await tab.evaluate<Box[]>(
      `[...document.querySelectorAll('svg text')].map((text) => {
        const { left, right, top, bottom, height } = text.getBoundingClientRect();
        return { words: text.textContent, left, right, top, bottom, height };
      })`,
    );
    const found = boxes
      .filter(({ left, right }) => left < 0 || right > width)
      .map(({ words }) => `out: ${words}`);
    boxes.forEach((a, i) => {
      for (const b of boxes.slice(i + 1)) {
        const wide = Math.min(a.right, b.right) - Math.max(a.left, b.left);
        const high = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
        // Boxes of lines of one label touch by their line height; letters do not.
        if (wide > 1 && high > 0.25 * Math.min(a.height, b.height)) found.push(`${a.words} | ${b.words}`);
      }
    });
    return found;
  } finally {
    await tab.close();
  }
}

describe('the map of the lake', () => {
  it.each([
    [600, 'us'],
    [375, 'us'],
    [600, 'metric'],
    [375, 'metric'],
  ] as const)(
    '%d px wide in %s units has no label across another or out of the frame',
    async (width, units) => {
      const { svg } = mapAt(width, units);
      expect(svg.match(/<text/g)?.length).toBeGreaterThan(8);
      expect(await collisions(svg, width)).toEqual([]);
    },
  );

  it('and the test would see a collision', async () => {
    const { svg } = mapAt(600);
    const twice = svg.replace(
      '</svg>',
      '<text x="60" y="200" font-size="19">one</text><text x="62" y="203" font-size="19">two</text></svg>',
    );
    expect(await collisions(twice, 600)).not.toEqual([]);
  });

  it('names pockets, points and ramps, the wind of its hour, north and a scale in the reader’s units', () => {
    const us = mapAt(600).svg;
    for (const name of [
      'Mill Draw',
      'Long Hollow',
      'Cedar Shoulder',
      'North Landing',
      'Dam Ramp',
      'banks the wind reaches',
    ])
      expect(us).toContain(`>${name}<`);
    expect(us).toMatch(/>N</);
    expect(us).toMatch(/>1 mi</);
    expect(us).toMatch(/wind from the [a-z-]+, \d+ mph</);
    const metric = mapAt(600, 'metric').svg;
    expect(metric).toMatch(/>2 km</);
    expect(metric).toMatch(/, \d+ km\/h</);
  });

  it('the scale bar is as long as it says', () => {
    const { svg } = mapAt(600);
    const bar = /M([\d.]+) [\d.]+L\1 [\d.]+L([\d.]+) [\d.]+L\2 [\d.]+"/.exec(svg);
    const px = Number(bar?.[2]) - Number(bar?.[1]);
    const xs = document.map?.rings.flat().map(([x]) => x) ?? [];
    const acrossM = Math.max(...xs) - Math.min(...xs);
    // The lake fills the width but for a margin of 4.5 % on either side.
    expect(px / (0.91 * 600)).toBeCloseTo(1609.344 / acrossM, 2);
  });

  it('numbers the blocks of the plan in their order, with their hours', () => {
    const { svg, alt } = mapAt(600);
    const blocks = page('us').plan?.blocks ?? [];
    expect(blocks.length).toBeGreaterThan(0);
    const numbers = [...svg.matchAll(/>(\d): /g)].map(([, number]) => Number(number));
    expect([...numbers].sort()).toEqual(blocks.map((_, i) => i + 1));
    blocks.forEach(({ title }, i) => expect(alt).toContain(`${i + 1}: ${title}, `));
  });

  it('draws more strokes in more wind, and no bank where hardly any blows', async () => {
    const strokes = (svg: string): number =>
      /<path d="([^"]*)" stroke="[^"]*" stroke-width="1.3"/.exec(svg)?.[1]?.length ?? 0;
    const calm = mapAt(600, 'us', await mappedMorning(0.6)).svg;
    const storm = mapAt(600, 'us', await mappedMorning(14)).svg;
    expect(strokes(calm)).toBe(0);
    expect(strokes(storm)).toBeGreaterThan(strokes(mapAt(600).svg));
    expect(calm).not.toContain('banks the wind reaches');
    expect(calm).not.toContain('stroke-width="4.5"');
  });

  it('has only the page’s own colours, which the dark scheme replaces, and no gradient, image or script', () => {
    const { svg } = mapAt(600);
    const own = new Set<string>(Object.values(COLOUR));
    for (const [, colour] of svg.matchAll(/(?:fill|stroke)="(#[0-9A-Fa-f]{6})"/g))
      expect(own).toContain(colour);
    expect(svg).not.toMatch(/gradient|<image|<script|<filter/i);
  });

  it('is told in sentences, and by compass sides alone', () => {
    const { alt } = mapAt(600);
    expect(alt).toMatch(
      /^Map of .+ at \d+ [ap]m\. .+It reaches the [a-z-]+ banks\. .+Ramp: North Landing, open to the/,
    );
    expect(alt).not.toMatch(/windward|leeward|\blee\b|\{\{/i);
  });

  it('stands in the mail as a picture of the same way as the charts, and the sentences in its text', async () => {
    const mail = await renderBriefing(document, { units: 'us', form: 'full' });
    const map = mail.attachments.find(({ filename }) => filename === 'map.png');
    expect(map?.content.subarray(1, 4).toString()).toBe('PNG');
    expect(map?.content.readUInt32BE(16)).toBe(1104);
    expect(mail.html).toContain(`cid:${map?.cid ?? ''}`);
    expect(mail.text).toContain('THE LAKE TODAY');
    expect(mail.text).toMatch(/Waves up to [\d.]+ ft on\s+open water by/);
    expect(mail.html.length).toBeLessThan(80_000);
  });

  it('there is none of a lake without an outline', () => {
    expect(
      lakeMap(
        inUnits(morningNamed('front').document, 'us'),
        { units: 'us', clock: '12h', width: 600 },
        words,
      ),
    ).toBeNull();
  });
});
