import type { RuleText } from '../../config/index.ts';
import type { AirTurn, TendencyFact, TriggerFact } from '../../advice/index.ts';
import { quantity } from '../../units/index.ts';
import type { Catalogue } from '../catalogue.ts';
import { ruleWords } from '../ruleWords.ts';
import { localMoment } from './moment.ts';

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

/** `Mon 9 Mar 14:00`. */
function moment(atMs: number, zone: string): string {
  const { date, clock } = localMoment(atMs, zone);
  return `${date} ${clock}`;
}

const weekday = (date: string): string =>
  new Intl.DateTimeFormat('en-GB', { timeZone: 'UTC', weekday: 'short' }).format(
    Date.parse(`${date}T12:00:00Z`),
  );

/** By when a change is over is told where that is another day than the one it begins on. */
function turn(way: 'down' | 'up', { atMs, zone, changeC, byDate }: AirTurn): string {
  const air = `air ${way} ${quantity('temperatureDifference', changeC)}`;
  const by = weekday(byDate);
  if (atMs === null) return `${air} by ${by}`;
  const begins = moment(atMs, zone);
  return begins.startsWith(by) ? `${begins}: ${air}` : `${begins}: ${air} by ${by}`;
}

const turnWords: Catalogue<AirTurn> = {
  airFalls: (fact) => turn('down', fact),
  airRises: (fact) => turn('up', fact),
};

/** What is said of the days ahead. */
export const tendency = {
  because: becauseWords,
  trigger: triggerWords,
  turn: turnWords,
  /** @param name of the hazard that sets the level */
  danger: (level: number, name: string): string => `level ${level} of 4, ${name}`,
  /** @param parts clauses of one day */
  day: (parts: readonly string[]): string => parts.join('; '),
};
