import type { Form } from '../advice/support.ts';

/** The same row of numbers for the same seed, 0 to below 1 (mulberry32). */
export function numbers(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296;
  };
}

const WATERS = [
  'highland-reservoir',
  'hill-land-reservoir',
  'run-of-river',
  'tailwater',
  'natural-lake',
  'pond',
];
const SPECIES = ['largemouth', 'spotted', 'smallmouth', 'mixed'];

/** A day as it may be: season and water together, the rest at chance, some of it unknown. */
export function randomForm(next: () => number): Form {
  const between = (low: number, high: number): number => low + (high - low) * next();
  const one = <T>(list: readonly T[]): T => list[Math.floor(next() * list.length)]!;
  const often = (share: number): boolean => next() < share;
  const c = (value: number): string => `${value.toFixed(1)} C`;
  const month = Math.floor(between(1, 13));
  const season = 16.5 - 11.5 * Math.cos(((month - 1.5) / 12) * 2 * Math.PI);
  const water = Math.max(2, Math.min(33, season + between(-5, 5)));
  const waterBody = one(WATERS);
  const river = waterBody === 'tailwater' || waterBody === 'run-of-river';
  let at = Math.floor(between(0, 5));
  const hours: Form[] = [];
  while (at < 22) {
    const windMs = between(0, 1) ** 2 * 16;
    hours.push({
      at: `${String(at).padStart(2, '0')}:${one(['00', '00', '30'])}`,
      air: c(water + between(-9, 9)),
      cloud: `${Math.round(between(0, 100))} %`,
      ...(often(0.9) ? { wind: `${windMs.toFixed(1)} m/s` } : {}),
      ...(often(0.4)
        ? { gust: `${(windMs * 1.5 + 1).toFixed(1)} m/s`, windFrom: Math.round(between(0, 360)) }
        : {}),
      ...(often(0.3) ? { rain: `${between(0, 8).toFixed(1)} mm` } : {}),
      ...(often(0.3) ? { thunder: `${Math.round(between(0, 1) ** 3 * 100)} %` } : {}),
      ...(often(0.4) ? { pocket: c(water + between(-3, 5)) } : {}),
      ...(waterBody !== 'pond' && often(0.3) ? { generation: one(['on', 'off']) } : {}),
    });
    at += Math.floor(between(1, 7));
  }
  return {
    date: `2026-${String(month).padStart(2, '0')}-${String(Math.floor(between(1, 29))).padStart(2, '0')}`,
    latitude: Math.round(between(28, 46)),
    species: one(SPECIES),
    waterBody,
    ...(often(0.2) ? { fishing: { from: '06:00', to: one(['09:30', '12:00', '20:00']) } } : {}),
    ...(often(0.3) ? { layer: { depth: `${between(3, 9).toFixed(1)} m` } } : {}),
    water: {
      main: c(water),
      ...(often(0.8) ? { change7d: `${between(-3, 3).toFixed(1)} C` } : {}),
      ...(often(0.8) ? { clarity: `${between(0.2, 4).toFixed(1)} m` } : {}),
    },
    air: { mean24h: c(water + between(-6, 6)), mean3d: c(water + between(-5, 5)) },
    ...(often(0.7) ? { level: { change24h: `${between(-0.4, 0.4).toFixed(2)} m` } } : {}),
    ...(river ? { flow: { current: `${between(0, 1.2).toFixed(2)} m/s` } } : {}),
    ...(often(0.6)
      ? { hours }
      : { wind: { speed: `${between(0, 12).toFixed(1)} m/s` }, sky: one(['clear', 'partly', 'overcast']) }),
  };
}
