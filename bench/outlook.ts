/**
 * Scores the water of the days ahead with archived forecasts: `npx tsx bench/outlook.ts [--bias-removed]`.
 *
 * Each issue knows a daily reading until the day before it, and the air as the product does: of days that are over the
 * weather model's own shortest lead, of days ahead the forecast as it was issued, nothing put right. With
 * `--bias-removed` the air of the past is measured and the forecast is less its mean difference from that over the 40
 * days before at that lead: what a lake that learned its forecast's bias could have. Issues of even weeks were looked at
 * when the growth of the error of forecast air was set, those of odd weeks judge it.
 */
import { readFileSync } from 'node:fs';
import { gunzipSync } from 'node:zlib';
import { Z80 } from '../src/science/index.ts';
import { dayNumber, isoDate } from '../src/units/time/calendar.ts';
import { nowcastLake, type WaterReading } from '../src/water/lake/index.ts';
import { outlookLessons, withLesson } from '../src/water/outlookLesson.ts';
import { rowsOf } from './lake-data.ts';
import { neonSites } from './neon-data.ts';

const LEADS = 10;
const BIAS_DAYS = 40;
const HISTORY_DAYS = 500;

const lake = neonSites().find(({ name }) => name === 'SUGG')!;
const airOf = new Map(lake.weather.map(({ date, airC }) => [date, airC]));
const issues = new Map<string, Map<number, number>>();
const gefs = new URL('../fixtures/water/neon/sugg_gefs.csv.gz', import.meta.url);
for (const row of rowsOf(gunzipSync(readFileSync(gefs)).toString('utf8'))) {
  const leads = issues.get(row['issue_utc']!) ?? new Map<number, number>();
  leads.set(Number(row['lead_days']), Number(row['air_mean_c']));
  issues.set(row['issue_utc']!, leads);
}

/**
 * Air as the product knows it of a day that is over: of the same weather model, its shortest lead; measured before there
 * were archived issues.
 */
const analysed = lake.weather.map((day) => {
  const told = issues.get(day.date)?.get(0);
  return told === undefined ? day : { ...day, airC: told };
});
const biasRemoved = process.argv.includes('--bias-removed');
const pastAir = biasRemoved ? lake.weather : analysed;
const cameOf = new Map(pastAir.map(({ date, airC }) => [date, airC]));

/** Mean of forecast minus measured air at a lead over the issues whose day has come, K. */
function biasC(issue: string, lead: number): number {
  if (!biasRemoved) return 0;
  const misses: number[] = [];
  for (let back = lead + 1; back <= lead + BIAS_DAYS; back++) {
    const day = dayNumber(issue) - back;
    const told = issues.get(isoDate(day))?.get(lead);
    const came = airOf.get(isoDate(day + lead));
    if (told !== undefined && came != null) misses.push(told - came);
  }
  return misses.length < 10 ? Number.NaN : misses.reduce((a, b) => a + b, 0) / misses.length;
}

interface Told {
  readonly issueDay: number;
  readonly lead: number;
  readonly model: number;
  readonly perfect: number;
  readonly held: number;
  readonly seasonal: number;
  readonly sd: number;
  readonly inside: boolean;
  readonly airMissC: number;
  readonly came: number;
}

const water = [...lake.water];
const readings: WaterReading[] = water.map(([date, waterC]) => ({
  date,
  waterC,
  depthM: 1,
  sdC: 0.1,
  source: 'logger',
}));
function seasonalC(date: string): number {
  const year = date.slice(0, 4);
  const near = water.filter(([d]) => {
    const apart = Math.abs(
      dayNumber(`2001${d.slice(4)}`.replace('02-29', '02-28')) -
        dayNumber(`2001${date.slice(4)}`.replace('02-29', '02-28')),
    );
    return d.slice(0, 4) !== year && Math.min(apart, 365 - apart) <= 7;
  });
  return near.reduce((sum, [, waterC]) => sum + waterC, 0) / near.length;
}

const told: Told[] = [];
for (const [issue, leads] of issues) {
  const day = dayNumber(issue);
  const past = pastAir.filter(({ date }) => date < issue && dayNumber(date) >= day - HISTORY_DAYS);
  const ahead = Array.from({ length: LEADS + 1 }, (_, lead) => ({
    date: isoDate(day + lead),
    airC: (leads.get(lead) ?? Number.NaN) - biasC(issue, lead),
  }));
  if (ahead.some(({ airC }) => !Number.isFinite(airC))) continue;
  const known = readings.filter(({ date }) => date < issue && dayNumber(date) >= day - HISTORY_DAYS);
  const held = lake.water.get(isoDate(day - 1));
  if (held === undefined) continue;
  const run = (airs: typeof ahead) =>
    nowcastLake(lake.lake!, [...past, ...airs], known, { firstForecastDate: isoDate(day + 1) }).days.slice(
      -LEADS - 1,
    );
  const days = run(ahead);
  const came = ahead.map(({ date, airC }) => ({ date, airC: cameOf.get(date) ?? airC }));
  const perfect = run(came);
  for (let lead = 1; lead <= LEADS; lead++) {
    const truth = lake.water.get(ahead[lead]!.date);
    const own = days[lead];
    if (truth === undefined || own === undefined) continue;
    told.push({
      issueDay: day,
      lead,
      model: own.waterC,
      perfect: perfect[lead]!.waterC,
      held,
      seasonal: seasonalC(ahead[lead]!.date),
      sd: (own.highC - own.waterC) / Z80,
      inside: truth >= own.lowC && truth <= own.highC,
      airMissC: ahead[lead]!.airC - came[lead]!.airC,
      came: truth,
    });
  }
}

const mean = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0) / values.length;

/** The same outlooks as a lake tells them that has learned from its own: by what was measured before each issue. */
const misses = told.map((t) => ({
  issuedDay: t.issueDay,
  dueDay: t.issueDay + t.lead,
  miss: {
    issued: isoDate(t.issueDay),
    leadDays: t.lead,
    date: isoDate(t.issueDay + t.lead),
    missC: t.model - t.came,
    halfC: Z80 * t.sd,
  },
}));
const lessonsOn = new Map(
  [...new Set(told.map(({ issueDay }) => issueDay))].map((day) => [
    day,
    outlookLessons(misses.filter(({ dueDay }) => dueDay < day).map(({ miss }) => miss)),
  ]),
);
const learned: Told[] = told.map((t) => {
  const half = Z80 * t.sd;
  const stated = { waterC: t.model, lowC: t.model - half, highC: t.model + half, leadDays: t.lead };
  const { waterC, lowC, highC } = withLesson(stated, lessonsOn.get(t.issueDay) ?? []);
  return { ...t, model: waterC, sd: (highC - waterC) / Z80, inside: t.came >= lowC && t.came <= highC };
});

const rmse = (of: (t: Told) => number, rows: readonly Told[]): number =>
  Math.sqrt(mean(rows.map((t) => (of(t) - t.came) ** 2)));
/** Continuous ranked probability score of a normal forecast (Gneiting et al. 2005, Mon. Wea. Rev. 133, 1098, eq. 5; from memory), K. */
function crps({ model, sd, came }: Told): number {
  const z = (came - model) / sd;
  const density = Math.exp(-(z ** 2) / 2) / Math.sqrt(2 * Math.PI);
  return sd * (z * (2 * below(z) - 1) + 2 * density - 1 / Math.sqrt(Math.PI));
}
/** Standard normal distribution (Abramowitz and Stegun 26.2.17). */
function below(z: number): number {
  const t = 1 / (1 + 0.2316419 * Math.abs(z));
  const tail =
    (Math.exp(-(z ** 2) / 2) / Math.sqrt(2 * Math.PI)) *
    t *
    (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
  return z >= 0 ? 1 - tail : tail;
}
/** 90 % interval of the coverage by drawing whole weeks of issues, since neighbours share their weather. */
function coverage(rows: readonly Told[]): string {
  const weeks = new Map<number, Told[]>();
  for (const t of rows)
    weeks.set(Math.floor(t.issueDay / 14), [...(weeks.get(Math.floor(t.issueDay / 14)) ?? []), t]);
  const blocks = [...weeks.values()];
  let seed = 11;
  const draws = Array.from({ length: 400 }, () => {
    const drawn = blocks.flatMap(
      () => blocks[Math.floor(((seed = (seed * 1664525 + 1013904223) % 2 ** 32) / 2 ** 32) * blocks.length)]!,
    );
    return mean(drawn.map(({ inside }) => (inside ? 1 : 0)));
  }).sort((a, b) => a - b);
  const percent = (share: number): string => (100 * share).toFixed(0);
  return `${percent(mean(rows.map(({ inside }) => (inside ? 1 : 0))))} % (${percent(draws[20]!)} to ${percent(draws[379]!)})`;
}

const groups: readonly (readonly [string, (lead: number) => boolean])[] = [
  ...Array.from({ length: LEADS }, (_, i) => [String(i + 1), (lead: number) => lead === i + 1] as const),
  ['1-3', (lead) => lead <= 3],
  ['4-7', (lead) => lead >= 4 && lead <= 7],
  ['8-10', (lead) => lead >= 8],
];
for (const [name, half] of [
  ['even weeks, looked at', 0],
  ['odd weeks, judged', 1],
] as const) {
  const inHalf = ({ issueDay }: Told): boolean => Math.floor(issueDay / 7) % 2 === half;
  const [rows, taught] = [told.filter(inHalf), learned.filter(inHalf)];
  console.log(`${name}: ${new Set(rows.map(({ issueDay }) => issueDay)).size} issues; RMSE in degC`);
  console.log(
    'days ahead  general  learned  perfect air   held  day of year   CRPS  learned  air RMSE  in the 80 % interval, general and learned',
  );
  for (const [label, belongs] of groups) {
    const [own, less] = [rows, taught].map((all) => all.filter(({ lead }) => belongs(lead))) as [
      Told[],
      Told[],
    ];
    const cells = [
      rmse((t) => t.model, own),
      rmse((t) => t.model, less),
      rmse((t) => t.perfect, own),
      rmse((t) => t.held, own),
      rmse((t) => t.seasonal, own),
      mean(own.map(crps)),
      mean(less.map(crps)),
      Math.sqrt(mean(own.map(({ airMissC }) => airMissC ** 2))),
    ];
    console.log(
      label.padEnd(9) +
        cells.map((c) => c.toFixed(2).padStart(9)).join('') +
        `   ${coverage(own)}; ${coverage(less)}`,
    );
  }
}
