import { describe, expect, it } from 'vitest';
import { cardOf } from '../../src/advice/cards.ts';
import { presentAt, type Presented } from '../../src/advice/presentation/index.ts';
import { castFacts } from '../../src/briefing/adviceFacts.ts';
import type { LureBook } from '../../src/config/rulesLures.ts';
import { castDrawing } from '../../src/render/charts/cast.ts';
import { pageOf, wordsFor, type PageCast } from '../../src/words/index.ts';
import { book, conditions, FT, place, tackle } from '../advice/presentation/day.ts';
import { mornings } from '../helpers/mornings.ts';
import { sampleBriefing, sampleFacts } from '../helpers/sampleBriefing.ts';
import { sampleAdvice, SAMPLE_CARD } from '../helpers/sampleReport.ts';

const words = wordsFor('en');

/** The one class of a family that is offered at a place, and the cast as a page has it. */
function castWith(lure: string, where: string, band: readonly [number, number], rules: LureBook = book) {
  const classes = rules.classes.filter(({ id }) => id === lure);
  const [cast] = presentAt(
    conditions({ waterC: 14, clarityM: 1.5 }),
    place(where, [band[0] * FT, band[1] * FT]),
    { ...rules, classes, situations: [] },
    tackle,
  );
  if (cast === undefined) throw new Error(`no ${lure} at ${where}`);
  return { cast, page: pageCast(cast) };
}

function pageCast(cast: Presented): PageCast {
  const facts = sampleFacts();
  if (facts.status === 'nil') throw new Error('the sample is nil');
  const [said] = pageOf({ ...facts, casts: [castFacts(cardOf(cast))] }, words).casts;
  if (said === undefined) throw new Error('the page has no cast');
  return said;
}

interface Section {
  /** Corners of the drawn way: m from the landing, m deep, by the two ends of the cast. */
  readonly way: readonly (readonly [number, number])[];
  readonly texts: string;
  readonly alt: string;
}

/** The section without the view from above, which lies in a group of its own. */
function sideView(page: PageCast): { readonly svg: string; readonly alt: string } {
  const { svg, alt } = castDrawing(page, 'us', words) ?? { svg: '', alt: '' };
  return { svg: svg.slice(0, svg.indexOf('<g transform')), alt };
}

/** What is drawn, measured with the landing point and the rod above the boat for a rule. */
function section(page: PageCast): Section {
  const { svg, alt } = sideView(page);
  const landing = /<circle cx="([\d.]+)" cy="([\d.]+)"/.exec(svg);
  const rod = /<path d="M([\d.]+) [\d.]+L[^"]*"[^>]*stroke-dasharray="2 3"/.exec(svg);
  if (landing === null || rod === null) throw new Error('no landing or no rod');
  const [x, y] = [Number(landing[1]), Number(landing[2])];
  const perMetre = (Number(rod[1]) - x) / page.castLengthM;
  const drawn = /<path d="([^"]*)" fill="none" stroke="#A84300" stroke-width="3"/.exec(svg)?.[1] ?? '';
  const way = [...drawn.matchAll(/[ML]([-\d.]+) ([-\d.]+)/g)].map(
    ([, across, down]) => [(Number(across) - x) / perMetre, (Number(down) - y) / perMetre] as const,
  );
  return { way, alt, texts: [...svg.matchAll(/<text[^>]*>([^<]*)</g)].map(([, t]) => t).join('\n') };
}

/** A corner as drawn: pixels are rounded to a hundredth, which is below 1 mm here. */
const near = (corner: readonly [number, number] | undefined, along: number, deep: number): void => {
  expect(corner?.[0]).toBeCloseTo(along, 2);
  expect(corner?.[1]).toBeCloseTo(deep, 2);
};

describe('the cast from the side', () => {
  it('draws a lure that dives and is lifted at the slopes of the rules', () => {
    const { cast, page } = castWith('jerkbait', 'secondary_point', [5, 7]);
    if (cast.family !== 'suspending') throw new Error('not suspending');
    const { way, texts } = section(page);
    const { diveSlope, riseLengthPerDepth } = book.settings;
    const deepM = cast.runningDepthM;
    expect(way).toHaveLength(4);
    near(way[1], deepM / diveSlope, deepM);
    near(way[2], cast.castLengthM - riseLengthPerDepth * deepM, deepM);
    near(way[3], cast.castLengthM, 0);
    expect(texts).toMatch(/runs at \d/);
  });

  it('follows the rules when somebody changes them', () => {
    const steeper = { ...book, settings: { ...book.settings, diveSlope: 0.4 } };
    const { cast, page } = castWith('jerkbait', 'secondary_point', [5, 7], steeper);
    if (cast.family !== 'suspending') throw new Error('not suspending');
    near(section(page).way[1], cast.runningDepthM / 0.4, cast.runningDepthM);
  });

  it('lays a lure for the bottom on it, as far as the card says, and does not say that it runs at a depth', () => {
    const { cast, page } = castWith('jig', 'channel_swing_bank', [4, 8]);
    if (cast.family !== 'bottom' || cast.contact === null) throw new Error('not on the bottom');
    const { way, texts, alt } = section(page);
    const slope = (cast.boatDepthM - cast.castDepthM) / cast.castLengthM;
    near(way[1], 0, cast.castDepthM);
    near(way[2], cast.contact.toM, cast.castDepthM + slope * cast.contact.toM);
    near(way[3], cast.castLengthM, 0);
    expect(`${texts} ${alt}`).not.toMatch(/runs at [\d.]+ ft/);
    expect(texts).toMatch(/lies in [\d.]+ to [\d.]+ ft of water/);
    expect(alt).toMatch(/The lure lies in .* It touches bottom/);
  });

  it('counts a sinking lure down where it lands and does not let it dive', () => {
    const { cast, page } = castWith('lipless crankbait', 'secondary_point', [4, 8]);
    if (cast.family !== 'sinking' || cast.down === null) throw new Error('not counted down');
    const { way } = section(page);
    near(way[0], 0, 0);
    near(way[1], 0, cast.down.countS * cast.down.fallMs);
  });

  it('leaves a surface lure on the surface, and says so', () => {
    const { page } = castWith('topwater', 'secondary_point', [1, 4]);
    const { way, texts } = section(page);
    for (const [, deep] of way) expect(deep).toBeCloseTo(0, 2);
    expect(texts).toContain('stays on the surface');
    expect(texts).not.toMatch(/runs at/);
  });

  it('of every morning is the way that its document holds', () => {
    const casts = mornings().flatMap(({ document }) => document.casts.filter((c) => c.castLengthM >= 3));
    expect(casts.length).toBeGreaterThan(10);
    for (const cast of casts) {
      const { way } = section(cast);
      expect(way).toHaveLength(cast.path?.length ?? -1);
      for (const [i, corner] of (cast.path ?? []).entries()) near(way[i], corner.alongM, corner.depthM);
    }
  });

  it('of an issue before, which kept no way, shows only what it did keep', () => {
    const { page } = castWith('jig', 'channel_swing_bank', [4, 8]);
    const { path: _, family: __, ...before } = page;
    const touching = sideView(before);
    expect(touching.svg).toContain('stroke-width="7"');
    expect(touching.svg).not.toMatch(/stroke="#A84300" stroke-width="3"|runs at/);
    const clear = { ...before, contactFromM: null, contactToM: null };
    expect(section(clear).way.map(([, deep]) => deep)).toEqual([
      expect.closeTo(before.runningDepthM, 2),
      expect.closeTo(before.runningDepthM, 2),
    ]);
  });

  it('is not drawn for a lure worked under the boat', () => {
    const [vertical] = sampleBriefing({
      advice: sampleAdvice({
        presentations: [{ ...SAMPLE_CARD, castLengthM: 0, contactFromM: null, contactToM: null }],
      }),
    }).casts;
    expect(vertical === undefined ? 'missing' : castDrawing(vertical, 'us', words)).toBeNull();
  });
});

describe('the cast from above', () => {
  const casts = mornings().flatMap(({ document }) => document.casts.filter((c) => c.castLengthM >= 3));
  const corners = (d = ''): (readonly [number, number])[] =>
    [...d.matchAll(/[ML]([-\d.]+) ([-\d.]+)/g)].map(([, x, y]) => [Number(x), Number(y)] as const);

  it('has the bank at the angle of the cast, as far off as a plane bank is that deep', () => {
    let drawn = 0;
    for (const cast of casts) {
      const svg = castDrawing(cast, 'metric', words)?.svg ?? '';
      const above = svg.slice(svg.indexOf('<g transform'));
      const [from, to] = corners(
        /<path d="([^"]*)" fill="none" stroke="#1B1F23" stroke-width="2.5"/.exec(above)?.[1],
      );
      const [end, landing] = corners(/<path d="([^"]*)" fill="none" stroke="#A84300"/.exec(above)?.[1]);
      if (end === undefined || landing === undefined) throw new Error('no cast from above');
      const perMetre = (end[0] - landing[0]) / cast.castLengthM;
      const offM = cast.castDepthM / Math.tan((Math.max(cast.bankDeg, 0.5) * Math.PI) / 180);
      if (from === undefined || to === undefined) {
        // Out of the picture, which ends above the cast.
        expect(offM * perMetre).toBeGreaterThan(landing[1] * Math.cos((cast.castAngleDeg * Math.PI) / 180));
        continue;
      }
      drawn += 1;
      const [east, north] = [to[0] - from[0], from[1] - to[1]];
      const angle = ((Math.atan2(north, east) * 180) / Math.PI + 180) % 180;
      expect(Math.abs(angle - cast.castAngleDeg)).toBeLessThan(0.1);
      const off = (north * (landing[0] - from[0]) + east * (landing[1] - from[1])) / Math.hypot(east, north);
      expect(Math.abs(off)).toBeCloseTo(offM * perMetre, 0);
    }
    expect(drawn).toBeGreaterThan(5);
  });

  it('draws nothing far out of the picture: what is cut off is drawn all the same, and took four times as long', () => {
    for (const cast of casts) {
      const { svg } = castDrawing(cast, 'metric', words) ?? { svg: '' };
      for (const [x, y] of [...svg.matchAll(/ d="([^"]*)"/g)].flatMap(([, d]) => corners(d))) {
        expect(Math.abs(x - 300)).toBeLessThanOrEqual(310);
        expect(y).toBeGreaterThanOrEqual(-10);
      }
    }
  });
});
