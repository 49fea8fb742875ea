/**
 * Widths of the letters that pictures are drawn with, from the font's own tables (ISO/IEC 14496-22, Open Font Format:
 * `cmap` of format 4, `hhea`, `hmtx`, `head`). Pairs of letters that stand closer are not looked at.
 */
import { readFileSync } from 'node:fs';
import { FONT_FILES } from '../fonts.ts';

interface Font {
  readonly unitsPerEm: number;
  /** Advance of a character in the font's units; null where the font has no such letter. */
  readonly advance: (character: number) => number | null;
}

function readFont(file: Buffer): Font {
  const tables = new Map<string, number>();
  for (let i = 0; i < file.readUInt16BE(4); i += 1) {
    const record = 12 + 16 * i;
    tables.set(file.toString('latin1', record, record + 4), file.readUInt32BE(record + 8));
  }
  const table = (tag: string): number => {
    const at = tables.get(tag);
    if (at === undefined) throw new RangeError(`the font has no table ${tag}`);
    return at;
  };
  const metrics = file.readUInt16BE(table('hhea') + 34);
  const hmtx = table('hmtx');
  const glyphOf = unicodeGlyphs(file, table('cmap'));
  return {
    unitsPerEm: file.readUInt16BE(table('head') + 18),
    advance: (character) => {
      const glyph = glyphOf(character);
      return glyph === 0 ? null : file.readUInt16BE(hmtx + 4 * Math.min(glyph, metrics - 1));
    },
  };
}

/** Glyph of a character by the subtable of segments; 0 where there is none. */
function unicodeGlyphs(file: Buffer, cmap: number): (character: number) => number {
  const subtables = Array.from(
    { length: file.readUInt16BE(cmap + 2) },
    (_, i) => cmap + file.readUInt32BE(cmap + 4 + 8 * i + 4),
  );
  const at = subtables.find((subtable) => file.readUInt16BE(subtable) === 4);
  if (at === undefined) throw new RangeError('the font has no cmap of format 4');
  const segments = file.readUInt16BE(at + 6) / 2;
  const ends = at + 14;
  const starts = ends + 2 * segments + 2;
  const deltas = starts + 2 * segments;
  const ranges = deltas + 2 * segments;
  return (character) => {
    if (character > 0xffff) return 0;
    for (let i = 0; i < segments; i += 1) {
      if (character > file.readUInt16BE(ends + 2 * i)) continue;
      const start = file.readUInt16BE(starts + 2 * i);
      if (character < start) return 0;
      const delta = file.readUInt16BE(deltas + 2 * i);
      const range = file.readUInt16BE(ranges + 2 * i);
      if (range === 0) return (character + delta) & 0xffff;
      const glyph = file.readUInt16BE(ranges + 2 * i + range + 2 * (character - start));
      return glyph === 0 ? 0 : (glyph + delta) & 0xffff;
    }
    return 0;
  };
}

const fonts = new Map<boolean, Font>();

function fontOf(bold: boolean): Font {
  const known = fonts.get(bold) ?? readFont(readFileSync(FONT_FILES[bold ? 1 : 0] ?? ''));
  fonts.set(bold, known);
  return known;
}

/**
 * Width of words in the pictures' font, in the unit of the size.
 *
 * @returns null where the font lacks a letter: another one steps in, and nobody knows how wide it is
 */
export function widthOf(words: string, size: number, bold: boolean): number | null {
  const { advance, unitsPerEm } = fontOf(bold);
  let sum = 0;
  for (const letter of words) {
    const one = advance(letter.codePointAt(0) ?? 0);
    if (one === null) return null;
    sum += one;
  }
  return (sum / unitsPerEm) * size;
}
