/** The wind and the rain of the hours that are left of a day, a sentence each. */
import { betweenDeg, type QuantityKind, type UnitSystem } from '../../units/index.ts';
import { HOUR_MS } from '../../units/time/index.ts';
import type { Words } from '../../words/index.ts';
import { rangeWords } from '../present.ts';
import { fromWhere, known, most, type Hour } from './hours.ts';

interface Said {
  readonly q: (value: number, kind: QuantityKind) => string;
  readonly time: (ms: number) => string;
  readonly w: Words['front'];
  readonly m: Words['page'];
  readonly units: UnitSystem;
}

/** Less wind than this has no direction worth a word, m/s (a light air of the Beaufort scale begins at 0.3). */
const CALM_MS = 1;
/** A direction is a new one from a right angle on, degrees. */
const TURN_DEG = 90;
/** A side that the wind keeps for less is a gust of it, h. */
const SHORTEST_H = 2;
/** More turns than these are a wind from anywhere. */
const MOST_TURNS = 2;
/** Precipitation of air at or below this is told as snow, degC (half of it falls as snow near 1 degC: Jennings et al. 2018, Nature Communications 9:1148, from memory). */
const SNOW_C = 1;
/** Less in a day than this is no rain, mm. */
const DRY_MM = 0.2;

interface Stretch {
  readonly fromMs: number;
  readonly hours: readonly Hour[];
}

/** The hours by the wind's direction: a stretch ends where the wind has turned by a right angle and stays so. */
function stretches(hours: readonly Hour[]): Stretch[] {
  const found: Stretch[] = [];
  for (const hour of hours) {
    const { atMs, windMs = 0, windDirDeg } = hour;
    if (windDirDeg === undefined || windMs < CALM_MS) continue;
    const last = found.at(-1);
    const first = last?.hours[0]?.windDirDeg;
    if (last === undefined || first === undefined || betweenDeg(first, windDirDeg) >= TURN_DEG)
      found.push({ fromMs: atMs, hours: [hour] });
    else found[found.length - 1] = { ...last, hours: [...last.hours, hour] };
  }
  return found.filter(({ hours: of }) => of.length >= SHORTEST_H);
}

/** `S`, `SW to S`, or `S, from 9 am NW`; '' where no direction is known or none lasts. */
function directionWords(hours: readonly Hour[], { time, w }: Said): string {
  const parts = stretches(hours);
  if (parts.length > MOST_TURNS) return '';
  return parts
    .map(({ fromMs, hours: of }, i) => {
      const [first, last] = [fromWhere(of[0]?.windDirDeg, w), fromWhere(of.at(-1)?.windDirDeg, w)];
      const words = first === last ? first : w.windVeers(first, last);
      return i === 0 ? words : w.windTurns(time(fromMs), words);
    })
    .join(', ');
}

/** A wind that is known for less than this share of the hours is none of the day. */
const LEAST_SHARE = 0.3;

function windWords(hours: readonly Hour[], said: Said): string[] {
  const { q, time, w, m, units } = said;
  const wind = known(hours, 'windMs');
  const top = most(wind);
  if (top === undefined) return [];
  const speed = (ms: number): string => q(ms, 'windSpeed');
  const lowMs = Math.min(...wind.map(({ value }) => value));
  const [low, high] = [speed(lowMs), speed(top.value)];
  const gust = most(known(hours, 'gustMs'));
  const gustWords = gust === undefined ? '' : speed(gust.value);
  const gusts = gustWords === high ? '' : gustWords;
  // What is known of an hour or two is not told as the day's.
  if (wind.length < LEAST_SHARE * hours.length) return [w.windOnlyAlt(time(top.atMs), high)];
  const from = directionWords(hours, said);
  if (top.value < CALM_MS) return [w.calmAlt(gusts)];
  return [
    low === high
      ? w.windEvenAlt(from, high, gusts)
      : w.windAlt(from, rangeWords(lowMs, top.value, 'windSpeed', units, m), time(top.atMs), gusts),
  ];
}

/** Hours without a figure that a day may have and still be told as a whole. */
const MOST_UNKNOWN = 1;

function rainWords(hours: readonly Hour[], said: Said): string[] {
  const { time, w } = said;
  const rain = known(hours, 'rainMm');
  const last = rain.at(-1);
  if (last === undefined) return [];
  const words = rainOf(hours, rain, said);
  const after = hours.filter(({ atMs }) => atMs > last.atMs).length;
  // Rain is worded like the wind: what is not known is not told as dry.
  if (after > MOST_UNKNOWN) return [w.rainTo(words, time(last.atMs + HOUR_MS))];
  return [hours.length - rain.length > MOST_UNKNOWN ? w.rainKnown(words) : words];
}

function rainOf(
  hours: readonly Hour[],
  rain: readonly { readonly atMs: number; readonly value: number }[],
  { q, time, w }: Said,
): string {
  const sum = rain.reduce((total, { value }) => total + value, 0);
  const first = rain.find(({ value }) => value >= 0.1);
  if (sum < DRY_MM || first === undefined) return w.noRainAlt;
  const wet = hours.filter(({ rainMm = 0 }) => rainMm >= 0.1);
  const snow = wet.every(({ airC }) => airC !== undefined && airC <= SNOW_C);
  return (snow ? w.snowAlt : w.rainAlt)(q(sum, 'rain'), time(first.atMs));
}

/** @param fromMs the issue: what is over by then is no news */
export function weatherWords(hours: readonly Hour[], fromMs: number, said: Said): string[] {
  const left = hours.filter(({ atMs }) => atMs + HOUR_MS > fromMs);
  return [...windWords(left, said), ...rainWords(left, said)];
}
