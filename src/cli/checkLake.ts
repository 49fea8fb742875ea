/** Proves one lake: what its gauges say now, whether its numbers fit each other, and what its page would not know. */
import { IANAZone } from 'luxon';
import { type GaugeConfig, type LakeConfig, MOST_LAT } from '../config/index.ts';
import { DAY_MS, HOUR_MS } from '../units/time/index.ts';
import { siUnitOf, type RecordView } from '../record/index.ts';
import { gaugeSeries, type SignalReport } from '../signals/index.ts';
import { eighthOf, expandQuantities } from '../units/index.ts';
import { say, wordsFor } from '../words/index.ts';

/** One line of the proof: well, or what is wrong and how to mend it. */
export interface Finding {
  readonly ok: boolean;
  readonly sentence: string;
}

const well = (sentence: string): Finding => ({ ok: true, sentence });
const wrong = (sentence: string): Finding => ({ ok: false, sentence });

/** Solar time differs from a zone's by no more than this, h, anywhere people fish for bass. */
const MOST_OFF_H = 3;

/** Whether the position lies where the zone keeps its clocks: a forgotten west sign is the usual slip. */
export function zoneFinding({ latDeg, lonDeg, zone }: LakeConfig, nowMs: number): Finding {
  const offH = (lon: number): number => {
    const zoneH = IANAZone.create(zone).offset(nowMs) / 60;
    // Round the date line the nearer way counts.
    return Math.abs(((((lon / 15 - zoneH) % 24) + 36) % 24) - 12);
  };
  const where = `${latDeg}, ${lonDeg}`;
  if (offH(lonDeg) <= MOST_OFF_H) return well(`position ${where} fits the zone ${zone}`);
  if (offH(-lonDeg) <= MOST_OFF_H)
    return wrong(
      `position ${where} does not lie in the zone ${zone}, but ${latDeg}, ${-lonDeg} does: was the sign of the longitude forgotten (west is negative)?`,
    );
  if (Math.abs(lonDeg) <= MOST_LAT && offH(latDeg) <= MOST_OFF_H)
    return wrong(
      `position ${where} does not lie in the zone ${zone}, but ${lonDeg}, ${latDeg} does: lat and lon look swapped.`,
    );
  return wrong(
    `position ${where} does not lie in the zone ${zone}: sun and local days would be off by ${offH(lonDeg).toFixed(0)} hours. Correct one of them.`,
  );
}

/** Pockets deeper or larger than the lake they belong to, points on no water of the lake. */
export function shapeFindings(lake: LakeConfig): Finding[] {
  const lakeM2 = lake.areaKm2 * 1e6;
  return lake.pockets.flatMap(({ id, meanDepthM, areaM2 }) => [
    ...(meanDepthM !== undefined && meanDepthM > lake.meanDepthM
      ? [
          wrong(
            `pocket ${id}: its mean depth of ${meanDepthM.toFixed(1)} m is more than the lake's ${lake.meanDepthM.toFixed(1)} m. Check number and unit.`,
          ),
        ]
      : []),
    ...(areaM2 !== undefined && areaM2 > lakeM2 / 2
      ? [
          wrong(
            `pocket ${id}: ${(areaM2 / 1e6).toFixed(2)} km2 are more than half of the lake's ${lake.areaKm2.toFixed(2)} km2. Check number and unit.`,
          ),
        ]
      : []),
  ]);
}

/** What was read from the outline, so that a wrong file is seen at once. */
export function outlineFindings({ shape, areaKm2, pockets, points, ramps = [] }: LakeConfig): Finding[] {
  if (shape === undefined) return [];
  const { outline, places, longestFetchM } = shape;
  const unplaced = [...pockets, ...points, ...ramps].filter(({ position }) => position === undefined);
  return [
    well(
      `outline: ${(outline.areaM2 / 1e6).toFixed(2)} km2 (area says ${areaKm2.toFixed(2)}), ${outline.shores} shores, ${outline.pointsRead} points read, ${outline.pointsKept} kept, longest open water ${(longestFetchM / 1000).toFixed(1)} km, which counts for the waves in place of fetch`,
    ),
    ...places.map(({ name, bankM, facesDeg, fetchesM }) =>
      well(
        `outline: ${name} lies ${Math.round(bankM)} m from the shore, is open to ${COMPASS[eighthOf(facesDeg)] ?? ''}, open water up to ${(Math.max(...fetchesM) / 1000).toFixed(1)} km`,
      ),
    ),
    ...places.flatMap(({ name, cove }) =>
      cove === undefined
        ? []
        : [
            well(
              `outline: ${name} has a mouth of about ${cove.mouthWidthM} m and ${(cove.areaM2 / 1e4).toFixed(1)} ha behind it, used where the configuration names none`,
            ),
          ],
    ),
    ...(unplaced.length === 0
      ? []
      : [
          well(
            `outline: ${unplaced.map(({ name }) => name).join(', ')} stand on no map: give each a position: { lat, lon }`,
          ),
        ]),
  ];
}

/** What only the operator can give, said to the operator: readers have no configuration. */
export function waveFindings({ fetchM }: LakeConfig): Finding[] {
  return fetchM === undefined
    ? [
        well(
          'waves are not estimated: give the longest open water the wind can blow along (fetch: 3.5 mi) or the shore (outline: lake.geojson)',
        ),
      ]
    : [];
}

const COMPASS = ['N', 'NE', 'E', 'SE', 'S', 'SW', 'W', 'NW'];

const ageWords = (ms: number): string =>
  ms < 2 * HOUR_MS
    ? `${Math.round(ms / 60_000)} min`
    : ms < 2 * DAY_MS
      ? `${Math.round(ms / HOUR_MS)} h`
      : `${Math.round(ms / DAY_MS)} days`;

const rounded = (value: number): string => String(Number(value.toPrecision(5)));

/** A value this old is no longer "now" for anything. */
const STALE_MS = DAY_MS;

/** Value, unit, age and datum of a gauge. */
export function gaugeFinding(gauge: GaugeConfig, lake: LakeConfig, view: RecordView): Finding {
  const label = `${gauge.variable} ${gauge.service} ${gauge.station}${gauge.parameter === undefined ? '' : `/${gauge.parameter}`}`;
  const [series] = gaugeSeries(view, { ...lake, gauges: [gauge] }, gauge.variable);
  if (series === undefined)
    return wrong(
      gauge.service === 'csv'
        ? `${label}: no value that can be believed came from ${gauge.csv?.path ?? 'its file'}. Check what the file holds of the last days, and its unit, zone and timeFormat here, or remove the gauge.`
        : `${label}: no value came. Check station and parameter at the service, or remove the gauge.`,
    );
  const ageMs = view.asOfMs - series.lastMs;
  const datum = series.datum === '' ? '' : `, datum ${series.datum}`;
  const said = `${label}: ${rounded(series.lastValue)} ${siUnitOf(gauge.variable)}, ${ageWords(ageMs)} old${datum}`;
  if (ageMs > STALE_MS) return wrong(`${said}. It is silent: name another gauge behind it, or remove it.`);
  if (
    gauge.variable === 'level' &&
    series.datum !== '' &&
    gauge.datum !== undefined &&
    series.datum !== gauge.datum
  )
    return wrong(`${said}, but the configuration says ${gauge.datum}. Correct the datum.`);
  return well(said);
}

/** What the page must know to be worth reading, and what gives it. */
const NEEDED = [
  {
    id: 'waterC',
    what: 'water temperature',
    cure: 'add a water_temp gauge, give a reading (thawline reading add), or let the weather history be fetched (weather: [open-meteo])',
  },
  {
    id: 'windMs',
    what: 'wind',
    cure: 'add a weather service: weather: [open-meteo], inside the US also nws',
  },
  { id: 'levelM', what: 'lake level', cure: 'add a level gauge; thawline init lists those near by' },
] as const;

/** Refuses a page that would not know water, wind or level; and says all else it would not know. */
export function pageFindings(report: SignalReport): Finding[] {
  const { signals, gaps } = report.conditions;
  return [
    ...NEEDED.map(({ id, what, cure }) =>
      signals[id] === undefined
        ? wrong(`today's page would not know the ${what}: ${cure}.`)
        : well(`${what} is known`),
    ),
    ...gaps
      .filter(({ id }) => !NEEDED.some((one) => one.id === id))
      .map(({ fact }) =>
        well(`the page will say: ${expandQuantities(say(wordsFor('en').signals.gap, fact), 'metric')}`),
      ),
  ];
}

/** The level beside normal pool: farther off than a lake moves is another datum or unit. */
export function poolFinding(lake: LakeConfig, report: SignalReport): Finding[] {
  if (lake.normalPoolM === undefined) return [];
  const { levelM, levelVsNormalM } = report.conditions.signals;
  if (levelVsNormalM !== undefined)
    return [well(`level is ${rounded(levelVsNormalM.value)} m from normal pool`)];
  if (levelM === undefined) return [];
  return [
    wrong(
      `level (${rounded(levelM.value)} m) and normalPool (${rounded(lake.normalPoolM)} m) cannot be set against each other: other datum or unit. Check normalPool, normalPoolDatum and the gauge's datum.`,
    ),
  ];
}
