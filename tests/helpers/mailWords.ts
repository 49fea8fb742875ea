/**
 * Words of a mail, counted as a reader meets them: what stands between blanks and holds a letter or a digit is one word,
 * so "47 °F" are two, "6.8:1" is one, and an address is one. Counted apart are words nobody sees beside the pictures:
 * their alternative texts, and the preheader, which a mailbox shows in its list.
 */
export const countWords = (text: string): number =>
  text.split(/\s+/).filter((word) => /[\p{L}\p{N}]/u.test(word)).length;

export interface MailWords {
  readonly visible: string;
  readonly alternative: string;
  readonly preheader: string;
}

/** The texts of a mail's HTML part. */
export function textsOf(html: string): MailWords {
  const body = html.replace(/^[^]*?<body[^<>]*>/, '').replace(/<!--[^]*?-->/g, '');
  const [hidden = ''] = /<div style="display:none[^]*?<\/div>/.exec(body) ?? [];
  return {
    visible: plain(body.replace(hidden, '')),
    alternative: [...body.matchAll(/ alt="([^"]*)"/g)].map(([, alt]) => alt ?? '').join('\n'),
    preheader: plain(hidden),
  };
}

const plain = (html: string): string =>
  html
    .replace(/<[^>]*>/g, ' ')
    .replace(/&(?:nbsp|#160);/g, ' ')
    .replace(/&lt;/g, '<')
    .replace(/&gt;/g, '>')
    .replace(/&quot;|&#34;/g, '"')
    .replace(/&#39;/g, "'")
    .replace(/&amp;|&#38;/g, '&');
