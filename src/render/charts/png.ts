/** SVG to PNG with a font of our own: the same bytes on every machine. */
import { Resvg } from '@resvg/resvg-js';
import { FONT_FILES } from '../fonts.ts';

/** Twice the 552 pixels of the column, for sharp screens. */
const PIXEL_WIDTH = 1104;

export function toPng(svg: string): Buffer {
  const image = new Resvg(svg, {
    fitTo: { mode: 'width', value: PIXEL_WIDTH },
    font: { fontFiles: [...FONT_FILES], loadSystemFonts: false, defaultFontFamily: 'Inter' },
    background: '#FFFFFF',
  });
  return image.render().asPng();
}
