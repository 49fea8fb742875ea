/** The page that says what each rule rests on. */
import type { Grade, Species } from '../../vocabulary/index.ts';

const kind: Readonly<Record<Grade, string>> = {
  measured: 'measured elsewhere',
  'published-direct': 'published',
  'published-indirect': 'published, of something near it',
  mixed: 'published evidence on both sides',
  'common-practice': 'common practice, no source',
};

const species: Readonly<Record<Species, string>> = {
  largemouth: 'largemouth',
  spotted: 'spotted',
  smallmouth: 'smallmouth',
  mixed: 'mixed',
};

/** What the fish of a species say of one rule. */
export interface VerdictWords {
  readonly species: Species;
  /** Sites it spoke of. */
  readonly n: number;
  readonly says: 'agrees' | 'against' | 'open';
  /** Catch that goes with a point, times, and its interval; text, as shown. */
  readonly ratio: string;
  readonly low: string;
  readonly high: string;
  /** Share of pairs in order without the rule and with all of them, as shown; null where that is not known. */
  readonly order: { readonly without: string; readonly whole: string } | null;
}

const SAYS = {
  agrees: 'fish agree',
  against: 'fish contradict it',
  open: 'fish leave it open',
} as const;

export const evidence = {
  title: 'What each rule rests on',
  kind,
  kindCount: (name: string, count: number): string => `${name} (${count})`,
  intro: (rules: number): string =>
    `Places are ranked by ${rules} rules. Each has a sentence, a weight in points and a kind of evidence; a total ranks places and is no chance of a catch. How well the totals do where fish were counted stands in README, good or bad.`,
  beside: (ours: number, all: number, file: string): string =>
    `Beside these stand what was measured here, on your own lake (“How we have done” in its briefings, with the number of mornings), and what is ours: ${ours} of ${all} hazards have thresholds chosen for this program, printed in ${file}.`,
  /** @param shares of pairs in order, joined by `shareJoint` */
  fish: (sites: number, agrees: number, open: number, against: number, shares: string): string =>
    `Where fish were sampled at random (${sites} sites of river pools, June to October), each rule that spoke at 30 sites or more was set beside the catch: ${agrees} times fish agree, ${open} times they leave it open, ${against} times they contradict. Of two sites, the one scored higher held more bass in ${shares} of pairs in years left out; one half is chance.`,
  share: ({ percent, of }: { readonly percent: string; readonly of: Species }): string =>
    `${percent} % (${species[of]})`,
  shareJoint: ' and ',
  learned: (survey: string): string =>
    `Rules named ${survey} are shown beside the years they were learned from; the others as they would rank alone.`,
  givesWay: (percent: number, rules: string): string =>
    `Where fish were counted, ${percent} % of what those others say of a counted kind of place is left, and nothing of ${rules}, which fish contradict there.`,
  verdict: ({ species: of, n, says, ratio, low, high, order }: VerdictWords): string =>
    `${species[of]}, n = ${n}: ${SAYS[says]}, a point goes with ${ratio} the catch (${low} to ${high})${
      order === null ? '' : `; pairs in order without it ${order.without}, with it ${order.whole}`
    }.`,
  times: (ratio: string): string => `${ratio} times`,
  timesOrMore: (ratio: number): string => `${ratio} times or more`,
  orMore: (ratio: number): string => `${ratio} or more`,
  sources: 'Sources',
  /** As the service wants its data credited: its own words, in every language. */
  credit:
    'Catches: these data are a product of the U.S. Army Corps of Engineers’ Upper Mississippi River Restoration Program (UMRR) Long Term Resource Monitoring (LTRM) element, implemented by the U.S. Geological Survey in collaboration with the five Upper Mississippi River System states of Illinois, Iowa, Minnesota, Missouri and Wisconsin. Provided without warranty; processed here, errors are ours.',
};
