/** The lake's own places in the wind and sun of the day: waves, who is sheltered, and for how long the sun is on them. */
import type { LakeConfig } from '../../config/index.ts';
import { HOUR_MS, localHourAt } from '../../units/time/index.ts';
import { CIVIL_TWILIGHT_DEG, directSun, fetchWaves, windSetupM } from '../../science/index.ts';
import { fetchOf } from '../../shape/index.ts';
import { betweenDeg, eighthOf, item } from '../../units/index.ts';
import type { LakeFact } from '../facts.ts';
import type { HourPoint, LakeReport, PlaceReport, SignalReport } from '../types.ts';
import { facesOf, horizonOf } from './surroundings.ts';

export { guessedHorizon } from './surroundings.ts';

/** Wind that matters at a bank, m/s (6 mph; common practice, no source). */
const REACHES_MS = 2.7;
/** Wind within this of the side a place is open to blows onto it; beyond the other, from its back; degrees. */
const ONTO_DEG = 67.5;
const OFF_DEG = 112.5;
/** Waves below this are calm water; from the other on they are worth telling, m (common practice, no source). */
const CALM_M = 0.1;
const TELL_M = 0.15;
/** Water that rises less at the end of the lake is not worth a word, m. */
const SET_UP_M = 0.02;
/** Shorter stretches of wind on a place are not told, h. */
const LEAST_H = 2;
const ROUGH_TOLD = 2;

type Hour = HourPoint & { readonly windMs: number; readonly windDirDeg: number };

const isWindy = (hour: HourPoint): hour is Hour =>
  hour.windMs !== undefined && hour.windDirDeg !== undefined && hour.sunAltitudeDeg > CIVIL_TWILIGHT_DEG;

const waveM = (windMs: number, fetchM: number): number => fetchWaves(Math.max(0, windMs), fetchM).heightM;

/**
 * The places of the configuration that say where they lie or which way they face.
 *
 * @returns null where none does and the lake has no outline
 * @see EM 1110-2-1100 part II chapter 2 for the waves (straight fetch), Zuider Zee formula for the set-up
 */
export function lakeReport(
  lake: LakeConfig,
  hours: readonly HourPoint[],
  sun: SignalReport['sun'],
): LakeReport | null {
  const windy = hours.filter(isWindy);
  const places = placesOf(lake, windy, sun);
  if (places.length === 0 && lake.shape === undefined) return null;
  const told = [
    wavesFact(lake, windy, places),
    windFact(lake, windy, places),
    rampFact(windy, places),
    setUpFact(lake, windy),
    ...sunFacts(lake, places),
  ];
  return { places, told: told.filter((fact) => fact !== null) };
}

function placesOf(lake: LakeConfig, windy: readonly Hour[], sun: SignalReport['sun']): PlaceReport[] {
  const written = [
    ...lake.pockets.map((one) => ({ ...one, kind: 'pocket' as const, bankDeg: one.bankDeg ?? lake.bankDeg })),
    ...lake.points.map((one) => ({ ...one, kind: 'point' as const, bankDeg: one.bankDeg ?? lake.bankDeg })),
    ...(lake.ramps ?? []).map((one) => ({ ...one, kind: 'ramp' as const, bankDeg: lake.bankDeg })),
  ];
  return written.flatMap((place) => {
    const facesDeg = facesOf(place, lake);
    if (facesDeg === undefined) return [];
    const shaped = lake.shape?.places.find(({ name }) => name === place.name);
    const pocket = lake.pockets.find(({ name }) => name === place.name);
    const horizonDeg =
      pocket === undefined
        ? (('horizonDeg' in place ? place.horizonDeg : undefined) ?? lake.horizonDeg ?? [0])
        : (horizonOf(pocket, lake)?.horizonDeg ?? [0]);
    const { riseMs, setMs } = sun;
    const at = place.position ?? { latDeg: lake.latDeg, lonDeg: lake.lonDeg };
    return [
      {
        name: place.name,
        kind: place.kind,
        facesDeg,
        hours: windy.map(({ atMs, windMs, windDirDeg }) => ({
          atMs,
          wind: windOn(windDirDeg, facesDeg),
          waveM: shaped === undefined ? null : waveM(windMs, fetchOf(shaped.fetchesM, windDirDeg)),
        })),
        sun:
          riseMs === null || setMs === null
            ? null
            : directSun(
                // A pocket's water lies flat; a bank is steep enough to look away from the sun.
                {
                  ...at,
                  horizonDeg,
                  ...(place.kind === 'pocket' ? {} : { bank: { facesDeg, slopeDeg: place.bankDeg } }),
                },
                riseMs,
                setMs,
              ),
      },
    ];
  });
}

function windOn(fromDeg: number, facesDeg: number): PlaceReport['hours'][number]['wind'] {
  const between = betweenDeg(fromDeg, facesDeg);
  return between <= ONTO_DEG ? 'onto' : between >= OFF_DEG ? 'off' : 'along';
}

/** Hours whose waves are not known raise nothing. */
const highest = ({ hours }: PlaceReport): number => Math.max(0, ...hours.map((hour) => hour.waveM ?? 0));

function wavesFact(
  lake: LakeConfig,
  windy: readonly Hour[],
  places: readonly PlaceReport[],
): LakeFact | null {
  const { shape } = lake;
  if (shape === undefined) return null;
  let [openM, atMs] = [0, 0];
  for (const hour of windy) {
    const height = waveM(hour.windMs, fetchOf(shape.openFetchesM, hour.windDirDeg));
    if (height > openM) [openM, atMs] = [height, hour.atMs];
  }
  if (openM < TELL_M) return null;
  const fished = places.filter(({ kind }) => kind !== 'ramp');
  const rough = fished
    .map((place) => ({ name: place.name, waveM: highest(place) }))
    .filter((place) => place.waveM >= Math.max(TELL_M, openM / 2))
    .sort((a, b) => b.waveM - a.waveM);
  return {
    code: 'waves',
    openM,
    hour: localHourAt(atMs, lake.zone),
    rough: rough.slice(0, ROUGH_TOLD),
    calm: fished.filter((place) => highest(place) < CALM_M).map(({ name }) => name),
  };
}

/** Wind on places that only say which way they face. @param hours those in which people fish, of one hour each */
export function windOnFaces(
  faces: readonly { readonly name: string; readonly facesDeg: number }[],
  hours: readonly { readonly atMs: number; readonly windMs: number; readonly windDirDeg: number }[],
  zone: string,
): LakeFact | null {
  return windFact(
    { zone },
    hours,
    faces.map((face) => ({
      ...face,
      kind: 'point',
      sun: null,
      hours: hours.map(({ atMs, windDirDeg }) => ({
        atMs,
        wind: windOn(windDirDeg, face.facesDeg),
        waveM: null,
      })),
    })),
  );
}

type Windy = Pick<Hour, 'atMs' | 'windMs' | 'windDirDeg'>;

function windFact(
  lake: Pick<LakeConfig, 'zone'>,
  windy: readonly Windy[],
  places: readonly PlaceReport[],
): LakeFact | null {
  const blowing = windy.filter(({ windMs }) => windMs >= REACHES_MS);
  const fished = places.filter(({ kind }) => kind !== 'ramp');
  const onto = fished.map((place) => ({
    name: place.name,
    hours: blowing.filter(({ atMs }) =>
      place.hours.some((hour) => hour.atMs === atMs && hour.wind === 'onto'),
    ),
  }));
  const stretch = onto
    .map(({ hours }) => longest(hours))
    .reduce<readonly Windy[]>((best, one) => (one.length > best.length ? one : best), []);
  if (stretch.length < LEAST_H) return null;
  const out = fished
    .filter((place) =>
      blowing.every(({ atMs }) => place.hours.some((hour) => hour.atMs === atMs && hour.wind === 'off')),
    )
    .map(({ name, facesDeg }) => ({ name, faces: eighthOf(facesDeg) }));
  const same = onto.filter(({ hours }) => stretch.every((hour) => hours.includes(hour)));
  return {
    code: 'windOn',
    on: same.map(({ name }) => name),
    fromHour: localHourAt(item(stretch, 0).atMs, lake.zone),
    toHour: localHourAt(item(stretch, stretch.length - 1).atMs, lake.zone) + 1,
    side: eighthOf(item(stretch, Math.floor(stretch.length / 2)).windDirDeg),
    out,
  };
}

/** The longest stretch of hours in a row. */
function longest(hours: readonly Windy[]): readonly Windy[] {
  let best: Windy[] = [];
  let now: Windy[] = [];
  for (const hour of hours) {
    now = hour.atMs - (now.at(-1)?.atMs ?? -Infinity) === HOUR_MS ? [...now, hour] : [hour];
    if (now.length > best.length) best = now;
  }
  return best;
}

/** The ramp with the lowest waves, or without an outline the one that the wind stands on for least of the day. */
function rampFact(windy: readonly Hour[], places: readonly PlaceReport[]): LakeFact | null {
  const blowing = new Set(windy.filter(({ windMs }) => windMs >= REACHES_MS).map(({ atMs }) => atMs));
  const ramps = places.filter(({ kind }) => kind === 'ramp');
  if (blowing.size === 0) return null;
  const reached = ({ hours }: PlaceReport): number =>
    hours.filter(({ atMs, wind }) => blowing.has(atMs) && wind === 'onto').length;
  const [best] = [...ramps].sort((a, b) => highest(a) - highest(b) || reached(a) - reached(b));
  if (best === undefined) return null;
  return {
    code: 'ramp',
    name: best.name,
    faces: eighthOf(best.facesDeg),
    waveM: best.hours.some((hour) => hour.waveM !== null) ? highest(best) : null,
    ofSeveral: ramps.length > 1,
    reached: reached(best) > 0,
  };
}

function setUpFact(lake: LakeConfig, windy: readonly Hour[]): LakeFact | null {
  const { shape } = lake;
  if (shape === undefined) return null;
  let best: { readonly riseM: number; readonly hour: Hour } | undefined;
  for (const hour of windy) {
    const fetchM = fetchOf(shape.openFetchesM, hour.windDirDeg);
    const riseM = windSetupM(Math.min(60, Math.max(0, hour.windMs)), fetchM, lake.meanDepthM);
    if (best === undefined || riseM > best.riseM) best = { riseM, hour };
  }
  if (best === undefined || best.riseM < SET_UP_M) return null;
  return {
    code: 'setUp',
    bank: (eighthOf(best.hour.windDirDeg) + 4) % 8,
    riseM: best.riseM,
    hour: localHourAt(best.hour.atMs, lake.zone),
  };
}

/** The sunniest pocket or point. */
function sunFacts(lake: LakeConfig, places: readonly PlaceReport[]): LakeFact[] {
  const [best] = places
    .flatMap((place) => (place.kind === 'ramp' || place.sun === null ? [] : [{ ...place, sun: place.sun }]))
    .sort((a, b) => b.sun.sunH - a.sun.sunH);
  if (best === undefined) return [];
  return [
    {
      code: 'sun',
      name: best.name,
      faces: eighthOf(best.facesDeg),
      sunH: best.sun.sunH,
      fromHour: localHourAt(best.sun.fromMs, lake.zone),
      toHour: localHourAt(best.sun.toMs, lake.zone),
    },
  ];
}
