/** Scores of past issues as lines for the operator: every item with its number of outcomes, also where they are few. */
import type { LakeConfig, RuleBook } from '../config/index.ts';
import { type LeadLesson, LESSON_FROM } from '../water/index.ts';
import { formatQuantity, type UnitSystem } from '../units/index.ts';
import {
  ERROR_KIND,
  FEWEST_OUTCOMES,
  kindsOfRules,
  type Item,
  type ItemScore,
  type Tally,
  type Verification,
} from '../verification/index.ts';

const NAME: Readonly<Record<Item, string>> = {
  water: 'water, main lake',
  waterAhead: 'water, three days ahead',
  level: 'level, 24 h ahead',
  air: 'air, fishing hours',
  wind: 'wind, fishing hours',
};
const HELD: Readonly<Record<Item, string>> = {
  water: 'last reading held',
  waterAhead: 'last reading held',
  level: 'no change',
  air: 'day before held',
  wind: 'day before held',
};

const percent = (share: number): string => String(Math.round(share * 100));
const tally = ({ hits, of, low, high }: Tally): string =>
  `${hits} of ${of} (90 % interval ${percent(low)} to ${percent(high)} %)`;

function lines(score: ItemScore, units: UnitSystem): string[] {
  const { item, n, meanError, meanAbsError, heldMeanAbsError, inside, direction, heldDirection } = score;
  const show = (value: number, signed = false): string =>
    formatQuantity(value, ERROR_KIND[item], units, signed);
  const few = n < FEWEST_OUTCOMES ? `; not in the briefing below ${FEWEST_OUTCOMES}` : '';
  return [
    `${NAME[item]}: ${n} ${n === 1 ? 'outcome' : 'outcomes'}${few}`,
    `  mean absolute error ${show(meanAbsError)}, mean error ${show(meanError, true)}; ${HELD[item]}: ${show(heldMeanAbsError)}`,
    ...(inside ? [`  inside the stated 80 % interval ${tally(inside)}`] : []),
    ...(direction && heldDirection
      ? [`  direction right ${tally(direction)}; ${HELD[item]}: ${heldDirection.hits}`]
      : []),
  ];
}

/** What each kind of statement rests on, with the number of cases or rules. */
function kinds({ scores }: Verification, rules: RuleBook): string[] {
  const { places, hazards } = kindsOfRules(rules);
  const measured = scores.map(({ item, n }) => `${NAME[item]} ${n}`).join('; ');
  const { fish } = rules;
  const sites = fish === undefined ? '' : `, ${fish.events} sampled sites`;
  return [
    'What the statements rest on:',
    `  measured here: ${measured === '' ? 'nothing yet' : `outcomes of ${measured}`}`,
    `  measured elsewhere: places in a river pool from mid-June to October (${places.elsewhere} rules${sites}); the models of water before your readings`,
    `  published: places (${places.published} rules); hazards (${hazards.published}, some with steps of ours)`,
    `  practice: places (${places.practice} rules), lures; no source`,
    `  ours: hazards (${hazards.ours})`,
    '  Every rule with its kind, and what sampled fish say of it: page /evidence',
  ];
}

/** What past outlooks of the water taught, by days ahead. */
function lessons(outlook: readonly LeadLesson[], units: UnitSystem): string[] {
  const compared = outlook.filter(({ issues }) => issues > 0);
  if (compared.length === 0) return [];
  return [
    'water in the days ahead, as the model had it before any correction:',
    ...compared.map(({ fromDays, toDays, issues, learned, biasC, spread }) => {
      const what = learned
        ? `taken off ${formatQuantity(biasC, 'temperatureError', units, true)}, range times ${spread.toFixed(2)}`
        : `fewer than ${LESSON_FROM}: nothing taken off, range as on other lakes`;
      return `  days ${fromDays} to ${toDays}: ${issues} ${issues === 1 ? 'issue' : 'issues'} compared, ${what}`;
    }),
  ];
}

export function scoreText(
  lake: Pick<LakeConfig, 'name'>,
  found: Verification & { readonly outlook: readonly LeadLesson[] },
  units: UnitSystem,
  rules: RuleBook,
): string {
  const { issues, scores } = found;
  if (issues === 0) return [`${lake.name}: no issue to score yet.`, ...kinds(found, rules)].join('\n');
  const head = `${lake.name}: ${issues} ${issues === 1 ? 'issue' : 'issues'} beside what was measured after ${issues === 1 ? 'it' : 'them'}.`;
  const none = scores.length === 0 ? ['Nothing was measured that could be compared with them.'] : [];
  return [
    head,
    ...none,
    ...scores.flatMap((score) => lines(score, units)),
    ...lessons(found.outlook, units),
    ...kinds(found, rules),
  ].join('\n');
}
