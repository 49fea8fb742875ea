export { type LearntOfLake, type ProposedNumber, learnOfLake, numbersOf } from './learn.ts';
export { readerOf } from './readerOf.ts';
export { outingReport } from './report.ts';
export { refuseStranger, takeOutings } from './take.ts';
