import { front } from './front.ts';
import { notes } from './notes.ts';
import { en as page } from './page.ts';

/** Every sentence of the program in English, a file a topic. `facts` holds the catalogues of all rooms. */
export const en = { page, front, facts: { ...notes } };
