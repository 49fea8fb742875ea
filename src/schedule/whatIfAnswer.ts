/** Advice for conditions that somebody wrote down: the same way for the command and for the page, gate included. */
import { type Advice, type AdviceOptions, advise } from '../advice/index.ts';
import type { RuleBook } from '../config/index.ts';
import { directionOf, understand, type Understood, type WhatIfForm } from '../advice/whatIf/index.ts';
import { gatePlaces, gatePlan, worldOf, type Fault } from '../gate/index.ts';
import { withPocketSun } from './whatIfPocket.ts';
import { sayAdvice, wordsFor, type AdviceInWords, type Words } from '../words/index.ts';

export interface WhatIfAnswer {
  readonly advice: AdviceInWords;
  readonly understood: Understood;
  /** Statements that the gate did not let through. */
  readonly dropped: readonly Fault[];
}

/**
 * Advice for a checked form.
 *
 * @param planned whether the day is planned by the hour as well
 * @param words   the language of the answer
 */
export function whatIfAnswer(
  form: WhatIfForm,
  rules: RuleBook,
  tackle: AdviceOptions['tackle'],
  planned = true,
  words: Words = wordsFor('en'),
): WhatIfAnswer {
  const said = (advice: Advice): AdviceInWords => sayAdvice(advice, words.ofRules(rules.texts), words);
  const understood = withPocketSun(understand(form), facesOf(form).get('pocket'));
  const { fetchM } = understood.conditions.signals;
  const advice = advise(understood.conditions, rules, {
    tackle,
    ...(planned ? { day: understood.day } : {}),
    ...(form.places === undefined ? {} : { places: form.places }),
    safety: {
      alerts: [],
      alertsChecked: false,
      belowDam: understood.conditions.waterBody === 'tailwater',
      ...(fetchM === undefined ? {} : { fetchM: fetchM.value }),
    },
  });
  if (advice.plan === null) return { advice: said(advice), understood, dropped: [] };
  const world = worldOf(understood.conditions, advice.phase, rules, understood.day, {
    places: form.places,
    limitM: understood.day.limitM,
    faces: facesOf(form),
    safety: advice.safety,
  });
  const { plan, faults } = gatePlan(advice.plan, world);
  const places = gatePlaces(advice.positions, plan);
  return {
    advice: said({ ...advice, plan, positions: places.positions }),
    understood,
    dropped: [...faults, ...places.faults],
  };
}

/** Which way kinds of place are open, degrees, as the form says. */
export function facesOf({ places }: WhatIfForm): ReadonlyMap<string, number> {
  const faces = places === undefined || Array.isArray(places) ? {} : (places.faces ?? {});
  return new Map(
    Object.entries(faces).flatMap(([place, written]) => {
      const facesDeg = directionOf(written);
      return facesDeg === null ? [] : [[place, facesDeg] as const];
    }),
  );
}
