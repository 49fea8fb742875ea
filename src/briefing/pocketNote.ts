/** Which pocket the figure of the table belongs to, and the hour it is for. */
import type { SignalReport } from '../signals/types.ts';
import { inert } from './headline.ts';
import type { Messages } from '../words/index.ts';
import { clock } from './when.ts';

/** A pocket this much warmer than the leading one is named beside it, K. */
const WARMER_K = 0.5;

/** `Mill Draw, near 14:00.`; undefined where the figure is not that of the leading pocket. */
export function pocketWords({ conditions, pockets }: SignalReport, m: Messages): string | undefined {
  const figure = conditions.signals.pocketC;
  const [lead, ...others] = pockets;
  if (figure === undefined || lead?.warmestHourMs == null || lead.surfaceC.value !== figure.value)
    return undefined;
  const words = [m.pocketRow.when(inert(lead.name), clock(lead.warmestHourMs, conditions.zone))];
  const warmer = others.find(({ surfaceC }) => surfaceC.value > lead.surfaceC.value + WARMER_K);
  if (warmer !== undefined) words.push(m.pocketRow.warmer(inert(warmer.name)));
  return words.join(' ');
}
