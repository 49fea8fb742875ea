import type { RuleText } from '../../config/ruleText.ts';
import type { TendencyFact, TriggerFact } from '../../advice/types.ts';
import type { Catalogue } from '../catalogue.ts';
import { ruleWords } from './advice.ts';

const becauseWords = (text: RuleText): Catalogue<TendencyFact> => ({
  noChange: () => 'no significant change in what moves the fish',
  setsIn: ({ rule }) => ruleWords(text, rule),
  eases: ({ rule }) => `${ruleWords(text, rule)}, but less so than today`,
  // Some ends have words of their own, where "the end of" does not fit.
  ends: ({ rule }) => text[`${rule}.ends`] ?? `the end of ${ruleWords(text, rule)}`,
});

const triggerWords: Catalogue<TriggerFact> = {
  declining: ({ heat }) =>
    heat
      ? 'Better if cloud, wind or a cool inflow comes.'
      : 'Better if the cooling stays away or a warm rain comes instead.',
  improving: ({ heat }) =>
    heat
      ? 'It would end if the heat stays or the wind drops.'
      : 'It would end with a cold clear night or a hard drop in air temperature.',
  steady: ({ heat }) =>
    heat
      ? 'A cooler spell or moving water would lift it; more heat would lower it.'
      : 'A run of warming days or a warm rain would lift it; a front would lower it.',
};

/** What is said of the days ahead. */
export const tendency = { because: becauseWords, trigger: triggerWords };
