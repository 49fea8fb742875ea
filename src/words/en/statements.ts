/** What the signals say, among the facts of all rooms. */
import type { SignalStatement } from '../../signals/index.ts';
import { say, type Catalogue } from '../catalogue.ts';
import { lake } from './lake.ts';
import { en as pockets } from './pockets.ts';
import { en as signals } from './signals.ts';
import { en as water } from './water.ts';

export const statements: Catalogue<SignalStatement> = {
  'signals.source': ({ source }) => say(signals.source, source),
  'signals.gap': ({ gap }) => say(signals.gap, gap),
  'clarity.reason': ({ reason }) => say(water.clarity, reason),
  'lake.today': ({ told }) => say(lake.fact, told),
  'pocket.story': ({ told }) => told.map((fact) => say(pockets.fact, fact)).join(' '),
};
