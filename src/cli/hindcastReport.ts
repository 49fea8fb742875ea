import type { HindcastScore, Score } from './hindcastScore.ts';

/** What `hindcast` prints; the same object is its JSON. */
export interface HindcastReport {
  readonly out: string;
  readonly days: number;
  readonly firstDate: string;
  readonly lastDate: string;
  readonly daysWithoutEstimate: number;
  readonly readings: number;
  readonly readingLagDays: number;
  readonly refused: readonly { readonly date: string; readonly waterC: number; readonly reason: string }[];
  readonly score: HindcastScore | null;
}

const MOST_REFUSED_SHOWN = 10;

export function reportText(report: HindcastReport): string {
  const lines = [
    `${report.days} days from ${report.firstDate} to ${report.lastDate} written to ${report.out}` +
      (report.daysWithoutEstimate > 0
        ? `; ${report.daysWithoutEstimate} days of weather without an estimate.`
        : '.'),
    `${report.readings} readings, used ${report.readingLagDays} day(s) after they were taken.`,
  ];
  const { score } = report;
  if (score === null) lines.push('No reading falls on a day with an estimate, so there is nothing to score.');
  else {
    lines.push('', 'degC                            days    RMSE    bias  in 80 % interval');
    lines.push(line('model, all days', score.model, score.model.coverage));
    for (const age of score.byReadingAge) lines.push(line(ageName(age.readingAge), age, age.coverage));
    lines.push(...pair('last reading held', score.persistence, score.modelWherePersistence));
    lines.push(...pair('day-of-year mean', score.dayOfYearMean, score.modelWhereDayOfYearMean));
  }
  if (report.refused.length > 0) {
    lines.push('', `${report.refused.length} reading(s) doubted or refused:`);
    for (const r of report.refused.slice(0, MOST_REFUSED_SHOWN))
      lines.push(`  ${r.date} ${r.waterC} °C: ${r.reason}`);
    if (report.refused.length > MOST_REFUSED_SHOWN) lines.push('  ... the whole list with --json');
  }
  return `${lines.join('\n')}\n`;
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
