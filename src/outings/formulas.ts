/** Texts that a spreadsheet would compute, kept from it on the way out and given back as they were on the way in. */

/** What begins a formula, in the wide form of the same signs too, as OWASP lists them (CSV Injection). */
const BEGINS = /^'*[=+\-@\t\r\n\uFF1D\uFF0B\uFF0D\uFF20]/;
const MARKED = /^'+[=+\-@\t\r\n\uFF1D\uFF0B\uFF0D\uFF20]/;

/** With a mark before it; one that has marks already gets one more, so that each comes back as it was. */
export const guarded = (text: string): string => (BEGINS.test(text) ? `'${text}` : text);

/** Without the mark that {@link guarded} sets. */
export const unguarded = (text: string): string => (MARKED.test(text) ? text.slice(1) : text);
