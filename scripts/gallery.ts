/**
 * Issues the invented mornings and writes them as pages, texts, data and pictures: `npm run gallery [folder]`, default out/gallery.
 */
import { mkdirSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { renderBriefing } from '../src/render/index.ts';
import { countWords, textsOf } from '../tests/helpers/mailWords.ts';
import { issueMorning } from '../tests/helpers/mornings/issue.ts';
import { PLANS } from '../tests/helpers/mornings/plans.ts';

const folder = resolve(process.argv[2] ?? 'out/gallery');
mkdirSync(folder, { recursive: true });
const links: string[] = [];
for (const plan of PLANS) {
  const { name, units = 'us' } = plan;
  const { html, text, json, short, subject, attachments } = await renderBriefing(await issueMorning(plan), {
    units,
    form: 'full',
  });
  const local = attachments.reduce(
    (page, { cid, filename }) => page.replaceAll(`cid:${cid}`, `${name}-${filename}`),
    html,
  );
  writeFileSync(join(folder, `${name}.html`), local);
  writeFileSync(join(folder, `${name}.txt`), `${subject}\n\n${text}\n${short}\n`);
  writeFileSync(join(folder, `${name}.json`), json);
  for (const { filename, content } of attachments)
    writeFileSync(join(folder, `${name}-${filename}`), content);
  process.stdout.write(
    `${name}: ${countWords(textsOf(html).visible)} words as a page, ${countWords(text)} as text, ${countWords(short)} in the short form, without links\n`,
  );
  links.push(
    `<li><a href="${name}.html">${name}</a> (<a href="${name}.txt">text</a>, <a href="${name}.json">data</a>)</li>`,
  );
}
writeFileSync(
  join(folder, 'index.html'),
  `<!doctype html><html lang="en"><meta charset="utf-8"><title>Gallery</title><h1>Invented mornings</h1><ul>${links.join('')}</ul></html>`,
);
process.stdout.write(`${links.length} mornings in ${folder}\n`);
