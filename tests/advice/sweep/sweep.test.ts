// A guide reads plans of days that were thrown together: none may hold what the trade would not do. Common practice, no
// source, unless a line names one; the numbers of the classes are those of the rules.
import { describe, expect, it } from 'vitest';
import { whatIfSchema } from '../../../src/advice/whatIf/index.ts';
import { whatIfAnswer, type WhatIfAnswer } from '../../../src/schedule/whatIfAnswer.ts';
import type { PlanBlock } from '../../../src/advice/plan/types.ts';
import { numbers } from '../../gate/random.ts';
import { rules, TACKLE, type Form } from '../support.ts';
import { wildDay } from './days.ts';
import { objections } from './guide.ts';

/** Long form: npm run test:long. */
const DAYS = process.env['THAWLINE_LONG'] === undefined ? 150 : 5000;
const SEED = 20_261_127;

const answer = (form: Form): WhatIfAnswer => whatIfAnswer(whatIfSchema.parse(form), rules, TACKLE);

function eachDay(count: number, seed: number, look: (form: Form) => void): void {
  const next = numbers(seed);
  for (let day = 0; day < count; day += 1) look(wildDay(next));
}

/** The same with every quantity in another unit, as exact as a number is written. */
function inUsUnits(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(inUsUnits);
  if (typeof value === 'object' && value !== null)
    return Object.fromEntries(Object.entries(value).map(([key, entry]) => [key, inUsUnits(entry)]));
  const match = typeof value === 'string' ? /^(-?[\d.]+) (C|m\/s|mm|m)$/.exec(value) : null;
  if (match === null) return value;
  const number = Number(match[1]);
  switch (match[2]) {
    case 'C':
      return `${number * 1.8 + 32} F`;
    case 'm/s':
      return `${number / 0.44704} mph`;
    case 'mm':
      return `${number / 25.4} in`;
    default:
      return `${number / 0.3048} ft`;
  }
}

/** A number as the day writes it, without its unit; NaN where it is not given. */
const numberIn = (group: unknown, field: string): number =>
  parseFloat((group as Readonly<Record<string, string | undefined>>)[field] ?? '');

/** Differences are degrees too, without the zero of the scale. */
function usForm(form: Form): Form {
  const us = inUsUnits(form) as Form & { water: Form };
  const changeC = numberIn(form['water'], 'change7d');
  return Number.isNaN(changeC) ? us : { ...us, water: { ...us.water, change7d: `${changeC * 1.8} F` } };
}

function shuffled(value: unknown, next: () => number): unknown {
  if (Array.isArray(value)) return value.map((entry) => shuffled(entry, next));
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value)
      .map(([key, entry]) => ({ key, entry: shuffled(entry, next), at: next() }))
      .sort((a, b) => a.at - b.at)
      .map(({ key, entry }) => [key, entry]),
  );
}

const actedButDepth = (given: WhatIfAnswer | undefined): unknown =>
  given?.advice.plan?.blocks.map(({ from, to, place, lure, because }) => ({
    from,
    to,
    place,
    lure: lure.lureClass,
    weightG: lure.weightG,
    because: because.map(({ code }) => code),
  }));

/** What of a plan a reader acts on. */
const acted = (given: WhatIfAnswer): unknown => [
  actedButDepth(given),
  given.advice.plan?.blocks.map(({ depthM }) => depthM),
];

/** The highest level of a day without that of fog, which wind takes away. */
const levelButFog = ({ advice }: WhatIfAnswer): number =>
  Math.max(0, ...advice.safety.hazards.filter(({ id }) => id !== 'fog').map(({ level }) => level));

/** Blocks of two plans with one lure at one place. */
function alike(a: WhatIfAnswer, b: WhatIfAnswer): { a: PlanBlock; b: PlanBlock }[] {
  return (a.advice.plan?.blocks ?? []).flatMap((block) => {
    const other = b.advice.plan?.blocks.find(
      ({ place, lure, fromMs }) =>
        place === block.place && lure.lureClass === block.lure.lureClass && fromMs === block.fromMs,
    );
    return other === undefined ? [] : [{ a: block, b: other }];
  });
}

describe('a wild day', () => {
  it(
    'has a plan that no guide would shake their head at, and nothing for the gate to hold back',
    { timeout: 1_800_000 },
    () => {
      let planned = 0;
      /** Days of which the gate held something back: the page is right, the plan was not. */
      const held: string[] = [];
      eachDay(DAYS, SEED, (form) => {
        const { advice, understood, dropped } = answer(form);
        if (dropped.length > 0) held.push(JSON.stringify({ dropped, form }));
        if (advice.plan === null) return;
        if (advice.plan.blocks.length > 0) planned += 1;
        expect(objections(advice.plan, understood), JSON.stringify(form)).toEqual([]);
      });
      expect(planned).toBeGreaterThan(DAYS / 2);
      expect(held).toEqual([]);
    },
  );

  // The gate read hours at their beginning, and uncut by the light: of rain that ran off within one it knew nothing, and an
  // evening's fall of the air was a front's.
  it.each([2597, 2944])('is read by the gate as by the plan: draw %d', (draw) => {
    const days: Form[] = [];
    eachDay(draw + 1, SEED, (form) => days.push(form));
    const { advice, dropped } = answer(days.at(-1) ?? {});
    expect(advice.plan?.blocks.length).toBeGreaterThan(0);
    expect(dropped).toEqual([]);
  });

  it(
    'is the same day in feet and in metres, and whatever the order of its fields',
    { timeout: 1_800_000 },
    () => {
      const next = numbers(3);
      eachDay(DAYS / 5, SEED + 1, (form) => {
        const as = acted(answer(form));
        expect(acted(answer(usForm(form))), JSON.stringify(form)).toEqual(as);
        expect(acted(answer(shuffled(form, next) as Form)), JSON.stringify(form)).toEqual(as);
      });
    },
  );

  it('is the same when an hour is given again that changes nothing', { timeout: 1_800_000 }, () => {
    eachDay(DAYS / 5, SEED + 2, (form) => {
      const hours = form['hours'] as Form[] | undefined;
      const last = hours?.at(-1);
      if (hours === undefined || last === undefined || String(last['at']) >= '23:30') return;
      const [once, twice] = [form, { ...form, hours: [...hours, { at: '23:50' }] }].map((one) => answer(one));
      const depths = (given: WhatIfAnswer | undefined): number[] =>
        given?.advice.plan?.blocks.flatMap(({ depthM }) => depthM) ?? [];
      expect(actedButDepth(twice), JSON.stringify(form)).toEqual(actedButDepth(once));
      // The sun of an hour is that of its middle, which has moved by minutes: a printed tenth of a metre.
      for (const [at, depthM] of depths(twice).entries())
        expect(Math.abs(depthM - (depths(once)[at] ?? NaN)), JSON.stringify(form)).toBeLessThan(0.11);
    });
  });

  it(
    'asks for no faster pace and no shorter pause of one lure at one place where the water is colder',
    { timeout: 1_800_000 },
    () => {
      let compared = 0;
      eachDay(DAYS / 3, SEED + 3, (form) => {
        const water = form['water'] as Form;
        const colder = {
          ...form,
          water: { ...water, main: `${Math.max(0, numberIn(water, 'main') - 1)} C` },
        };
        for (const { a: warm, b: cold } of alike(answer(form), answer(colder))) {
          // At another depth it is held up by another speed.
          if (String(cold.depthM) !== String(warm.depthM)) continue;
          // The pocket keeps its own temperature, so that it is warmer beside a colder lake: its pace is its own.
          if ((cold.pace.waterC ?? 0) > (warm.pace.waterC ?? 0)) continue;
          compared += 1;
          expect(cold.pace.retrieveMs, JSON.stringify(form)).toBeLessThanOrEqual(
            warm.pace.retrieveMs * 1.0001,
          );
          expect(cold.pace.pauseS, JSON.stringify(form)).toBeGreaterThanOrEqual(warm.pace.pauseS * 0.9999);
        }
      });
      expect(compared).toBeGreaterThan(5);
    },
  );

  it('never calls for a lighter line in muddier water', { timeout: 1_800_000 }, () => {
    let compared = 0;
    eachDay(DAYS / 3, SEED + 4, (form) => {
      const clarity = numberIn(form['water'], 'clarity');
      if (Number.isNaN(clarity)) return;
      const muddier = { ...form, water: { ...(form['water'] as Form), clarity: `${clarity * 0.8} m` } };
      for (const { a: clear, b: muddy } of alike(answer(form), answer(muddier))) {
        compared += 1;
        const strength = ({ lure: { line } }: PlanBlock): number => line?.leaderKg ?? line?.kg ?? 0;
        expect(strength(muddy), JSON.stringify(form)).toBeGreaterThanOrEqual(strength(clear));
      }
    });
    expect(compared).toBeGreaterThan(5);
  });

  it('is never less dangerous in more wind, but for fog', { timeout: 1_800_000 }, () => {
    eachDay(DAYS / 3, SEED + 5, (form) => {
      const windier = JSON.parse(
        JSON.stringify(form).replace(
          /"(wind|gust|speed)":"([\d.]+) m\/s"/g,
          (_, field: string, ms: string) => `"${field}":"${(Number(ms) + 3).toFixed(1)} m/s"`,
        ),
      ) as Form;
      expect(levelButFog(answer(windier)), JSON.stringify(form)).toBeGreaterThanOrEqual(
        levelButFog(answer(form)),
      );
    });
  });
});
