/** The page from templates compiled once is, letter for letter, what the mail compiler makes of the whole page. */
import { describe, expect, it } from 'vitest';
import {
  compilePage,
  mjmlOf,
  pageOfParts,
  type BlockTemplate,
  type PageParts,
} from '../../src/render/compiled.ts';
import fc from 'fast-check';

const whole = (parts: PageParts): Promise<string> => compilePage(mjmlOf(parts));

/** Words as they are printed: markup, entities, and what a compiler or a pattern might take for its own. */
const content = fc
  .array(
    fc.constantFrom(
      '<p class="slate" style="margin:0 0 8px">47&nbsp;&deg;F</p>',
      '<table role="presentation"><tr><td>1</td><td>&amp;</td></tr></table>',
      '<img src="cid:day.lake.us@thawline" alt="A &quot;day&quot;" width="552" />',
      'plain words, &lt;mj-text&gt; and $& and $1',
      '&#123;&#123;title&#125;&#125;',
      '\n   <ul>\n  <li>indented</li>\n</ul>',
      '<h2>Été à l’ombre</h2>',
    ),
    { minLength: 1, maxLength: 4 },
  )
  .map((pieces) => pieces.join(''));
const block = fc.record({ template: fc.constantFrom<BlockTemplate>('section', 'hazard'), content });
const parts = fc.record({
  language: fc.constantFrom('en', 'de', 'pt-BR'),
  title: fc.constantFrom('Ossarly: 47 &deg;F', '[DEMO] $1 &amp; $&', 'x'),
  preheader: fc.constantFrom('Be in by 17:45', 'Danger 3 of 4: wind &lt; 20 mph'),
  blocks: fc.tuple(
    content.map((text) => ({ template: 'masthead' as const, content: text })),
    fc.array(block, { maxLength: 9 }),
  ),
});

describe('a page from compiled templates', () => {
  it('is what the compiler makes of the page', async () => {
    await fc.assert(
      fc.asyncProperty(parts, async ({ blocks: [first, rest], ...head }) => {
        const page = { ...head, blocks: [first, ...rest] };
        expect(await pageOfParts(page)).toBe(await whole(page));
      }),
      { numRuns: 40 },
    );
  });

  it('is compiled as a whole where its blocks stand in another order', async () => {
    const page: PageParts = {
      language: 'en',
      title: 'No masthead',
      preheader: 'none',
      blocks: [{ template: 'section', content: '<p>first</p>' }],
    };
    expect(await pageOfParts(page)).toBe(await whole(page));
  });
});
