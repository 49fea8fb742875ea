/** What became of the mails, as a line and as an exit code: a mail that did not arrive is never "done". */
import type { DrainReport } from '../delivery/index.ts';
import type { Undelivered } from '../record/delivery/index.ts';
import { ThawlineError } from '../units/index.ts';

const counted = (n: number, what: string): string[] => (n === 0 ? [] : [`${n} ${what}`]);

/** `12 delivered, 3 to be tried again` */
export function outcomeLine({ sent, failed, dropped }: DrainReport, left: Undelivered): string {
  return [
    `${sent} delivered`,
    ...counted(failed, 'failed for good'),
    ...counted(dropped, 'dropped as too late'),
    ...counted(left.waiting, 'wait for another attempt'),
    ...counted(left.held, 'held by another sender'),
    ...counted(left.later, 'wait for the hour their readers chose'),
  ].join(', ');
}

/**
 * @throws ThawlineError `mail` with the counts when mails failed, were dropped, wait for a limit or another attempt, or
 *   lie under somebody else's lease
 */
export function demandDelivered(report: DrainReport, left: Undelivered): void {
  const { failed, dropped, pausedUntilMs } = report;
  if (failed + dropped + left.waiting + left.held === 0 && pausedUntilMs === null) return;
  const rest =
    left.waiting + left.held > 0
      ? ' `thawline run`, or `thawline run --deliver-only` in a few minutes, sends what waits.'
      : '';
  const pause =
    pausedUntilMs === null ? '' : ` Delivery rests until ${new Date(pausedUntilMs).toISOString()}.`;
  throw new ThawlineError(
    'mail',
    `Not everybody has it: ${outcomeLine(report, left)}.${pause}${rest} \`thawline status\` and the log say why.`,
    { retryable: left.waiting + left.held > 0 },
  );
}
