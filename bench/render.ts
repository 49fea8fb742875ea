/**
 * Briefings rendered per second: compiled once per lake and unit system and personalised, against compiled for every
 * reader; and the share of the time that goes into pictures. One run, one process, so that the ratio means something.
 */
import { wordsFor } from '../src/words/index.ts';
import { toPng } from '../src/render/charts/png.ts';
import { drawPictures } from '../src/render/pictures.ts';
import { personalise, type PersonalLinks } from '../src/delivery/index.ts';
import { inUnits, renderBriefing } from '../src/render/index.ts';
import { sampleBriefing } from '../tests/helpers/sampleBriefing.ts';

const view = { units: 'us', form: 'full' } as const;
const document = sampleBriefing();
const links = (i: number): PersonalLinks => ({
  leave: `https://example.org/leave?t=${i}`,
  settings: `https://example.org/settings?t=${i}`,
  subscribe: 'https://example.org/subscribe',
  archive: 'https://example.org/i/1',
  outing: 'https://example.org/outing',
  reading: 'https://x.example/reading?t=r',
});
const seconds = async (work: () => Promise<void> | void): Promise<number> => {
  const start = performance.now();
  await work();
  return (performance.now() - start) / 1000;
};

await renderBriefing(document, view); // warm up
const EVERY = 20;
const ONCE = 5000;

const compiledForEvery = await seconds(async () => {
  for (let i = 0; i < EVERY; i += 1) personalise(await renderBriefing(document, view), links(i));
});
const compiledOnce = await seconds(async () => {
  const rendered = await renderBriefing(document, view);
  for (let i = 0; i < ONCE; i += 1) personalise(rendered, links(i));
});
const words = wordsFor('en');
const local = inUnits(document, 'us');
const pictures = await seconds(async () => {
  for (let i = 0; i < EVERY; i += 1)
    await Promise.all(drawPictures(local, { units: 'us', clock: '24h' }, words).map(({ svg }) => toPng(svg)));
});

const [slow, fast] = [EVERY / compiledForEvery, ONCE / compiledOnce];
const report = {
  readers: ONCE,
  compiledForEveryReaderPerSecond: Math.round(slow * 10) / 10,
  compiledOncePerSecond: Math.round(fast),
  ratio: Math.round(fast / slow),
  shareOfOneRenderingInPictures: Math.round((pictures / compiledForEvery) * 100) / 100,
};
process.stdout.write(`${JSON.stringify(report, null, 2)}\n`);
