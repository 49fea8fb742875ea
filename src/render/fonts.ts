import { fileURLToPath } from 'node:url';

/** The letters of the pictures. TTF only: compressed web fonts are drawn as no text at all, without an error. */
export const FONT_FILES: readonly string[] = ['Inter_400Regular.ttf', 'Inter_700Bold.ttf'].map((file) =>
  fileURLToPath(new URL(`../../templates/fonts/${file}`, import.meta.url)),
);
