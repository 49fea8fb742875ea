/** SVG to PNG with a font of our own: the same bytes on every machine. */
import { renderAsync } from '@resvg/resvg-js';
import { FONT_FILES } from '../fonts.ts';

/** Twice the 552 pixels of the column, for sharp screens. */
const PIXEL_WIDTH = 1104;

/** Drawn in a thread of its own, so that the pictures of a page are made beside each other. */
export async function toPng(svg: string): Promise<Buffer> {
  const image = await renderAsync(svg, {
    fitTo: { mode: 'width', value: PIXEL_WIDTH },
    font: { fontFiles: [...FONT_FILES], loadSystemFonts: false, defaultFontFamily: 'Inter' },
    background: '#FFFFFF',
  });
  return image.asPng();
}
