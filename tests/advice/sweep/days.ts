import type { Form } from '../support.ts';

const WATERS = [
  'highland-reservoir',
  'hill-land-reservoir',
  'run-of-river',
  'tailwater',
  'natural-lake',
  'pond',
] as const;
const SPECIES = ['largemouth', 'spotted', 'smallmouth', 'mixed'] as const;
const MINUTES = ['00', '15', '30', '45'] as const;

const clock = (hour: number, minute: string): string => `${String(hour).padStart(2, '0')}:${minute}`;

/**
 * A day as hostile as a day may be: any month and latitude, ice and heat, floods, gales, blind water, hours at quarter
 * steps, a reader who fishes nights. In C, m and m/s.
 */
export function wildDay(next: () => number): Form {
  const between = (low: number, high: number): number => low + (high - low) * next();
  const one = <T>(list: readonly T[]): T => list[Math.floor(next() * list.length)]!;
  const often = (share: number): boolean => next() < share;
  const c = (value: number): string => `${value.toFixed(1)} C`;
  const month = 1 + Math.floor(between(0, 12));
  const latitude = Math.round(between(25, 50));
  const season =
    17 - 0.35 * (latitude - 35) - (9 + 0.2 * (latitude - 25)) * Math.cos(((month - 1.5) / 12) * 2 * Math.PI);
  const water = Math.max(0.5, Math.min(34, season + between(-6, 6)));
  const waterBody = one(WATERS);
  const runs = waterBody === 'tailwater' || waterBody === 'run-of-river';
  const hours: Form[] = [];
  for (let at = Math.floor(between(0, 6)); at < 24; at += 1 + Math.floor(between(0, 6))) {
    const wind = between(0, 1) ** 2 * 18;
    hours.push({
      at: clock(at, one(MINUTES)),
      air: c(water + between(-14, 12)),
      cloud: `${Math.round(between(0, 100))} %`,
      ...(often(0.9) ? { wind: `${wind.toFixed(1)} m/s` } : {}),
      ...(often(0.3) ? { gust: `${(wind * 1.6 + 1).toFixed(1)} m/s` } : {}),
      ...(often(0.4) ? { windFrom: Math.round(between(0, 360)) } : {}),
      ...(often(0.3) ? { rain: `${(between(0, 1) ** 2 * 20).toFixed(1)} mm` } : {}),
      ...(often(0.25) ? { thunder: `${Math.round(between(0, 1) ** 2 * 100)} %` } : {}),
      ...(often(0.35) ? { pocket: c(Math.max(0, water + between(-5, 7))) } : {}),
      ...(waterBody !== 'pond' && often(0.3) ? { generation: one(['on', 'off']) } : {}),
    });
  }
  const [from, to] = one([
    ['00:00', '06:30'],
    ['04:15', '09:45'],
    ['06:00', '20:00'],
    ['17:15', '23:45'],
    ['10:00', '11:45'],
  ] as const);
  return {
    date: `2026-${String(month).padStart(2, '0')}-${String(1 + Math.floor(between(0, 28))).padStart(2, '0')}`,
    latitude,
    species: one(SPECIES),
    waterBody,
    ...(often(0.25) ? { fishing: { from, to } } : {}),
    ...(often(0.2) ? { layer: { depth: `${between(2, 10).toFixed(1)} m` } } : {}),
    ...(often(0.1) ? { oxygenDepth: `${between(1.5, 9).toFixed(1)} m` } : {}),
    ...(often(0.4) ? { bank: one(['gentle', 'medium', 'steep']) } : {}),
    water: {
      main: c(water),
      ...(often(0.7) ? { change7d: `${between(-5, 5).toFixed(1)} C` } : {}),
      ...(often(0.8) ? { clarity: `${(0.08 + between(0, 1) ** 2 * 6).toFixed(2)} m` } : {}),
    },
    air: { mean24h: c(water + between(-10, 8)), mean3d: c(water + between(-6, 6)) },
    ...(often(0.4) ? { rain: { last72h: `${(between(0, 1) ** 2 * 90).toFixed(0)} mm` } } : {}),
    ...(often(0.6)
      ? {
          level: {
            change24h: `${(between(-1, 1) ** 3 * 2).toFixed(2)} m`,
            change72h: `${(between(-1, 1) ** 3 * 3).toFixed(2)} m`,
          },
        }
      : {}),
    ...(runs || often(0.1) ? { flow: { current: `${(between(0, 1) ** 2 * 2).toFixed(2)} m/s` } } : {}),
    ...(often(0.7)
      ? { hours }
      : {
          wind: { speed: `${(between(0, 1) ** 2 * 15).toFixed(1)} m/s` },
          sky: one(['clear', 'partly', 'overcast']),
        }),
  };
}
