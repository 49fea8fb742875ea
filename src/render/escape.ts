const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** Text made safe for HTML content and attributes. Every string on the page goes through here. */
export const escapeHtml = (text: string): string =>
  text.replace(/[&<>"']/g, (sign) => ENTITIES[sign] ?? sign);

const SIGNS = new Map(Object.entries(ENTITIES).map(([sign, entity]) => [entity, sign]));

/** What was made safe, as it was. */
export const unescapeHtml = (text: string): string =>
  text.replace(/&(?:amp|lt|gt|quot|#39);/g, (entity) => SIGNS.get(entity) ?? entity);

/** Text whose lines and indentation must survive, as in an official statement. */
export const escapeVerbatim = (text: string): string =>
  escapeHtml(text.replaceAll('\r\n', '\n'))
    .replace(/^ +/gm, (spaces) => '&#160;'.repeat(spaces.length))
    .replaceAll('\n', '<br />');
