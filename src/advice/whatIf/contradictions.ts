import { misdeclared } from '../../vocabulary/index.ts';
import { minutesOf } from './clock.ts';
import { readWritten, type WrittenKind } from './quantity.ts';
import type { ContradictionFact } from './facts.ts';
import type { WhatIfForm } from './schema.ts';

/** Two things in a form that cannot both be so. */
export interface Contradiction {
  readonly path: readonly (string | number)[];
  /** For whoever wrote a file. */
  readonly message: string;
  readonly fault: ContradictionFact;
}

/** Difference that rounding explains: degC, m/s, mm. */
const ROUNDING = { airC: 1, windMs: 0.3, rainMm: 0.6 } as const;

const isTime = (time: string | undefined): time is string =>
  time !== undefined && /^([01]\d|2[0-3]):[0-5]\d$/.test(time);

/** What in the form cannot be true at once; fields that cannot be read have their own problem and are passed over. */
export function contradictions(form: WhatIfForm): Contradiction[] {
  const si = (value: unknown, kind: WrittenKind): number | undefined => {
    if (typeof value !== 'string' && typeof value !== 'number') return undefined;
    const read = readWritten(value, kind, form.units);
    return 'si' in read ? read.si : undefined;
  };
  return [...timesOf(form), ...hoursOf(form, si), ...rainOf(form, si), ...placesOf(form), ...releaseOf(form)];
}

type Si = (value: unknown, kind: WrittenKind) => number | undefined;

function timesOf({ fishing, sun, hours }: WhatIfForm): Contradiction[] {
  const found: Contradiction[] = [];
  if (isTime(fishing?.from) && isTime(fishing.to) && minutesOf(fishing.from) >= minutesOf(fishing.to)) {
    found.push({
      path: ['fishing', 'to'],
      message: `fishing ends at ${fishing.to}, before it begins at ${fishing.from}; a night that passes midnight is two days`,
      fault: { code: 'fishingOrder', from: fishing.from, to: fishing.to },
    });
  }
  const order = (['dawn', 'rise', 'noon', 'set', 'dusk'] as const).flatMap((name) => {
    const time = sun?.[name];
    return isTime(time) ? [{ name, time }] : [];
  });
  for (const [index, { name, time }] of order.entries()) {
    const before = order[index - 1];
    if (before === undefined || minutesOf(before.time) < minutesOf(time)) continue;
    found.push({
      path: ['sun', name],
      message: `${name} at ${time} is not after ${before.name} at ${before.time}`,
      fault: {
        code: 'sunOrder',
        first: before.name,
        firstAt: before.time,
        then: name,
        thenAt: time,
      },
    });
  }
  for (const [index, { at }] of (hours ?? []).entries()) {
    const before = hours?.[index - 1]?.at;
    if (!isTime(before) || !isTime(at) || minutesOf(before) < minutesOf(at)) continue;
    found.push({
      path: ['hours', index, 'at'],
      message: `${at} is not after ${before}; give each hour once, in the order of the day`,
      fault: { code: 'hourOrder', before, at },
    });
  }
  return found;
}

function hoursOf(form: WhatIfForm, si: Si): Contradiction[] {
  const found: Contradiction[] = [];
  const highC = si(form.air?.highToday, 'temperature');
  const dayGustMs = si(form.wind?.gust, 'wind');
  const hours = form.hours ?? [];
  const gusts = hours.some(({ gust }) => gust !== undefined);
  for (const [index, hour] of hours.entries()) {
    const windMs = si(hour.wind, 'wind');
    // A gust that only holds on from an earlier hour is overtaken by a stronger wind, not contradicted.
    const gustMs = gusts ? si(hour.gust, 'wind') : dayGustMs;
    const airC = si(hour.air, 'temperature');
    if (windMs !== undefined && gustMs !== undefined && gustMs < windMs - ROUNDING.windMs) {
      found.push({
        path: ['hours', index, gusts ? 'gust' : 'wind'],
        message: `at ${hour.at} the gusts are weaker than the wind`,
        fault: { code: 'gustBelowWind', at: hour.at },
      });
    }
    if (airC !== undefined && highC !== undefined && airC > highC + ROUNDING.airC) {
      found.push({
        path: ['hours', index, 'air'],
        message: `the air at ${hour.at} is warmer than air.highToday`,
        fault: { code: 'airAboveHigh', at: hour.at },
      });
    }
  }
  const speedMs = si(form.wind?.speed, 'wind');
  if (form.hours === undefined && speedMs !== undefined && dayGustMs !== undefined) {
    if (dayGustMs < speedMs - ROUNDING.windMs)
      found.push({
        path: ['wind', 'gust'],
        message: 'the gusts are weaker than the wind',
        fault: { code: 'gustBelowWind', at: null },
      });
  }
  return found;
}

function rainOf({ rain }: WhatIfForm, si: Si): Contradiction[] {
  const sums = (['last24h', 'last72h', 'last7d'] as const).flatMap((name) => {
    const mm = si(rain?.[name], 'rain');
    return mm === undefined ? [] : [{ name, mm }];
  });
  return sums.flatMap(({ name, mm }, index) => {
    const shorter = sums[index - 1];
    return shorter === undefined || shorter.mm <= mm + ROUNDING.rainMm
      ? []
      : [
          {
            path: ['rain', name],
            message: `less rain than in rain.${shorter.name}, which is part of it`,
            fault: { code: 'lessRain', than: shorter.name },
          },
        ];
  });
}

function placesOf({ places, waterBody }: WhatIfForm): Contradiction[] {
  if (places === undefined) return [];
  return misdeclared(places, waterBody).map(({ place, why, path }): Contradiction =>
    why === 'never' && waterBody !== undefined
      ? {
          path: ['places', ...path],
          message: `a ${waterBody} never has the place "${place}"`,
          fault: { code: 'placeNever', place, waterBody },
        }
      : {
          path: ['places', 'hasNot'],
          message: `"${place}" stands under has and under hasNot`,
          fault: { code: 'placeBoth', place },
        },
  );
}

function releaseOf({ waterBody, flow, hours }: WhatIfForm): Contradiction[] {
  if (waterBody !== 'pond') return [];
  const on = (given: unknown): boolean => given === 'on' || given === true;
  const none = { message: 'a pond has no turbines', fault: { code: 'noTurbines' } } as const;
  const found: Contradiction[] = on(flow?.generation) ? [{ path: ['flow', 'generation'], ...none }] : [];
  for (const [index, hour] of (hours ?? []).entries()) {
    if (on(hour.generation)) found.push({ path: ['hours', index, 'generation'], ...none });
  }
  return found;
}
