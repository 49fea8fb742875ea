import { messagesFor } from '../briefing/index.ts';
import { PERSONAL_MARK } from './html.ts';
import { anchor, isOwnLink } from './links.ts';
import type { RenderedBriefing } from './renderBriefing.ts';

export interface PersonalLinks {
  /** Opens a confirmation; a mail that is forwarded must not let a friend unsubscribe the reader by accident. */
  readonly unsubscribeUrl?: string;
  readonly settingsUrl?: string;
  readonly permalink?: string;
}

/**
 * The briefing with one reader's links. Cheap: two substitutions, nothing is compiled. Addresses that are neither
 * https nor on this machine are left out.
 */
export function personalise(rendered: RenderedBriefing, links: PersonalLinks): RenderedBriefing {
  const m = messagesFor(rendered.language);
  const wanted: readonly (readonly [string, string | undefined])[] = [
    [m.links.permalink, links.permalink],
    [m.links.settings, links.settingsUrl],
    [m.links.unsubscribe, links.unsubscribeUrl],
  ];
  const known = wanted.filter(
    (link): link is readonly [string, string] => link[1] !== undefined && isOwnLink(link[1]),
  );
  if (known.length === 0) return rendered;
  const html = known.map(([words, address]) => anchor(words, address)).join(' · ');
  const text = known.map(([words, address]) => `${words}:\n${address}`).join('\n');
  return {
    ...rendered,
    html: rendered.html.replace(PERSONAL_MARK, () => `<p style="margin:0">${html}</p>`),
    text: `${rendered.text}\n${text}\n`,
  };
}
