/** SVG to PNG with a font of our own: the same bytes on every machine. */
import { createRequire } from 'node:module';
import { Resvg } from '@resvg/resvg-js';

const require = createRequire(import.meta.url);

// TTF only: compressed web fonts are drawn as no text at all, without an error.
const FONT_FILES = ['400Regular/Inter_400Regular.ttf', '700Bold/Inter_700Bold.ttf'].map((file) =>
  require.resolve(`@expo-google-fonts/inter/${file}`),
);

/** Twice the 552 pixels of the column, for sharp screens. */
const PIXEL_WIDTH = 1104;

export function toPng(svg: string): Buffer {
  const image = new Resvg(svg, {
    fitTo: { mode: 'width', value: PIXEL_WIDTH },
    font: { fontFiles: FONT_FILES, loadSystemFonts: false, defaultFontFamily: 'Inter' },
    background: '#FFFFFF',
  });
  return image.render().asPng();
}
