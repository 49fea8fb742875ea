import { readFileSync } from 'node:fs';

export type TemplateName = 'briefing' | 'section' | 'hazard' | 'masthead';

/** Template text, read each time so that the preview shows an edit at once; a few kilobytes. */
export const templateText = (name: TemplateName): string =>
  readFileSync(new URL(`../../templates/${name}.mjml`, import.meta.url), 'utf8');

/**
 * Fills the `{{slot}}` marks of a template in one pass, so that a value can never be read as a slot.
 * Values must be escaped by the caller.
 */
export function fillTemplate(name: TemplateName, slots: Readonly<Record<string, string>>): string {
  return templateText(name).replace(/\{\{(\w+)\}\}/g, (mark, slot: string) => {
    const value = slots[slot];
    if (value === undefined)
      throw new RangeError(`templates/${name}.mjml asks for ${mark}, which nothing fills`);
    return value;
  });
}
