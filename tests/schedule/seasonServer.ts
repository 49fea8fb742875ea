/** A weather archive on loopback: an invented year without end, hour by hour, for whatever span is asked. */
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { WEATHER_UNITS } from '../../src/cli/demoServer.ts';

const DAY_S = 86_400;

export interface SeasonServer {
  readonly url: string;
  /** First day of each span that was asked for. */
  readonly asked: string[];
  /** Share of the hours that come; the rest is cut off. */
  share: number;
  /** A column of which the second half comes empty; '' for none. */
  hollow: string;
  close(): Promise<void>;
}

function hourly(fromS: number, hours: number): Record<string, number[]> {
  const time = Array.from({ length: hours }, (_, h) => fromS + h * 3600);
  const yearly = (s: number): number => Math.sin(((s / DAY_S - 110) / 365.25) * 2 * Math.PI);
  const daily = (s: number): number => Math.sin(((s % DAY_S) / DAY_S - 0.58) * 2 * Math.PI);
  // Spells of five days, so that mornings differ.
  const spell = (s: number): number =>
    Math.sin((s / DAY_S / 5) * 2 * Math.PI) + Math.sin((s / DAY_S / 3.3) * 2 * Math.PI);
  const each = (f: (s: number) => number): number[] => time.map((s) => Number(f(s).toFixed(2)));
  return {
    time,
    temperature_2m: each((s) => 15 + 11 * yearly(s) + 4 * daily(s) + 3 * spell(s)),
    relative_humidity_2m: each((s) => 70 - 15 * daily(s)),
    precipitation: each((s) => (spell(s) < -1.6 ? 1.5 : 0)),
    wind_speed_10m: each((s) => 12 + 6 * spell(s)),
    wind_gusts_10m: each((s) => 20 + 9 * spell(s)),
    wind_direction_10m: each((s) => 180 + 90 * Math.sin(s / DAY_S)),
    cloud_cover: each((s) => 50 - 30 * spell(s) * 0.5),
    surface_pressure: each((s) => 990 + 5 * spell(s)),
    shortwave_radiation: each((s) => Math.max(0, 500 * daily(s))),
  };
}

const hollowed = (columns: Record<string, number[]>, hollow: string): Record<string, (number | null)[]> =>
  Object.fromEntries(
    Object.entries(columns).map(([name, values]) => [
      name,
      name === hollow ? values.map((value, i) => (i < values.length / 2 ? value : null)) : values,
    ]),
  );

export async function startSeasonServer(): Promise<SeasonServer> {
  const state = { asked: [] as string[], share: 1, hollow: '' };
  const server = createServer((request, response) => {
    const { searchParams } = new URL(request.url ?? '/', 'http://localhost');
    const from = searchParams.get('start_date') ?? '';
    const to = searchParams.get('end_date') ?? '';
    state.asked.push(from);
    const fromS = Date.parse(`${from}T00:00:00Z`) / 1000;
    const hours = (Date.parse(`${to}T00:00:00Z`) / 1000 - fromS) / 3600 + 24;
    response.setHeader('Content-Type', 'application/json');
    response.end(
      JSON.stringify({
        latitude: 36,
        longitude: -92,
        utc_offset_seconds: 0,
        timezone: 'GMT',
        hourly_units: { time: 'unixtime', ...WEATHER_UNITS },
        hourly: hollowed(hourly(fromS, Math.floor(hours * state.share)), state.hollow),
      }),
    );
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  return Object.assign(state, {
    url: `http://127.0.0.1:${(server.address() as AddressInfo).port}`,
    close: () => new Promise<void>((resolve) => server.close(() => resolve())),
  });
}
