import {
  dayLengthH,
  EVENT_WATER,
  secchiFromTurbidityM,
  swollenStreamC,
  turbidityFromSecchiFnu,
} from '../../science/index.ts';
import type { SignalId } from '../../signals/index.ts';
import { dayNumber, dayOfYear } from '../../units/time/index.ts';
import { curveAt } from '../rules/curve.ts';
import type { Assumption, UnwrittenSignal } from './facts.ts';

export type Values = Partial<Record<SignalId, number>>;

/** A number worked out from others, with what was assumed of it where that is worth saying. */
export interface Derived {
  readonly id: UnwrittenSignal;
  readonly value: number;
  readonly low?: number;
  readonly high?: number;
  readonly assumed?: Assumption;
}

/** Latitude taken when none is given: the middle of the reservoir country the rules were written for. */
const USUAL_LATITUDE = 35;
/** Rain is near the wet bulb of air at about 90 %, K below the air. */
const RAIN_BELOW_AIR_K = 1;
/**
 * Share of a class pocket renewed per mm of rain: runoff coefficient 0.4, watershed 75 times the pocket, 1.5 m deep.
 * Volume ratio = coefficient x rain x area ratio / depth.
 */
const RENEWED_PER_MM = (0.4 * 75) / 1500;
/** Below about half an inch rain makes no runoff to speak of. */
const RUNOFF_RAIN_MM: readonly [number, number][] = [
  [9, 0],
  [15, 1],
];
/** Surface of a pocket shows about this share of a full mixing (two-layer runs, uncalibrated). */
const SURFACE_SHARE = 0.75;
const HALF_LIFE_H = 24;

/** Day length and its change per week from the date; the latitude may be unknown. */
export function deriveLight(date: string | undefined, latDeg: number | undefined): Derived[] {
  if (date === undefined) return [];
  const day = Math.min(365, dayOfYear(dayNumber(date)));
  const lat = latDeg ?? USUAL_LATITUDE;
  const at = (offset: number): number => dayLengthH(lat, ((day + offset - 1 + 365) % 365) + 1);
  const assumed = { code: 'dayLength', usualLatDeg: latDeg === undefined ? USUAL_LATITUDE : null } as const;
  return [
    { id: 'dayLengthH', value: at(0), assumed },
    { id: 'dayLengthChangeHPerWeek', value: at(3.5) - at(-3.5) },
  ];
}

/** Trends and drops of the air from its means: the means' centres lie a known number of days apart. */
export function deriveAir(given: Values & { readonly yesterdayC?: number }): Derived[] {
  const { airMean24hC: day, airMean3dC: three, airMean7dC: seven, yesterdayC } = given;
  const found: Derived[] = [];
  if (given.airTrend3dCPerDay === undefined && day !== undefined && three !== undefined) {
    found.push({
      id: 'airTrend3dCPerDay',
      value: day - three,
      assumed: { code: 'airTrend3d' },
    });
  }
  const recent = three ?? day;
  if (given.airTrend7dCPerDay === undefined && recent !== undefined && seven !== undefined) {
    found.push({
      id: 'airTrend7dCPerDay',
      value: (recent - seven) / (three === undefined ? 3 : 2),
      assumed: { code: 'airTrend7d' },
    });
  }
  if (given.airDrop24hC === undefined && day !== undefined && yesterdayC !== undefined) {
    found.push({
      id: 'airDrop24hC',
      value: yesterdayC - day,
      assumed: { code: 'airDrop' },
    });
  }
  return found;
}

/** Clarity from turbidity and back. */
export function deriveClarity(given: Values): Derived[] {
  if (given.clarityM !== undefined && given.turbidityFnu === undefined) {
    return [{ id: 'turbidityFnu', value: turbidityFromSecchiFnu(given.clarityM) }];
  }
  if (given.turbidityFnu !== undefined && given.clarityM === undefined) {
    return [
      {
        id: 'clarityM',
        value: secchiFromTurbidityM(given.turbidityFnu),
        assumed: { code: 'clarity' },
      },
    ];
  }
  return [];
}

/** Flow of a river and the section it runs through, SI; what is not known is left out. */
export interface Section {
  readonly flowM3s: number | undefined;
  readonly widthM: number | undefined;
  readonly depthM: number | undefined;
}

/**
 * Mean velocity of a section is about this share of that at its surface.
 *
 * @see Rantz (1982), Measurement and Computation of Streamflow, USGS Water-Supply Paper 2175, p. 137: surface velocities
 *   times 0.84 to 0.90, 0.85 in natural channels (from memory)
 */
const MEAN_OF_SURFACE = 0.85;
/** How far it is off where the section is a told width and depth, as a factor (common practice, no source). */
const SECTION_OFF = 1.4;

/** Current at the surface from the flow, where the section it runs through is known; else it stays unknown. */
export function deriveCurrent(given: Values, { flowM3s, widthM, depthM }: Section): Derived[] {
  if (given.currentMs !== undefined || flowM3s === undefined) return [];
  const areaM2 = (widthM ?? 0) * (depthM ?? 0);
  if (areaM2 <= 0) return [];
  const value = flowM3s / areaM2 / MEAN_OF_SURFACE;
  return [
    {
      id: 'currentMs',
      value,
      low: value / SECTION_OFF,
      high: value * SECTION_OFF,
      assumed: { code: 'currentOfSection' },
    },
  ];
}

/** Rain totals and hours that follow from the other rain fields. */
export function deriveRain(given: Values): Derived[] {
  const found: Derived[] = [];
  const day = given.rain24Mm;
  const three = given.rain72Mm ?? day;
  if (given.rain72Mm === undefined && day !== undefined) {
    found.push({
      id: 'rain72Mm',
      value: day,
      low: day,
      assumed: { code: 'rain72h' },
    });
  }
  if (given.hoursSinceRain === undefined && three !== undefined && three >= 2) {
    const recent = day !== undefined && day >= 2;
    const hours = recent ? 12 : 42;
    found.push({
      id: 'hoursSinceRain',
      value: hours,
      low: recent ? 0 : 24,
      high: recent ? 24 : 72,
      assumed: { code: 'hoursSinceRain', hours },
    });
  }
  return found;
}

/** Runoff temperature, clear cold night and a coarse class pocket, where the form does not give them. */
export function deriveInflow(given: Values): Derived[] {
  const found: Derived[] = [];
  const rain = given.rain72Mm;
  const rainC = given.rainAirC ?? (rain !== undefined && rain >= 2 ? given.airMean24hC : undefined);
  let runoff = given.runoffC;
  if (runoff === undefined && rainC !== undefined) {
    const stored = given.airMean7dC ?? given.waterC ?? rainC;
    runoff = Math.max(0.5, swollenStreamC(EVENT_WATER.mixed, rainC - RAIN_BELOW_AIR_K, stored, rain ?? 0));
    found.push({
      id: 'runoffC',
      value: runoff,
      low: runoff - (given.rainAirC === undefined ? 4 : 2),
      high: runoff + (given.rainAirC === undefined ? 4 : 1),
      assumed: { code: given.rainAirC === undefined ? 'runoffGuessed' : 'runoffMixed' },
    });
  }
  let night = given.clearColdNightSinceRain;
  const { airMinLastNightC: low, waterC, cloudPct, hoursSinceRain: hours } = given;
  if (night === undefined && low !== undefined && waterC !== undefined && hours !== undefined && hours >= 8) {
    const clear =
      cloudPct === undefined
        ? 0.6
        : curveAt(
            [
              [25, 1],
              [75, 0.2],
            ],
            cloudPct,
          );
    night =
      curveAt(
        [
          [-10, 1],
          [-4, 0],
        ],
        low - waterC,
      ) * clear;
    found.push({
      id: 'clearColdNightSinceRain',
      value: night,
      assumed: { code: 'clearColdNight' },
    });
  }
  if (rain === undefined) return found;
  const renewed = Math.min(1, RENEWED_PER_MM * rain) * curveAt(RUNOFF_RAIN_MM, rain);
  if (given.pocketRenewedShare === undefined) {
    found.push({
      id: 'pocketRenewedShare',
      value: renewed,
      low: renewed / 3,
      high: Math.min(1, renewed * 2.5),
      assumed: { code: 'pocketRenewed' },
    });
  }
  if (given.pocketMinusMainC === undefined && runoff !== undefined && waterC !== undefined && renewed > 0) {
    const left = 0.5 ** ((hours ?? 36) / HALF_LIFE_H) * (1 - 0.8 * (runoff > waterC ? (night ?? 0) : 0));
    const difference = SURFACE_SHARE * renewed * (runoff - waterC) * left;
    found.push({
      id: 'pocketMinusMainC',
      value: difference,
      low: Math.min(difference * 0.3, difference * 1.5) - 0.5,
      high: Math.max(difference * 0.3, difference * 1.5) + 0.5,
      assumed: { code: 'pocketCoarse' },
    });
  }
  return found;
}
