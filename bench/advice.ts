/**
 * What one advice costs, and what of it the search for a swap takes: `npx tsx bench/advice.ts`. Times as multiples of
 * scoring all places once, which is the arithmetic that nothing of it can do without.
 */
import { advise } from '../src/advice/index.ts';
import { phaseMembership } from '../src/advice/phase.ts';
import { positionAdvice } from '../src/advice/positions/positions.ts';
import { scorePlaces } from '../src/advice/positions/score.ts';
import { knownOf } from '../src/advice/rules/known.ts';
import { smallestSwap } from '../src/advice/swap.ts';
import { loadRules } from '../src/config/rules.ts';
import type { Conditions, Figure } from '../src/signals/types.ts';

const SIGNALS = {
  waterC: 8.5,
  waterChange3dC: 0.3,
  waterChange7dC: 0.8,
  airMean24hC: 11,
  airMean3dC: 9,
  airTrend3dCPerDay: 1,
  warmingDays: 3,
  airDrop24hC: -1,
  airMinLastNightC: 3,
  airMaxTodayC: 15,
  airMinTodayC: 3,
  rain24Mm: 18,
  rain72Mm: 22,
  runoffC: 12,
  hoursSinceRain: 9,
  pocketMinusMainC: 2.5,
  pocketRenewedShare: 0.4,
  level24hM: 0.1,
  level72hM: 0.2,
  clarityM: 1.1,
  windMs: 3.5,
  cloudPct: 60,
  dayLengthH: 11.4,
  dayLengthChangeHPerWeek: 0.25,
  lowLightShare: 0.3,
  bankDeg: 25,
};
const figure = (value: number): Figure => ({
  value,
  kind: 'observed',
  asOfMs: 0,
  freshness: 'fresh',
  source: { code: 'configuration' },
});
const conditions: Conditions = {
  asOfMs: Date.parse('2026-03-05T11:00:00Z'),
  date: '2026-03-05',
  zone: 'America/Chicago',
  species: 'mixed',
  waterBody: 'highland-reservoir',
  signals: Object.fromEntries(Object.entries(SIGNALS).map(([id, value]) => [id, figure(value)])),
  gaps: [],
};
const rules = loadRules();
const known = knownOf(conditions);
const membership = phaseMembership(known, rules.phases);
const [first, second] = positionAdvice({
  known,
  membership,
  rules: rules.positions,
  today: { hours: [], localHour: () => 0, nowMs: conditions.asOfMs },
  pockets: [],
  points: [],
});
if (first === undefined || second === undefined) throw new Error('fewer than two places');

/** Median milliseconds of a call, after it has been warmed up. */
function medianMs(work: () => unknown, runs = 200): number {
  for (let run = 0; run < runs / 4; run += 1) work();
  const times = Array.from({ length: runs }, () => {
    const from = process.cpuUsage();
    work();
    const { user, system } = process.cpuUsage(from);
    return (user + system) / 1000;
  });
  return times.sort((a, b) => a - b)[Math.floor(runs / 2)] ?? 0;
}

/** A day by the hour, dull and windy enough that its places change. */
const DAWN = Date.parse('2026-03-05T12:00:00Z');
const hours = Array.from({ length: 14 }, (_, i) => ({
  fromMs: DAWN + i * 3_600_000,
  toMs: DAWN + (i + 1) * 3_600_000,
  sunAltitudeDeg: 45 * Math.sin((Math.PI * (i - 0.5)) / 12),
  airC: 3 + 12 * Math.sin((Math.PI * i) / 16),
  cloudPct: (i * 13) % 100,
  windMs: 1 + ((i * 5) % 7),
  gustMs: 3 + ((i * 5) % 9),
  windFromDeg: 200 + 4 * i,
  rainMm: i === 6 ? 2 : 0,
  thunderPct: 0,
  pocketMinusMainC: 1 + i / 6,
}));
const day = { hours, fishing: { fromMs: DAWN, toMs: DAWN + 12 * 3_600_000, own: false } };
const tackle = { reels: [], linesKg: [], castLengthM: 25 };
if (advise(conditions, rules, { tackle, day }).plan?.blocks.length === 0) throw new Error('no plan');

const once =
  medianMs(() => {
    for (let run = 0; run < 20; run += 1) scorePlaces(known, membership, rules.positions);
  }) / 20;
const rows: [string, number][] = [
  ['scoring all places once', once],
  ['the search for a swap', medianMs(() => smallestSwap(known, rules, first, second))],
  ['one advice', medianMs(() => advise(conditions, rules, { tackle }))],
  ['one with the plan of the day', medianMs(() => advise(conditions, rules, { tackle, day }))],
];
for (const [name, ms] of rows) {
  process.stdout.write(
    `${name.padEnd(28)} ${(ms / once).toFixed(1).padStart(7)} x   ${ms.toFixed(2)} ms of processor\n`,
  );
}
