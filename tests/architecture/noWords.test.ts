/** A sentence for a reader stands in the catalogue: the lint notices one that does not. */
import { ESLint } from 'eslint';
import { expect, it } from 'vitest';

const eslint = new ESLint();

/** What the rule finds in a text that stands at a path; the rules that need types are not asked. */
async function found(path: string, text: string): Promise<string[]> {
  const config = (await eslint.calculateConfigForFile(path)) as { plugins: object };
  const alone = new ESLint({
    overrideConfigFile: true,
    overrideConfig: [
      {
        files: ['**/*.ts'],
        languageOptions: { parser: (await import('typescript-eslint')).parser },
        plugins: config.plugins as ESLint.Plugin as never,
        rules: { 'house/no-words': 'error' },
      },
    ],
  });
  const [result] = await alone.lintText(text, { filePath: path });
  return (result?.messages ?? []).map(({ message }) => /"(.*?)"/.exec(message)?.[1] ?? message);
}

it.each([
  ['const a = "No answer today.";', ['No answer']],
  ['const a = `Kept: ${n} of them`;', ['of them']],
  ['const a = ok ? "Saved." : "";', ['Saved.']],
  ['const a = html`<p>Kept</p>`;', ['Kept']],
  ['const a = html`<input aria-label="Hour ${n}" />`;', ['Hour']],
  ['const a = html`<p class="a">${words.kept}</p><a href="/what-if?x=${n}">${words.more}</a>`;', []],
  ['const a = html`<code>thawline reload</code> ${n}&nbsp;· Thawline`;', []],
  ['throw new ThawlineError("usage", "There is no such lake here.");', []],
  ['const a = field.describe("local time you begin");', []],
  ['if (what === "first place") go("text/plain; charset=utf-8");', []],
])('%s', async (text, said) => {
  expect(await found('src/web/outing.ts', text)).toEqual(said);
});

it.each(['web', 'signals', 'advice', 'briefing', 'water', 'outings', 'verification'])(
  'it is on in src/%s',
  async (room) => {
    const { rules } = (await eslint.calculateConfigForFile(`src/${room}/index.ts`)) as {
      rules: Record<string, unknown>;
    };
    expect(rules['house/no-words']).toEqual([2]);
  },
);
