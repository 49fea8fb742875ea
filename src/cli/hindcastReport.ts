import { LONGEST_BRIDGED_GAP_DAYS } from '../water/index.ts';
import type { HindcastScore, Score } from './hindcastScore.ts';

/** What `hindcast` prints; the same object is its JSON. */
export interface HindcastReport {
  readonly out: string;
  readonly days: number;
  readonly firstDate: string;
  readonly lastDate: string;
  /** Days without air temperature, as empty fields or missing lines, that have an estimate all the same. */
  readonly daysBridged: number;
  /** Days of the calendar between the first line of weather and the last that have none. */
  readonly daysWithoutEstimate: number;
  readonly readings: number;
  /** Readings with a time, which were converted to the mean of their day at 1 m. */
  readonly readingsConverted: number;
  readonly readingLagDays: number;
  readonly refused: readonly { readonly date: string; readonly waterC: number; readonly reason: string }[];
  /** Scored days on which the model doubted or refused a reading; they count in the scores like all others. */
  readonly scoredDaysDoubted: number;
  readonly score: HindcastScore | null;
}

const MOST_REFUSED_SHOWN = 10;

export function reportText(report: HindcastReport): string {
  const lines = [
    `${report.days} days from ${report.firstDate} to ${report.lastDate} written to ${report.out}.`,
    ...gapLines(report),
    `${report.readings} readings, used ${report.readingLagDays} day(s) after they were taken.`,
  ];
  if (report.readingsConverted > 0)
    lines.push(
      `${report.readingsConverted} of them have a time: they are compared as the mean of their day at 1 m, converted as the model does.`,
    );
  if (report.score === null)
    lines.push('No reading falls on a day with an estimate, so there is nothing to score.');
  else lines.push(...scoreLines(report, report.score));
  if (report.refused.length > 0) {
    lines.push('', `${report.refused.length} reading(s) doubted or refused:`);
    for (const r of report.refused.slice(0, MOST_REFUSED_SHOWN))
      lines.push(`  ${r.date} ${r.waterC} °C: ${r.reason}`);
    if (report.refused.length > MOST_REFUSED_SHOWN) lines.push('  ... the whole list with --json');
  }
  return `${lines.join('\n')}\n`;
}

function gapLines({ daysBridged, daysWithoutEstimate }: HindcastReport): string[] {
  const longest = `${LONGEST_BRIDGED_GAP_DAYS} days on end`;
  return [
    ...(daysBridged > 0
      ? [`${daysBridged} day(s) without air temperature bridged (up to ${longest}), with a wider interval.`]
      : []),
    ...(daysWithoutEstimate > 0
      ? [
          `${daysWithoutEstimate} day(s) without an estimate: no air temperature yet, or none for more than ${longest}, after which the model starts anew.`,
        ]
      : []),
  ];
}

function scoreLines(report: HindcastReport, score: HindcastScore): string[] {
  const { model, byReadingAge } = score;
  return [
    '',
    'degC                            days    RMSE    bias  in 80 % interval',
    line('model, all days', model, model.coverage),
    ...byReadingAge.map((age) => line(ageName(age.readingAge), age, age.coverage)),
    ...(report.readingLagDays === 0
      ? [
          'last reading held: left out, for with --reading-lag 0 it is the reading it would be compared with; the model has',
          '  seen that reading, too, so its own score tells how it follows readings, not how it foretells.',
        ]
      : pair('last reading held', score.persistence, score.modelWherePersistence)),
    ...pair('day-of-year mean', score.dayOfYearMean, score.modelWhereDayOfYearMean),
    `On ${report.scoredDaysDoubted} of the ${model.days} days scored the model doubted or refused a reading; they count like all others.`,
  ];
}

function ageName(age: string): string {
  return age === 'none' ? '  no reading yet' : `  reading ${age} day(s) old`;
}

function pair(name: string, other: Score | null, model: Score | null): string[] {
  if (other === null || model === null) return [`${name}: not enough readings`];
  return [line(name, other), line('  model on the same days', model)];
}

function line(name: string, score: Score, coverage?: number): string {
  const share = coverage === undefined ? '' : `${(100 * coverage).toFixed(0)} %`.padStart(8);
  return `${name.padEnd(28)}${String(score.days).padStart(8)}${score.rmseC.toFixed(2).padStart(8)}${score.biasC.toFixed(2).padStart(8)}${share}`;
}
