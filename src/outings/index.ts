/** What readers say of their days: judged, counted, compared. Pure; rows are kept in `record`. */
export { type Aspect, type PlannedPlaces, type Window } from './groups.ts';
export { compareOutings, FEWEST, type Comparison, type OutingReport, type Told } from './compare.ts';
export { OUTING_COLUMNS, outingsCsv, outingsJson } from './export.ts';
export { unguarded } from './formulas.ts';

export { kindsOf, namedPlaces } from './places.ts';
export { ratesOf, type Catch, type Rate } from './rates.ts';
export { readOuting, type OutingContext, type ReadOuting } from './read.ts';
export { UNTOLD, type OutingFault, type OutingProblem, type WrittenOuting } from './written.ts';
export { learnFrom, type LearnRow, type Learnt, type RulePart, type RuleProposal } from './learn/propose.ts';
