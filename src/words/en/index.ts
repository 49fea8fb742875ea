import type { RuleText } from '../../config/ruleText.ts';
import { advice } from './advice.ts';
import { adviceStatements, toldCast, toldHazard } from './adviceStatements.ts';
import { calendar } from './calendar.ts';
import { front } from './front.ts';
import { lake } from './lake.ts';
import { notes } from './notes.ts';
import { en as page } from './page.ts';
import { en as pockets } from './pockets.ts';
import { outings } from './outings.ts';
import { planWords as plan } from './plan.ts';
import { safety } from './safety.ts';
import { en as signals } from './signals.ts';
import { statements } from './statements.ts';
import { tendency } from './tendency.ts';
import { en as water } from './water.ts';

/** Every sentence of the program in English, a file a topic. `facts` holds the catalogues of all rooms. */
export const en = {
  page,
  front,
  lake,
  plan,
  calendar,
  outings,
  cast: toldCast,
  advice,
  safety: { told: toldHazard, notChecked: safety.notChecked },
  tendency,
  water,
  signals,
  pockets,
  facts: (text: RuleText) => ({ ...notes, ...statements, ...adviceStatements(text) }),
  /** The rules' words of a document, of its tables by language. */
  ofRules: (tables: Readonly<Record<string, RuleText>>): RuleText => tables['en'] ?? {},
};
