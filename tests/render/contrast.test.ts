import { describe, expect, it } from 'vitest';
import { readFileSync } from 'node:fs';
import { COLOUR } from '../../src/render/style.ts';

/** Relative luminance and contrast ratio: W3C, WCAG 2.2, https://www.w3.org/TR/WCAG22/#dfn-contrast-ratio (formula from memory). */
function luminance(hex: string): number {
  const [r = 0, g = 0, b = 0] = [1, 3, 5].map((i) => {
    const c = parseInt(hex.slice(i, i + 2), 16) / 255;
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}
function contrast(a: string, b: string): number {
  const [light, dark] = [luminance(a), luminance(b)].sort((x, y) => y - x);
  return ((light ?? 0) + 0.05) / ((dark ?? 0) + 0.05);
}

describe('contrast', () => {
  it('agrees with the extremes of the definition', () => {
    expect(contrast('#000000', '#FFFFFF')).toBeCloseTo(21, 5);
    expect(contrast('#777777', '#777777')).toBe(1);
  });

  it.each(['ink', 'slate', 'blue', 'vermillion'] as const)(
    'of %s is at least 4.5 on white and on the hazard fill',
    (name) => {
      expect(contrast(COLOUR[name], COLOUR.white)).toBeGreaterThanOrEqual(4.5);
      expect(contrast(COLOUR[name], COLOUR.fill)).toBeGreaterThanOrEqual(4.5);
    },
  );

  it('of every colour of the dark rules is at least 4.5 on both dark grounds', () => {
    const template = readFileSync(new URL('../../templates/briefing.mjml', import.meta.url), 'utf8');
    const grounds = [
      ...template.matchAll(/(?<!(?:mark|panel) \{ )background-color: (#[0-9a-f]{6}) !important/g),
    ].map(([, hex]) => hex ?? '');
    const inks = [...template.matchAll(/\{ color: (#[0-9a-f]{6}) !important/g)].map(([, hex]) => hex ?? '');
    expect(inks).toHaveLength(4);
    expect(grounds).toHaveLength(2);
    for (const ground of grounds) {
      for (const ink of inks)
        expect(contrast(ink, ground), `${ink} on ${ground}`).toBeGreaterThanOrEqual(4.5);
    }
  });
});
