/** What a reader is told where something they asked for is not done, and how to mend it. */
import type { Catalogue } from '../catalogue.ts';
import type { Refusal } from '../refusal.ts';

export const refusals: Catalogue<Refusal> = {
  'wish.lakes': ({ known, others }) =>
    `Choose at least one of the lakes ${known.join(', ')}${others ? '; one that was asked for is not among them' : ''}.`,
  'wish.days': () => 'Choose at least one day of the week, 1 (Monday) to 7 (Sunday).',
  'wish.earliest': () => 'The earliest hour must be a whole hour from 0 to 12.',
  'wish.language': ({ known }) => `The language is one of ${known.join(', ')}.`,
  'wish.hours': () =>
    'The hours you fish are two local times at full or half hours, the later one last, for example 06:00 and 11:00.',
  address: () => 'This is not a mail address: give one address of the form name@example.org.',
  'lake.none': () => 'There is no such lake here. Open the link from the newest mail.',
  'reader.resting': () =>
    'This reader gets no briefings at present, so outings cannot be told for them. Nothing was stored.',
  'lake.notTheirs': ({ lake, theirs }) =>
    `This reader does not read the briefing of ${lake} (but of ${theirs.join(', ')}): tell the outing for one of those, or add the lake in the reader's settings. Nothing was stored.`,
  'outing.toldBefore': ({ date }) =>
    `An outing of ${date} with the same hours and places was told before, with other results. Take that one back first, or give each its own hours. Nothing was stored.`,
  'outing.overlaps': ({ date }) =>
    `Its hours overlap those of another outing of ${date}, and an hour can be fished once. Correct the hours, or take the other back. Nothing was stored.`,
  'outing.tooManyHours': ({ date, hours }) =>
    `With it ${date} would have ${hours.toFixed(1)} hours of fishing; correct the hours. Nothing was stored.`,
};
