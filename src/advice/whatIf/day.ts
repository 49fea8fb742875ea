import type { Fishing } from '../plan/index.ts';
import type { PlanHour } from '../plan/hours.ts';
import { directionDeg, minutesOf } from './clock.ts';
import { depthLimitM } from '../depthLimit.ts';
import { readWritten, type WrittenKind } from './quantity.ts';
import type { HourForm, WhatIfForm } from './schema.ts';
import { sunlightOf } from './sunlight.ts';

const MINUTE_MS = 60_000;
const DAY_MINUTES = 1440;

/** A written day on the clock: its hours, and when the reader fishes. Instants are the form's local time taken as UTC. */
export interface WrittenDay {
  readonly hours: readonly PlanHour[];
  /** Civil dawn to civil dusk where the reader gives no hours of their own; null where neither is known. */
  readonly fishing: Fishing | null;
  /** Depth that no lure goes below, m: a foot above where the oxygen ends, or the layer and what fish bear below it. */
  readonly limitM?: number;
}

const CLOUD_WORDS: Readonly<Record<string, number>> = { clear: 10, partly: 45, overcast: 92 };

type Values = Omit<PlanHour, 'fromMs' | 'toMs' | 'sunAltitudeDeg' | 'pocketMinusMainC'> & {
  readonly pocketC?: number;
};

function valuesOf(hour: HourForm, units: WhatIfForm['units']): Values {
  const si = (value: string | number | undefined, kind: WrittenKind): number | undefined => {
    if (value === undefined) return undefined;
    const read = readWritten(value, kind, units);
    return 'si' in read ? read.si : undefined;
  };
  const found = {
    airC: si(hour.air, 'temperature'),
    cloudPct: CLOUD_WORDS[String(hour.cloud)] ?? si(hour.cloud, 'percent'),
    windMs: si(hour.wind, 'wind'),
    windFromDeg: hour.windFrom === undefined ? undefined : (directionDeg(hour.windFrom) ?? undefined),
    gustMs: si(hour.gust, 'wind'),
    rainMm: si(hour.rain, 'rain'),
    thunderPct: si(hour.thunder, 'percent'),
    pocketC: si(hour.pocket, 'temperature'),
    generationOn:
      hour.generation === undefined
        ? undefined
        : hour.generation === 'on' || hour.generation === true
          ? 1
          : 0,
  };
  return Object.fromEntries(Object.entries(found).filter(([, value]) => value !== undefined));
}

/** What a stronger wind does to a gust that only holds on from an earlier hour: it is at least the wind. */
function overtaken(values: Values): Values {
  const { windMs, gustMs } = values;
  return windMs === undefined || gustMs === undefined || gustMs >= windMs
    ? values
    : { ...values, gustMs: windMs };
}

interface Given {
  readonly minute: number;
  readonly values: Values;
}

/** A release that stops must have run before; rain and thunder that are named had not begun. */
const NOT_BEGUN = {
  rainMm: () => 0,
  thunderPct: () => 0,
  generationOn: (first: number) => (first === 1 ? 0 : 1),
} as const;

/** What holds until a field is first given. @param given in the order of the day, as a form has to list them */
function beforeFirst(given: readonly Given[], startMinute: number): Values {
  const held: Record<string, number> = {};
  for (const { minute, values } of given) {
    // Gusts that are named for the wind of the afternoon are none of the morning, whose wind is given: there they are
    // no more than the wind.
    if ('windMs' in held && values.gustMs !== undefined) held['gustMs'] ??= 0;
    for (const [field, value] of Object.entries(values)) {
      if (field in held || field === 'pocketC') continue;
      const begins =
        minute <= startMinute + 60 ? undefined : Object.entries(NOT_BEGUN).find(([id]) => id === field);
      held[field] = begins === undefined ? value : begins[1](value);
    }
  }
  return held;
}

/**
 * The day of a form by the hour. Each field of `hours` holds until a later hour gives it anew. Before its first hour air,
 * wind and cloud are taken to be as then, gusts only where no wind is given before them; rain, thunder and a release have not begun, unless the day of fishing begins
 * within an hour of it; the pocket is unknown.
 *
 * @param form       a form that `whatIfSchema` has checked
 * @param midnightMs instant of the day's 00:00
 * @param waterC     main lake, for the difference of the pocket; unknown: no difference
 */
export function writtenDay(
  form: WhatIfForm,
  midnightMs: number,
  latDeg: number | undefined,
  waterC: number | undefined,
): WrittenDay {
  const light = sunlightOf(form, latDeg);
  const given = (form.hours ?? []).map((hour) => ({
    minute: minutesOf(hour.at),
    values: valuesOf(hour, form.units),
  }));
  // Cuts at whole hours and where the form has a time of its own.
  const cuts = [
    ...new Set([...Array.from({ length: 25 }, (_, hour) => hour * 60), ...given.map(({ minute }) => minute)]),
  ].sort((a, b) => a - b);
  const hours: PlanHour[] = [];
  const fishing = fishingOf(form, light, midnightMs);
  const startMinute = fishing === null ? 0 : (fishing.fromMs - midnightMs) / MINUTE_MS;
  let held: Values = beforeFirst(given, startMinute);
  for (const [index, from] of cuts.entries()) {
    const to = cuts[index + 1];
    if (to === undefined) break;
    for (const { minute, values } of given) if (minute === from) held = { ...held, ...values };
    const { pocketC, ...values } = overtaken(held);
    hours.push({
      fromMs: midnightMs + from * MINUTE_MS,
      toMs: midnightMs + to * MINUTE_MS,
      ...(light === null ? {} : { sunAltitudeDeg: light.altitudeDeg((from + to) / 2) }),
      ...values,
      ...(values.rainMm === undefined ? {} : { rainMm: (values.rainMm * (to - from)) / 60 }),
      ...(pocketC === undefined || waterC === undefined ? {} : { pocketMinusMainC: pocketC - waterC }),
    });
  }
  const limitM = limitOf(form);
  return {
    hours,
    fishing,
    ...(limitM === undefined ? {} : { limitM }),
  };
}

function fishingOf(
  { fishing, time }: WhatIfForm,
  light: ReturnType<typeof sunlightOf>,
  midnightMs: number,
): WrittenDay['fishing'] {
  const at = (minute: number): number => midnightMs + Math.min(DAY_MINUTES, Math.max(0, minute)) * MINUTE_MS;
  if (fishing !== undefined) {
    return { fromMs: at(minutesOf(fishing.from)), toMs: at(minutesOf(fishing.to)), own: true };
  }
  if (light === null) return null;
  // The hours after dark; those after midnight are of another date.
  if (time === 'night' && light.dusk < DAY_MINUTES)
    return { fromMs: at(Math.round(light.dusk)), toMs: at(DAY_MINUTES), own: true };
  const allNight = light.dusk - light.dawn >= DAY_MINUTES - 1;
  return {
    fromMs: at(Math.round(light.dawn)),
    toMs: at(Math.round(light.dusk)),
    own: false,
    ...(allNight ? { lightAllNight: true } : {}),
  };
}

function limitOf({ layer, oxygenDepth, units }: WhatIfForm): number | undefined {
  const metres = (value: string | number | undefined): number[] => {
    if (value === undefined) return [];
    const read = readWritten(value, 'length', units);
    return 'si' in read ? [read.si] : [];
  };
  const [oxygenM] = metres(oxygenDepth);
  const [layerM] = metres(layer?.depth);
  return depthLimitM({ oxygenM, layerM });
}
