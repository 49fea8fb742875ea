import { type RuleText, SAFETY_QUANTITIES } from '../../config/index.ts';
import type { NotChecked } from '../../advice/index.ts';
import type { ToldHazard as Hazard } from '../../briefing/index.ts';
import { inert, quantity, quantityRange } from '../../units/index.ts';
import type { Catalogue } from '../catalogue.ts';
import type { HazardWords } from '../inWords.ts';
import { ruleWords } from '../ruleWords.ts';
import { localMoment } from './moment.ts';
import { capital } from '../letters.ts';
import { pointOf } from './plan.ts';

type ByCode<F extends { readonly code: string }, T> = {
  readonly [C in F['code']]: (fact: Extract<F, { code: C }>) => T;
};

/** `Sat 21 Mar, 12:00 CDT`. */
function localTime(atMs: number, zone: string): string {
  const { date, clock, offset } = localMoment(atMs, zone);
  return `${date}, ${clock} ${offset}`;
}

const numberOf = ({ quantity: name, value, to }: Judged): string => {
  const kind = SAFETY_QUANTITIES[name];
  return to === undefined ? quantity(kind, value) : quantityRange(kind, value, to);
};

/** A number that a danger was judged by, SI; `to` where only the worse end of its interval reaches the class. */
type Judged = Pick<Extract<Hazard, { code: 'class' }>, 'quantity' | 'value' | 'to'>;

/** A milder hazard in the block of a severer one: its number, where its row has words for that. */
function briefly(hazard: Hazard, text: RuleText): string | null {
  if (hazard.code !== 'class') return null;
  return text[`safety.${hazard.id}.brief`]?.replaceAll('{value}', numberOf(hazard)) ?? null;
}

/** The side of the water that the words of a hazard leave open: by the compass where the wind's direction is known. */
function sided(words: string, fromDeg: number | undefined): string {
  if (!words.includes('{')) return words;
  const banks = fromDeg === undefined ? '' : `${pointOf(fromDeg + 180)} `;
  return words
    .replace(/^\{banksOfWind\}/, capital(`${banks}banks that the wind blows onto`))
    .replaceAll('{banksOfWind}', `the ${banks}banks that the wind blows onto`)
    .replaceAll(
      '{shelteredBank}',
      fromDeg === undefined
        ? 'the sheltered bank, the one the wind comes from,'
        : `the sheltered ${pointOf(fromDeg)} bank, the one the wind comes from,`,
    )
    .replaceAll(
      '{endOfWind}',
      fromDeg === undefined ? 'the end the wind blows towards' : `its ${pointOf(fromDeg + 180)} end`,
    );
}

function hazardWords(text: RuleText, windFromDeg?: number): ByCode<Hazard, HazardWords> {
  const said = (key: string): string => sided(ruleWords(text, `safety.${key}`), windFromDeg);
  const place = (row: string) => ({ where: said(`${row}.where`), when: said(`${row}.when`) });
  return {
    class: (fact) => {
      const { id, className } = fact;
      const fill = (field: string): string =>
        said(`${id}.${className}.${field}`).replaceAll('{value}', numberOf(fact));
      return {
        label: said(`${id}.label`),
        headline: `${said(`${id}.label`)}: ${fill('headline')}`,
        what: fill('what'),
        doThis: fill('do'),
        ...place(id),
      };
    },
    unknown: ({ row }) => ({
      label: said(`${row}.label`),
      headline: `${said(`${row}.label`)}: unknown, so not safe`,
      what: said(`${row}.unknown`),
      doThis:
        text[`safety.${row}.unknownDo`] ??
        'Find out before you launch; until then take the danger to be there.',
      ...place(row),
    }),
    together: ({ id, numbers = [] }) => ({
      label: said(`${id}.label`),
      headline: `${said(`${id}.label`)}: ${said(`${id}.headline`)}`,
      what: numbers.reduce(
        (words, number) => words.replaceAll(`{${number.quantity}}`, numberOf(number)),
        said(`${id}.what`),
      ),
      doThis: said(`${id}.do`),
      ...place(id),
    }),
    flood: ({ category }) => ({
      label: said('flood.label'),
      headline: `${said('flood.label')}: ${said(`flood.${category}.headline`)}`,
      what: said(`flood.${category}.what`),
      doThis: said(`flood.${category}.do`),
      ...place('flood'),
    }),
    official: ({ event, headline, instruction, endsMs, zone }) => ({
      label: 'OFFICIAL',
      headline: `OFFICIAL: ${inert(event)}`,
      what: inert(headline === '' ? event : headline),
      doThis: instruction === '' ? said('official.do') : inert(instruction),
      where: said('official.where'),
      when: endsMs === null ? 'Until the issuer ends it.' : `Until ${localTime(endsMs, zone)}.`,
    }),
  };
}

const notCheckedWords = (text: RuleText): Catalogue<NotChecked> => ({
  hazard: ({ row }) => ruleWords(text, `safety.${row}.unknown`),
  thunderBySigns: () =>
    'Nobody gives a chance of thunder here. The weather model’s storms and the energy of the air were looked at instead; both miss some. Listen and look.',
  air: () => 'Air temperature is unknown: neither heat, wind chill nor ice at the ramp was judged.',
  humidity: () =>
    'Humidity is unknown, so the heat index was not computed; hot air is judged as if it were moist.',
  flood: () => ruleWords(text, 'safety.flood.unknown'),
  alerts: () => ruleWords(text, 'safety.official.unchecked'),
});

/** A hazard with its numbers, and the milder ones of its block told briefly behind it. */
function told(text: RuleText, hazard: Hazard): HazardWords {
  // As in `say`: key and code are the same by construction.
  const speak = hazardWords(text, hazard.windFromDeg)[hazard.code] as (fact: Hazard) => HazardWords;
  const words = speak(hazard);
  const briefs = (hazard.also ?? [])
    // What the severer one has named is not named again.
    .filter((milder) => milder.code !== 'class' || !words.what.includes(numberOf(milder)))
    .flatMap((milder) => briefly(milder, text) ?? []);
  return { ...words, what: [words.what, ...briefs].join(' ') };
}

/** What is said of dangers. Hazards say the words that come with the rules. */
export const safety = { told, notChecked: notCheckedWords };
