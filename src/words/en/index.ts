import { advice } from './advice.ts';
import { front } from './front.ts';
import { notes } from './notes.ts';
import { en as page } from './page.ts';
import { presentationWords } from './presentation.ts';
import { planWords as plan } from './plan.ts';
import { safety } from './safety.ts';
import { tendency } from './tendency.ts';

/** Every sentence of the program in English, a file a topic. `facts` holds the catalogues of all rooms. */
export const en = {
  page,
  front,
  plan,
  presentation: presentationWords,
  advice,
  safety,
  tendency,
  facts: { ...notes },
};
