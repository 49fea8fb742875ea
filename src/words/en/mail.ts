/** What a mail says to one reader, around the briefing; and the two letters that ask for a confirmation. */
export const mail = {
  others: 'Your other lakes today',
  notOut: (count: number): string =>
    count === 1 ? 'One more is not out yet.' : `${count} more are not out yet.`,
  /** At the top, for who wants to be asked. */
  asks: { words: 'Give a reading of the water', why: 'one field, and it makes tomorrow’s figure surer' },
  /** Lines over an address, in text. */
  foot: {
    outing: 'How was it? A day without fish counts most:',
    subscribe: 'Forwarded to you? Have your own copy:',
    archive: 'Earlier briefings:',
    /** All of this issue; its page leads to the earlier ones. */
    whole: 'The whole page, and earlier days:',
    settings: 'Your settings:',
    leave: 'Stop these mails (asks first):',
  },
  /** Links, with what stands beside them. */
  links: {
    outing: 'Tell how it was',
    outingRest: ': a day without fish counts most.',
    forwarded: 'Forwarded to you?',
    subscribe: 'Have your own copy',
    archive: 'Earlier briefings',
    whole: 'The whole page, and earlier days',
    settings: 'Your settings',
    leave: 'Stop these mails',
  },
  confirm: {
    subject: 'Confirm your morning briefing',
    lines: (link: string): readonly string[] => [
      'Somebody, we hope you, asked for the daily lake conditions briefing at this address.',
      '',
      'To have it, open this page within two days and press the button:',
      link,
      '',
      'Nothing happens when you do nothing. This address is then forgotten.',
    ],
  },
  outings: {
    subject: 'What you told of your days',
    lines: (link: string): readonly string[] => [
      'Somebody who holds one of your briefings asked for what you told of your days on the water.',
      '',
      'This page shows it, your notes too, and lets you take it along or take it back, for seven days:',
      link,
      '',
      'Whoever has this link sees the same: do not forward this mail. If it was not you who asked, nothing was shown to anybody.',
    ],
  },
  leave: {
    subject: 'Stop your morning briefing?',
    lines: (link: string): readonly string[] => [
      'Somebody who holds one of your briefings asked to stop them.',
      '',
      'If that was you, open this page and press the button:',
      link,
      '',
      'Nothing happens when you do nothing. You then keep your briefings. This can happen when a briefing is forwarded.',
    ],
  },
};
