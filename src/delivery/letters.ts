/** The two letters that ask for a confirmation. Plain text only: nothing to load, nothing to hide. */
import type { RenderedMail } from './types.ts';

const HOLD = 'Nothing happens when you do nothing.';

export function confirmLetter(link: string): RenderedMail {
  return plain('Confirm your morning briefing', [
    'Somebody, we hope you, asked for the daily lake conditions briefing at this address.',
    '',
    'To have it, open this page within two days and press the button:',
    link,
    '',
    `${HOLD} This address is then forgotten.`,
  ]);
}

export function leaveLetter(link: string): RenderedMail {
  return plain('Stop your morning briefing?', [
    'Somebody who holds one of your briefings asked to stop them.',
    '',
    'If that was you, open this page and press the button:',
    link,
    '',
    `${HOLD} You then keep your briefings. This can happen when a briefing is forwarded.`,
  ]);
}

function plain(subject: string, lines: readonly string[]): RenderedMail {
  return { subject, html: '', text: [...lines, ''].join('\n'), short: '', attachments: [] };
}
