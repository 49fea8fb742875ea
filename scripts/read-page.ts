// Reads a page as a stranger would and says what cannot be: sentences told twice, hours outside the fishing hours, a
// lure below the bottom, ranges upside down, one quantity with two values.
//
//   npx tsx scripts/read-page.ts document.json [...]     documents as `thawline record export` and the archive keep them
import { readFileSync } from 'node:fs';
import { inUnits, renderBriefing } from '../src/render/index.ts';
import type { UnitSystem } from '../src/units/index.ts';
import { readArchived, toPage, wordsFor, type BriefingPage } from '../src/words/index.ts';

/** Shorter ones are labels and repeat rightly: "Cloud, 50 %". */
const LEAST_WORDS = 5;

const sentencesOf = (text: string): string[] =>
  text
    .replace(/\n\n/g, '. ')
    .replace(/\s+/g, ' ')
    .split(/(?<=[.!?])\s+(?=[A-Z0-9"-])/)
    .map((sentence) => sentence.replace(/^[-\d.\s]+/, '').trim())
    .filter((sentence) => sentence.split(' ').length >= LEAST_WORDS);

function toldTwice(text: string, page: BriefingPage): string[] {
  // Marks of a demonstration stand at both ends on purpose.
  const marks = new Set(page.marks);
  const seen = new Set<string>();
  return sentencesOf(text).flatMap((sentence) => {
    if (marks.has(sentence)) return [];
    if (seen.has(sentence)) return [`told twice: ${sentence}`];
    seen.add(sentence);
    return [];
  });
}

function outsideTheHours({ plan }: BriefingPage): string[] {
  if (plan?.fishing == null) return [];
  const { fromMs, toMs } = plan.fishing;
  const blocks = plan.blocks
    .filter((block) => block.fromMs < fromMs || block.toMs > toMs || block.toMs <= block.fromMs)
    .map(({ from, to }) => `outside the fishing hours: ${from} to ${to}`);
  const late = plan.beInMs !== null && plan.beInMs > toMs ? ['told to be in after the fishing hours'] : [];
  const again = plan.blocks.some(({ fromMs: begins }) => plan.beInMs !== null && begins >= plan.beInMs);
  const goneIn = again && plan.beIn.startsWith('Be in by') ? ['a block after the hour to be in'] : [];
  const overlapping = plan.blocks.flatMap((block, i) => {
    const next = plan.blocks[i + 1];
    return next !== undefined && next.fromMs < block.toMs ? [`two places at ${next.from}`] : [];
  });
  const closed = plan.blocks.flatMap((block) =>
    plan.closed
      .filter((one) => one.fromMs < block.toMs && one.toMs > block.fromMs)
      .map(({ from }) => `a block in hours that are closed from ${from}`),
  );
  return [...blocks, ...late, ...goneIn, ...overlapping, ...closed];
}

function throughTheBottom({ plan, casts }: BriefingPage): string[] {
  return [...(plan?.blocks.map(({ cast }) => cast) ?? []), ...casts]
    .filter(
      ({ castDepthM, boatDepthM, runningDepthM }) => runningDepthM > Math.max(castDepthM, boatDepthM) + 0.05,
    )
    .map(({ lureClass }) => `${lureClass}: runs below the bottom`);
}

/** `12 to 5 ft`: a range whose second number is the smaller one. Times, dates and ranks have no unit behind them. */
const upsideDown = (text: string): string[] =>
  [
    ...text
      .replace(/\s+/g, ' ')
      .matchAll(/(?<![\d:.])(-?\d+(?:\.\d+)?) to (-?\d+(?:\.\d+)?) (?:ft|m|mph|°[CF]|in|mm|lb|kg)\b/g),
  ]
    .filter(([, low, high]) => Number(low) > Number(high))
    .map(([range]) => `upside down: ${range}`);

/** What the front says of the water stands in the table with the same number. */
function twoValues(text: string, page: BriefingPage): string[] {
  const lake = page.front?.water.find(({ what }) => /^lake\b/.test(what))?.value;
  const row = /^ {2}Lake {5}(\S+ °[CF])/m.exec(text)?.[1];
  return lake === undefined || lake === '' || row === undefined || row === lake
    ? []
    : [`the lake is ${lake} on the front and ${row} in the table`];
}

/** What a stranger would stumble over in one page; empty when nothing. */
export async function stumbles(documentJson: string, units: UnitSystem): Promise<string[]> {
  const document = readArchived(documentJson);
  const page = toPage(document, wordsFor('en'));
  // As it is mailed, and all of it.
  const texts = await Promise.all(
    (['mail', 'web'] as const).map(
      async (detail) =>
        (await renderBriefing(document, { units, form: 'full', pictures: false, detail })).text,
    ),
  );
  const found = [
    ...outsideTheHours(page),
    ...throughTheBottom(page),
    ...texts.flatMap((text) => [
      ...toldTwice(text, page),
      ...upsideDown(text),
      ...twoValues(text, inUnits(page, units)),
    ]),
  ];
  return [...new Set(found)];
}

if (import.meta.url === new URL(process.argv[1] ?? '', 'file:').href) {
  let found = 0;
  for (const path of process.argv.slice(2))
    for (const units of ['us', 'metric'] as const)
      for (const line of await stumbles(readFileSync(path, 'utf8'), units)) {
        found += 1;
        console.log(`${path} (${units}): ${line}`);
      }
  process.exitCode = found > 0 ? 1 : 0;
}
