/** An invented lake and readers for outings. */
import type { LakeConfig } from '../../src/config/types.ts';
import { readOuting, UNTOLD, type ReadOuting, type WrittenOuting } from '../../src/outings/index.ts';
import type { OutingEntry } from '../../src/record/index.ts';

/** 07:00 in the morning of a Friday at the lake. */
export const NOW = Date.UTC(2026, 2, 6, 13);

export const LAKE: LakeConfig = {
  id: 'pine-hollow',
  name: 'Pine Hollow Lake',
  latDeg: 35.5,
  lonDeg: -92.5,
  zone: 'America/Chicago',
  waterBody: 'highland-reservoir',
  meanDepthM: 12,
  areaKm2: 12,
  bankDeg: 20,
  belowDam: false,
  species: 'mixed',
  weather: ['open-meteo'],
  alerts: 'none',
  gauges: [],
  pockets: [{ id: 'mill', name: 'Mill Pocket', landCover: 'wooded' }],
  points: [{ name: 'Heron Point', place: 'main_point' }],
  issueAt: '05:15',
  graceMinutes: 180,
  eveningOutlook: false,
  demo: true,
};

export const WHOLE: WrittenOuting = {
  ...UNTOLD,
  date: '2026-03-05',
  from: '06:30',
  to: '11:00',
  places: ['Heron Point'],
  lures: ['jerkbait'],
  bites: '4',
  fish: '2',
  biggest: '2.4 lb',
  water: '49 F',
  clarity: '4 ft',
  note: 'North bank.',
};

export const read = (change: Partial<WrittenOuting> = {}, readerId = 'ann'): ReadOuting =>
  readOuting({ ...WHOLE, ...change }, { lake: LAKE, readerId, nowMs: NOW });

/** @throws Error when it is none */
export function entry(change: Partial<WrittenOuting> = {}, readerId = 'ann'): OutingEntry {
  const made = read(change, readerId);
  if (!('outing' in made))
    throw new Error(made.problems.map(({ field, fault }) => `${field} ${fault.code}`).join());
  return made;
}
