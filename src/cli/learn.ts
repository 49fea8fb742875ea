import type { Command } from 'commander';
import { lakeById, type LakeConfig, loadRules, type RuleBook, tuneRules } from '../config/index.ts';
import type { PipelineContext } from '../schedule/index.ts';
import {
  learnOfLake,
  type LearntOfLake,
  numbersOf,
  type ProposedNumber,
  readerOf,
} from '../schedule/outings/index.ts';
import { countWords, trialSeasons, tryOn } from '../schedule/replay/index.ts';
import { localDateAt } from '../units/time/index.ts';
import { FEWEST, type RuleProposal } from '../outings/index.ts';
import { withContext } from './context.ts';
import { say, writeWhole } from './output.ts';

interface LearnOptions {
  readonly reader?: string;
  readonly out?: string;
  readonly compare: boolean;
}

/** Days of the comparison that are named. */
const NAMED_DAYS = 5;

const factor = (value: number): string => `x${value.toFixed(2)}`;

function effectWords({ rule, ratio, low, high, n, readers }: RuleProposal): string {
  const beside = rule.startsWith('base.') ? ' beside the other places' : '';
  return `${rule}: ${factor(ratio)} of the catch that the shipped rules expect${beside} (80 %: ${factor(low)} to ${factor(high)}), ${n} outings of ${readers} ${readers === 1 ? 'reader' : 'readers'}`;
}

/** What stands above every patch: how it came about, and what it is not. */
function headLines(learnt: LearntOfLake, lake: LakeConfig, today: string): string[] {
  const { n, readers, span, severalPlaces, noMorning, judged, ratioOfAPoint } = learnt;
  const left = [
    ...(severalPlaces === 0 ? [] : [`${severalPlaces} at no or several kinds of place`]),
    ...(noMorning === 0 ? [] : [`${noMorning} of mornings that the record cannot make`]),
  ];
  return [
    `Proposals for ${lake.name} of ${today}, from ${n} outings of ${readers} ${readers === 1 ? 'reader' : 'readers'}${span === null ? '' : `, ${span.from} to ${span.to}`}. Nothing was changed.`,
    ...(left.length === 0 ? [] : [`Left out: ${left.join('; ')}.`]),
    `${judged.length} rules spoke often enough to be judged. A point of the shipped rules went with ${factor(ratioOfAPoint)} of the catch.`,
    'Catches mislead: people fish where they expect fish, on days they like, and tell of good days more readily.',
    'Look at it, keep what you believe: paste under "thresholds:" of the configuration, then "thawline reload".',
  ];
}

/** What `compare` says of the last thirty mornings under the patch. */
async function compareLines(
  ctx: PipelineContext,
  lake: LakeConfig,
  numbers: readonly ProposedNumber[],
): Promise<string[]> {
  const changed: RuleBook = tuneRules(
    ctx.rules,
    Object.fromEntries(numbers.map(({ key, value }) => [key, value])),
  );
  const [season] = trialSeasons(lake, Date.now());
  const { mornings, differences } = await tryOn(ctx, lake, season, [ctx.rules, changed]);
  const command = `thawline compare ${lake.id} --from ${season.from} --to ${season.to} ${numbers.map(({ key, value }) => `--set ${key}=${value}`).join(' ')}`;
  if (mornings === 0)
    return [`The record knows no morning of the last thirty days to compare with. Later: ${command}`];
  const days = differences
    .slice(0, NAMED_DAYS)
    .flatMap(({ date, items }) =>
      items.map(({ what, before, after }) => `${date}, ${what}: ${before} -> ${after}`),
    );
  return [
    `Under it ${differences.length} of the last ${mornings} mornings differ: ${countWords(differences)}.`,
    ...days,
    `All of them: ${command}`,
  ];
}

const comment = (line: string): string => `# ${line}`;

async function learn(lakeId: string, options: LearnOptions, ctx: PipelineContext): Promise<void> {
  const lake = lakeById(ctx.config, lakeId);
  const shipped = loadRules();
  const reader = options.reader === undefined ? undefined : await readerOf(ctx, options.reader);
  const learnt = await learnOfLake(ctx, lake, shipped, reader?.id);
  const today = localDateAt(Date.now(), lake.zone);
  if (learnt.tooFew) {
    const from =
      reader === undefined
        ? `${FEWEST.sharedOutings} shared outings of ${FEWEST.sharedReaders} readers`
        : `${FEWEST.sharedOutings} outings`;
    const left = learnt.severalPlaces + learnt.noMorning;
    say(
      `Too few to learn from: ${learnt.n} outings of ${learnt.readers} ${learnt.readers === 1 ? 'reader' : 'readers'} at one kind of place with a morning to set them beside${left === 0 ? '' : ` (${learnt.severalPlaces} were at no or several kinds of place, of ${learnt.noMorning} the record cannot make the morning)`}; something is proposed from ${from} on.`,
    );
    return;
  }
  const lines = headLines(learnt, lake, today).map(comment);
  const proposed = learnt.proposals.map((proposal) => ({
    proposal,
    numbers: numbersOf(proposal, shipped.positions),
  }));
  const numbers = proposed.flatMap((one) => one.numbers);
  if (numbers.length === 0) {
    say([...lines, comment('No weight is clearly wrong: nothing is proposed.')].join('\n'));
    return;
  }
  if (options.compare) lines.push(...(await compareLines(ctx, lake, numbers)).map(comment));
  const patch = proposed.flatMap((one) => [
    `  # ${effectWords(one.proposal)}`,
    ...one.numbers.map(({ key, was, value }) => `  ${key}: ${value} # shipped: ${was}`),
  ]);
  const text = [...lines, 'thresholds:', ...patch].join('\n');
  if (options.out === undefined) say(text);
  else {
    writeWhole(options.out, `${text}\n`);
    say(options.out);
  }
}

/** `thawline learn`. */
export function addLearnCommand(program: Command): void {
  program
    .command('learn <lake>')
    .description(
      'propose weights of rules that outings speak against, as YAML to look at and paste; nothing is changed',
    )
    .option('--reader <address>', "from one reader's own outings instead of what all share")
    .option('--out <file>', 'file instead of standard output')
    .option('--no-compare', 'leave out the last thirty mornings under the proposal')
    .action((lake: string, options: LearnOptions, command: Command) =>
      withContext(command, (ctx) => learn(lake, options, ctx)),
    );
}
