export { type Season, backFill, checkSeason } from './backFill.ts';
export { type ReplayedMorning, replaySeason, rulesWith } from './season.ts';
export { type DayDifference, compareSeasons, countDifferences, countWords } from './seasonCompare.ts';
export { type SeasonDay, seasonDay } from './seasonDay.ts';
export { type Trial, trialSeasons, tryOn } from './trial.ts';
