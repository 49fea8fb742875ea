import { en as page } from './page.ts';

/** Every sentence of the program in English, a file a room. */
export const en = { page };
