/**
 * Writes the invented mornings as pages, texts, data and pictures: `npm run gallery [folder]`, default out/gallery.
 * The pictures of the first morning also go to docs/pictures, where the documentation shows them.
 */
import { mkdirSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { renderBriefing } from '../src/render/index.ts';
import { mornings } from '../tests/helpers/mornings.ts';

const folder = resolve(process.argv[2] ?? 'out/gallery');
mkdirSync(folder, { recursive: true });
const links: string[] = [];
for (const { name, units, document } of mornings()) {
  const { html, text, json, short, subject, attachments } = await renderBriefing(document, {
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
  links.push(
    `<li><a href="${name}.html">${name}</a> (<a href="${name}.txt">text</a>, <a href="${name}.json">data</a>)</li>`,
  );
}
writeFileSync(
  join(folder, 'index.html'),
  `<!doctype html><html lang="en"><meta charset="utf-8"><title>Gallery</title><h1>Invented mornings</h1><ul>${links.join('')}</ul></html>`,
);
const [shown] = mornings();
if (shown !== undefined) {
  const pictures = new URL('../docs/pictures/', import.meta.url);
  mkdirSync(pictures, { recursive: true });
  const { attachments } = await renderBriefing(shown.document, { units: shown.units, form: 'full' });
  for (const { filename, content } of attachments) writeFileSync(new URL(filename, pictures), content);
}
process.stdout.write(`${links.length} mornings in ${folder}\n`);
