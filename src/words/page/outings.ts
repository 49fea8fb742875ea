/** Rates of outings as lines of text, with how many they rest on. */
import type { OutingFacts } from '../../briefing/index.ts';
import { FEWEST, type Aspect, type OutingReport, type Rate } from '../../outings/index.ts';
import type { Words } from '../languages.ts';

/** Two digits: no rate of outings is known better. */
const figure = (perHour: number): string =>
  perHour >= 9.95 ? perHour.toFixed(0) : perHour >= 0.95 ? perHour.toFixed(1) : perHour.toFixed(2);

function groupName(aspect: Aspect, group: string, words: Words, names: OutingNames): string {
  const named: Readonly<Record<'agreement' | 'window', Readonly<Record<string, string>>>> = {
    agreement: words.outings.agreement,
    window: words.outings.window,
  };
  if (aspect === 'place' || aspect === 'lure') return names[aspect](group);
  return named[aspect][group] ?? group;
}

const rateLine = (name: string, { perHour, low, high, n, hours }: Rate, words: Words): string =>
  words.outings.rate(name, figure(perHour), figure(low), figure(high), n, hours.toFixed(0));

export interface OutingNames {
  readonly place: (kind: string) => string;
  readonly lure: (lure: string) => string;
}

export interface OutingPart {
  readonly heading: string;
  readonly lines: readonly string[];
}

/**
 * What outings say, a part an aspect; where they are too few, only that.
 *
 * @param names what kinds of place and classes of lure are called
 */
export function outingParts(
  report: OutingReport,
  whose: 'shared' | 'own',
  words: Words,
  names: OutingNames,
): OutingPart[] {
  const w = words.outings;
  const heading = whose === 'own' ? w.own : w.heading;
  if (!report.enough) {
    const few =
      whose === 'own'
        ? w.tooFewOwn(report.n, FEWEST.outings)
        : w.tooFewShared(report.n, report.readers, FEWEST.sharedOutings, FEWEST.sharedReaders);
    return [{ heading, lines: [few] }];
  }
  const head = [
    w.count(report.n, report.readers, report.blank),
    ...(report.whole === null ? [] : [rateLine(w.all, report.whole, words)]),
    w.caution,
  ];
  return [
    { heading, lines: head },
    ...report.comparisons
      .filter(({ groups }) => groups.length > 0)
      .map(({ aspect, groups, silent }): OutingPart => {
        const lines = groups.map((rate) => {
          const name = groupName(aspect, rate.group, words, names);
          return rate.enough ? rateLine(name, rate, words) : w.tooFew(name, rate.n, FEWEST.outings);
        });
        return { heading: w.aspect[aspect], lines: silent === 0 ? lines : [...lines, w.silent(silent)] };
      }),
  ];
}

/** One sentence of a briefing: where the plan said, and elsewhere; and why neither is a promise. */
export function toldLine({ followed, elsewhere, n, readers }: OutingFacts, words: Words): string {
  const w = words.outings;
  const part = (name: string, rate: OutingFacts['followed']): string =>
    w.toldPart(name, figure(rate.perHour), figure(rate.low), figure(rate.high), rate.n);
  return `${w.told(part(w.agreement.followed, followed), part(w.agreement.elsewhere, elsewhere), n, readers)} ${w.caution}`;
}
