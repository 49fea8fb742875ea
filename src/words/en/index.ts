import type { RuleText } from '../../config/index.ts';
import { advice } from './advice.ts';
import { adviceStatements, toldCast, toldHazard } from './adviceStatements.ts';
import { archive } from './archive.ts';
import { calendar } from './calendar.ts';
import { doubts } from './doubts.ts';
import { evidence } from './evidence.ts';
import { front } from './front.ts';
import { lake } from './lake.ts';
import { mail } from './mail.ts';
import { notes } from './notes.ts';
import { en as page } from './page.ts';
import { en as pockets } from './pockets.ts';
import { outingProblem } from './outingFaults.ts';
import { outingPage } from './outingPage.ts';
import { outings } from './outings.ts';
import { planWords as plan } from './plan.ts';
import { readingPage } from './readingPage.ts';
import { refusals } from './refusals.ts';
import { safety } from './safety.ts';
import { en as signals } from './signals.ts';
import { statements } from './statements.ts';
import { tendency } from './tendency.ts';
import { tune } from './tune.ts';
import { en as water } from './water.ts';
import { web } from './web.ts';
import { whatIf } from './whatIf.ts';

/** Every sentence of the program in English, a file a topic. `facts` holds the catalogues of all rooms. */
export const en = {
  page,
  front,
  lake,
  plan,
  calendar,
  mail,
  outings,
  cast: toldCast,
  advice,
  safety: { told: toldHazard, notChecked: safety.notChecked },
  tendency,
  water,
  doubts,
  signals,
  pockets,
  web,
  archive,
  outingPage,
  outingProblem,
  readingPage,
  evidence,
  tune,
  whatIf,
  refusal: refusals,
  facts: (text: RuleText) => ({ ...notes, ...statements, ...adviceStatements(text) }),
  /** The rules' words of a document, of its tables by language. */
  ofRules: (tables: Readonly<Record<string, RuleText>>): RuleText => tables['en'] ?? {},
};
