/** What `init` has to know, and what was found out about it: facts, before a file is written. */
import type { FloodGauge, GaugeNearby, Office } from '../services/index.ts';

export interface InitAnswers {
  readonly id: string;
  readonly name: string;
  readonly latDeg: number;
  readonly lonDeg: number;
  readonly zone: string;
  readonly elevationM: number | null;
  readonly waterBody: string;
  readonly meanDepth: string;
  readonly area: string;
  readonly normalPool?: string;
  /** Longest open water the wind can blow along, with its unit; '' where nobody knows it. */
  readonly fetch: string;
  /** GeoJSON of the shore, relative to the configuration; '' without one. */
  readonly outline: string;
  readonly gauges: readonly GaugeNearby[];
  /** Gauges that were found and not taken: they stand in the file as comments. */
  readonly others: readonly GaugeNearby[];
  readonly office: Office | null;
  readonly floodGauge: FloodGauge | null;
  readonly reader?: string;
  readonly contact: string;
  readonly mailFrom: string;
  readonly transport: 'smtp' | 'directory';
  readonly baseUrl: string;
  readonly listen: string;
  readonly issueAt: string;
  /** Base addresses of services other than the public ones. */
  readonly baseUrls: Readonly<Record<string, string>>;
}

/** `Lake of the Pines` -> `lake-of-the-pines`; the id of the configuration and the address of the pages. */
export function idOf(name: string): string {
  const plain = name
    .normalize('NFKD')
    .replace(/[\u0300-\u036f]/g, '')
    .toLowerCase();
  const words = plain
    .split(/[^a-z0-9]+/)
    .filter(Boolean)
    .join('-')
    .slice(0, 40);
  return words === '' ? 'lake' : words;
}

/** Of each kind of series the nearest gauge that has a fresh value: what is offered, and taken where nobody is asked. */
export function suggested(found: readonly GaugeNearby[]): GaugeNearby[] {
  const FRESH_MIN = 24 * 60;
  const kinds = [...new Set(found.map(({ variable }) => variable))];
  return kinds.flatMap((kind) => {
    const fresh = found.filter(
      ({ variable, latest }) => variable === kind && latest !== null && latest.ageMin <= FRESH_MIN,
    );
    // Of two levels at one place the one whose datum is known.
    const [first] = fresh.sort(
      (a, b) => a.distanceKm - b.distanceKm || Number(b.datum !== undefined) - Number(a.datum !== undefined),
    );
    return first === undefined ? [] : [first];
  });
}

/** `level: USGS-01 Cold Fork at the dam, 2.1 km, 616.4 ft 12 min ago` */
export function gaugeLine({ variable, station, name, distanceKm, latest, parameter }: GaugeNearby): string {
  const value =
    latest === null ? 'no value' : `${latest.value} ${latest.unit} ${ageWords(latest.ageMin)} ago`;
  const series = parameter === undefined ? '' : ` (${parameter})`;
  return `${variable}: ${station}${series} ${name}, ${distanceKm.toFixed(1)} km, ${value}`;
}

const ageWords = (min: number): string =>
  min < 120 ? `${min} min` : min < 48 * 60 ? `${Math.round(min / 60)} h` : `${Math.round(min / 1440)} d`;
