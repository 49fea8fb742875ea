/** SVG to PNG with a font of our own: the same bytes on every machine. */
import { FONT_FILES } from '../fonts.ts';

/** Twice the 552 pixels of the column, for sharp screens. */
const PIXEL_WIDTH = 1104;

type Drawer = typeof import('@resvg/resvg-js');
let drawer: Promise<Drawer> | undefined;

/**
 * For a process that lives on: the drawing library's allocator (mimalloc) keeps what a picture once needed, some 200 MB,
 * for as long as the process lives, unless it is told before it is loaded to give memory back at once; measured by
 * bench/run-memory.ts. A command that draws and ends is left alone: giving back takes it longer than drawing.
 */
export function giveBackAfterDrawing(): void {
  process.env['MIMALLOC_PURGE_DELAY'] ??= '0';
}

/** The drawing library, loaded at the first picture. */
function loadDrawer(): Promise<Drawer> {
  return (drawer ??= import('@resvg/resvg-js'));
}

/** Drawn in a thread of its own, so that the pictures of a page are made beside each other. */
export async function toPng(svg: string): Promise<Buffer> {
  const { renderAsync } = await loadDrawer();
  const image = await renderAsync(svg, {
    fitTo: { mode: 'width', value: PIXEL_WIDTH },
    font: { fontFiles: [...FONT_FILES], loadSystemFonts: false, defaultFontFamily: 'Inter' },
    background: '#FFFFFF',
  });
  return image.asPng();
}
