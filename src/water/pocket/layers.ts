import { item } from '../../units/index.ts';
import {
  dewPointC,
  longwaveDownWm2,
  longwaveUpWm2,
  mixtureDensity,
  ROUNDED_GRAVITY_MS2,
  saturationMmHg,
  surfaceWind,
  WATER_HEAT_CAPACITY,
} from '../../science/index.ts';
import type { Inflow } from './inflow.ts';
import { COVER, type PocketShape } from './shape.ts';
import type { PocketBooks, PocketHour } from './types.ts';

const WATER = 1000;
/** The upper layer is this share of the depth: the two feet of overflow in five feet of pocket. */
export const UPPER_SHARE = 0.4;
/** Wind at 2 m over wind at 10 m, power law with exponent 1/7. */
const WIND_2M = 0.2 ** (1 / 7);
/** Friction velocity in the water over wind at 10 m: sqrt(1.2/1000 * 0.0013). */
const FRICTION = Math.sqrt((1.2 / WATER) * 0.0013);
const ALBEDO = 0.07;
/** Share of sunlight (near infrared) that the first centimetres take, and attenuation of the rest at 1.2 m Secchi. */
const SURFACE_SHARE = 0.45;
const ATTENUATION = 1.4;
/** Mixed-layer energetics (Imberger and Patterson 1981, coefficients from memory). */
const MIX_EFFICIENCY = 0.125;
const MIX_WIND = 1.23 ** 3;
const MIX_INERTIA = 0.51;
/** Share of the frictionless two-layer exchange that a real mouth passes, judged from the scenario runs. */
const MOUTH = 0.35;
/** Turbulent exchange through the mouth per wind speed. */
const MOUTH_TURBULENCE = 0.001;
/** Water of the other layer that the inflow stirs in, per volume of inflow. */
const INFLOW_STIR = 0.3;
/** Density contrast over which an inflow divides between the layers, kg/m3. */
const DIVIDE = 0.05;
/** Settling of fine silt of 4 micrometres by Stokes's law, m/s. */
const SETTLING = 1.2e-5;

export interface LayerOptions {
  readonly stepsPerHour: number;
  readonly mouthFactor: number;
  readonly sunFactor: number;
}

/** The two layers at the end of an hour. */
export interface LayerState {
  readonly upperC: number;
  readonly lowerC: number;
  /** Suspended load, mg/L. */
  readonly upperLoad: number;
  readonly lowerLoad: number;
}

export interface LayerTemperatures {
  readonly surfaceC: readonly number[];
  readonly meanC: readonly number[];
}

export interface LayerRun extends LayerTemperatures {
  /** Share of each hour's stream that went into the upper layer. */
  readonly floating: readonly number[];
  /** Share of a misfit of the depth mean that each hour leaves: the rest went to the air and the lake. */
  readonly keep: readonly number[];
  readonly states: readonly LayerState[];
  readonly books: PocketBooks;
}

/** What the air over a pocket does in one hour, whatever the water: worked out once for all its runs. */
export interface Sky {
  readonly lakeC: number;
  readonly lakeDensity: number;
  readonly airC: number;
  /** Wind at 10 m that reaches the pocket, m/s. */
  readonly windMs: number;
  readonly evaporationWm2MmHg: number;
  readonly sensibleWm2K: number;
  readonly dewMmHg: number;
  /** Sunlight that enters the water, and what the sky sends, W/m2. */
  readonly sunWm2: number;
  readonly skyWm2: number;
}

export function skyOver(shape: PocketShape, hours: readonly PocketHour[]): Sky[] {
  const { windShare } = COVER[shape.landCover];
  return hours.map((hour) => {
    const lakeC = Math.max(0, hour.lakeC);
    const windMs = hour.windMs * windShare;
    return {
      lakeC,
      lakeDensity: mixtureDensity(lakeC, 0),
      airC: hour.airC,
      windMs,
      ...surfaceWind(windMs * WIND_2M),
      dewMmHg: saturationMmHg(dewPointC(hour.airC, hour.humidityPct)),
      sunWm2: Math.max(0, hour.shortwaveWm2) * (1 - ALBEDO),
      skyWm2: longwaveDownWm2(hour.airC, hour.cloudPct),
    };
  });
}

/** Heat that water of a temperature loses to the air, W/m2, but for the sun. */
function lossWm2(tempC: number, sky: Sky): number {
  return (
    longwaveUpWm2(tempC) +
    sky.evaporationWm2MmHg * (saturationMmHg(tempC) - sky.dewMmHg) +
    sky.sensibleWm2K * (tempC - sky.airC) -
    sky.skyWm2
  );
}

/**
 * Two layers of constant volume that exchange heat with the air, the inflow and the main lake.
 *
 * Transport is backward Euler with flows taken at the start of each step, so no temperature can leave the bounds
 * of its sources except by the surface flux, and each parcel that leaves one place arrives in another.
 *
 * @param from a run that is the same up to an hour, of which the first hours are taken; the books are then of the rest
 */
export function runLayers(
  shape: PocketShape,
  skies: readonly Sky[],
  inflow: Inflow,
  options: LayerOptions,
  from?: { readonly run: LayerRun; readonly hour: number },
): LayerRun {
  const dt = 3600 / options.stepsPerHour;
  const volume = shape.areaM2 * shape.meanDepthM;
  const upperM3 = UPPER_SHARE * volume;
  const lowerM3 = volume - upperM3;
  const upperM = UPPER_SHARE * shape.meanDepthM;
  const lowerM = shape.meanDepthM - upperM;
  const begin = from?.hour ?? 0;
  const before = from?.run.states[begin - 1];
  const start = Math.max(0, item(skies, 0).lakeC);
  let upperC = before?.upperC ?? start;
  let lowerC = before?.lowerC ?? start;
  let upperLoad = before?.upperLoad ?? 0;
  let lowerLoad = before?.lowerLoad ?? 0;
  let heatInflow = 0;
  let heatLake = 0;
  let heatSurface = 0;
  let volumeIn = 0;
  let volumeOut = 0;
  const surfaceC = from?.run.surfaceC.slice(0, begin) ?? [];
  const meanC = from?.run.meanC.slice(0, begin) ?? [];
  const floating = from?.run.floating.slice(0, begin) ?? [];
  const keep = from?.run.keep.slice(0, begin) ?? [];
  const states = from?.run.states.slice(0, begin) ?? [];
  const settle = SETTLING * shape.areaM2;

  for (let i = begin; i < skies.length; i += 1) {
    const sky = item(skies, i);
    const stream = (item(inflow.stormM3, i) + item(inflow.baseM3, i)) / 3600;
    const rain = item(inflow.rainM3, i) / 3600;
    const streamC = item(inflow.streamC, i);
    const rainC = item(inflow.rainC, i);
    const load = item(inflow.sedimentMgL, i);
    const { lakeC, lakeDensity, windMs: wind } = sky;
    const streamDensity = mixtureDensity(streamC, load);
    const sun = sky.sunWm2 * options.sunFactor;
    const windMix = MIX_WIND * (FRICTION * wind) ** 3;
    const turbulence = MOUTH_TURBULENCE * wind * shape.mouthWidthM * options.mouthFactor;
    const lock = MOUTH * shape.mouthWidthM * options.mouthFactor;
    // The slope only steadies the step, and expansion only scales convection: once an hour is enough for both.
    const slope = Math.max(0, (lossWm2(upperC + 0.1, sky) - lossWm2(upperC, sky)) / 0.1);
    const expansion = thermalExpansion(upperC);
    let floatingSum = 0;
    let kept = 1;

    for (let step = 0; step < options.stepsPerHour; step++) {
      const upperDensity = mixtureDensity(upperC, upperLoad);
      const lowerDensity = mixtureDensity(lowerC, lowerLoad);
      const middle = UPPER_SHARE * upperDensity + (1 - UPPER_SHARE) * lowerDensity;
      const floats = Math.min(1, Math.max(0, 0.5 + (middle - streamDensity) / (2 * DIVIDE)));
      floatingSum += floats;
      const toUpper = floats * stream;
      const toLower = stream - toUpper;

      // Sunlight: the near infrared and part of the rest stay above; what reaches the floor warms the lower layer.
      const sunBelow =
        sun === 0 ? 0 : (1 - SURFACE_SHARE) * Math.exp(-(ATTENUATION + 0.02 * upperLoad) * upperM) * sun;
      const lossNow = lossWm2(upperC, sky);

      // Vertical mixing by wind, by cooling from above, by overturning and by the inflow's own stir.
      const cooling = Math.max(0, lossNow - (sun - sunBelow));
      const convective = (ROUNDED_GRAVITY_MS2 * expansion * cooling * upperM) / WATER_HEAT_CAPACITY;
      const cubed = convective + windMix;
      const buoyancy = (ROUNDED_GRAVITY_MS2 * (lowerDensity - upperDensity) * upperM) / WATER;
      const speed2 = Math.cbrt(cubed) ** 2;
      const entrain =
        buoyancy > 0
          ? (MIX_EFFICIENCY * cubed) / (MIX_INERTIA * speed2 + buoyancy + 1e-12)
          : (MIX_EFFICIENCY / MIX_INERTIA) * Math.sqrt(speed2 - buoyancy);
      const mix = entrain * shape.areaM2 + INFLOW_STIR * stream;

      // A light upper layer runs out over the lake and draws lake water in below; a dense lower one the reverse.
      const overflow =
        lock *
        upperM *
        Math.sqrt((ROUNDED_GRAVITY_MS2 * Math.max(0, lakeDensity - upperDensity) * upperM) / WATER);
      const underflow =
        lock *
        lowerM *
        Math.sqrt((ROUNDED_GRAVITY_MS2 * Math.max(0, lowerDensity - lakeDensity) * lowerM) / WATER);
      const upperTurb = turbulence * upperM;
      const lowerTurb = turbulence * lowerM;

      // Backward Euler: [a b; c d] [upper; lower] = right-hand side.
      const up = mix + overflow; // lower to upper
      const down = mix + underflow; // upper to lower
      const upperOut = toUpper + rain + overflow + upperTurb;
      const lowerOut = toLower + underflow + lowerTurb;
      const fromLakeUpper = underflow + upperTurb;
      const fromLakeLower = overflow + lowerTurb;
      const exchange = (slope * shape.areaM2) / WATER_HEAT_CAPACITY;
      const gain = ((sun - sunBelow - lossNow + slope * upperC) * shape.areaM2) / WATER_HEAT_CAPACITY;
      const sunLower = (sunBelow * shape.areaM2) / WATER_HEAT_CAPACITY;
      const b = -dt * up;
      const c = -dt * down;
      const d = lowerM3 + dt * (lowerOut + up);
      const lowerRight = lowerM3 * lowerC + dt * (toLower * streamC + fromLakeLower * lakeC + sunLower);
      const upperIn = toUpper * streamC + rain * rainC + fromLakeUpper * lakeC;
      const a = upperM3 + dt * (upperOut + down + exchange);
      const upperRight = upperM3 * upperC + dt * (upperIn + gain);
      const det = a * d - b * c;
      let nextUpper = (upperRight * d - b * lowerRight) / det;
      let nextLower = (a * lowerRight - c * upperRight) / det;
      let surface = gain - exchange * nextUpper + sunLower;
      if (nextUpper < 0) {
        // The surface freezes over: the layer stays at 0 and the air takes only what that leaves.
        nextUpper = 0;
        nextLower = lowerRight / d;
        surface = sunLower - upperIn - up * nextLower - (upperM3 * upperC) / dt;
        // Under ice only the lower layer can still differ from the run.
        kept *= lowerM3 / d;
      } else {
        // What the same step makes of one kelvin more in both layers, with the flows as they are.
        const upperLeft = (upperM3 * d - b * lowerM3) / det;
        const lowerLeft = (a * lowerM3 - c * upperM3) / det;
        kept *= UPPER_SHARE * upperLeft + (1 - UPPER_SHARE) * lowerLeft;
      }
      heatInflow += dt * (stream * streamC + rain * rainC);
      heatLake +=
        dt * ((fromLakeUpper + fromLakeLower) * lakeC - upperOut * nextUpper - lowerOut * nextLower);
      heatSurface += dt * surface;
      volumeIn += dt * (stream + rain + fromLakeUpper + fromLakeLower);
      volumeOut += dt * (upperOut + lowerOut);
      upperC = nextUpper;
      lowerC = nextLower;

      const aLoad = upperM3 + dt * (upperOut + down + settle);
      const dLoad = lowerM3 + dt * (lowerOut + up + settle);
      const cLoad = -dt * (down + settle);
      const upperLoadRight = upperM3 * upperLoad + dt * toUpper * load;
      const lowerLoadRight = lowerM3 * lowerLoad + dt * toLower * load;
      const detLoad = aLoad * dLoad - b * cLoad;
      upperLoad = (upperLoadRight * dLoad - b * lowerLoadRight) / detLoad;
      lowerLoad = (aLoad * lowerLoadRight - cLoad * upperLoadRight) / detLoad;
    }
    surfaceC.push(upperC);
    meanC.push((upperM3 * upperC + lowerM3 * lowerC) / volume);
    floating.push(floatingSum / options.stepsPerHour);
    keep.push(kept);
    states.push({ upperC, lowerC, upperLoad, lowerLoad });
  }
  const joule = WATER_HEAT_CAPACITY;
  return {
    surfaceC,
    meanC,
    floating,
    keep,
    states,
    books: {
      heatStartJ: joule * volume * start,
      heatEndJ: joule * (upperM3 * upperC + lowerM3 * lowerC),
      heatInflowJ: joule * heatInflow,
      heatLakeJ: joule * heatLake,
      heatSurfaceJ: joule * heatSurface,
      volumeM3: volume,
      volumeInM3: volumeIn,
      volumeOutM3: volumeOut,
    },
  };
}

/** Thermal expansion from the density formula, 1/K; no convection below the temperature of greatest density. */
function thermalExpansion(tempC: number): number {
  return Math.max(0, (mixtureDensity(tempC - 0.5, 0) - mixtureDensity(tempC + 0.5, 0)) / WATER);
}
