import { describe, expect, it } from 'vitest';
import { understand, whatIfSchema } from '../../src/advice/whatIf/index.ts';
import { parseYaml } from '../../src/config/index.ts';

const read = (text: string) => parseYaml(text, 'day.yaml', whatIfSchema);
const dayOf = (text: string) => understand(read(text));
const at = (text: string, time: string) => {
  const { day } = dayOf(text);
  const atMs = Date.parse(`2026-04-10T${time}:00Z`);
  return day.hours.find(({ fromMs, toMs }) => atMs >= fromMs && atMs < toMs);
};

const DAY = `
date: 2026-04-10
latitude: 35
water: { main: 60 F }
wind: { speed: 3 mph }
hours:
  - { at: '06:00', air: 50 F, cloud: clear, wind: 2 mph, windFrom: NNW, gust: 6 mph, pocket: 63 F }
  - { at: '11:30', wind: 15 mph, generation: on, thunder: 20 % }
`;

describe('a day by the hour', () => {
  it('holds each field until a later hour gives it anew', () => {
    expect(at(DAY, '08:00')).toMatchObject({ cloudPct: 10, windFromDeg: 337.5 });
    expect(at(DAY, '11:15')?.windMs).toBeCloseTo(2 * 0.44704, 9);
    expect(at(DAY, '11:45')?.windMs).toBeCloseTo(15 * 0.44704, 9);
    expect(at(DAY, '11:45')?.airC).toBeCloseTo(10, 9);
    expect(at(DAY, '18:00')).toMatchObject({ generationOn: 1, thunderPct: 20 });
    expect(at(DAY, '18:00')?.pocketMinusMainC).toBeCloseTo(3 / 1.8, 9);
  });

  it('takes wind before its first hour to be as then, and a release not to have begun', () => {
    expect(at(DAY, '05:00')?.windMs).toBe(at(DAY, '06:00')?.windMs);
    expect(at(DAY, '10:00')?.generationOn).toBe(0);
  });

  it('has thunder that is named for the afternoon close no morning', () => {
    const day =
      'date: 2026-04-10\nlatitude: 34\nhours: [{ at: "14:00", thunder: 60 % }, { at: "18:00", thunder: 0 % }]\n';
    expect(at(day, '09:00')?.thunderPct).toBe(0);
    expect(at(day, '15:00')?.thunderPct).toBe(60);
    // Named at the hour the day begins, it stood before.
    expect(at(day.replace('14:00', '05:00'), '04:00')?.thunderPct).toBe(60);
  });

  it('keeps the gusts of the afternoon out of a morning whose wind is given, and not of one without', () => {
    const day = (morning: string) =>
      `date: 2026-04-10\nlatitude: 35\nhours: [{ at: "06:00", ${morning} }, { at: "13:00", wind: 20 mph, gust: 34 mph }]\n`;
    expect(at(day('wind: 5 mph'), '08:00')?.gustMs).toBeCloseTo(5 * 0.44704, 9);
    expect(at(day('wind: 5 mph'), '14:00')?.gustMs).toBeCloseTo(34 * 0.44704, 9);
    expect(at(day('air: 50 F'), '08:00')?.gustMs).toBeCloseTo(34 * 0.44704, 9);
  });

  it('lets a gust that only holds on be overtaken by a stronger wind', () => {
    expect(at(DAY, '12:00')?.gustMs).toBeCloseTo(15 * 0.44704, 9);
  });

  it('replaces the value of the day by its hours', () => {
    const { signals } = dayOf(DAY).conditions;
    expect(signals.windMs!.value).toBeGreaterThan(3 * 0.44704);
    expect(signals.windMaxMs!.value).toBeCloseTo(15 * 0.44704, 9);
    expect(signals.cloudPct!.value).toBeCloseTo(10, 9);
    expect(signals.pocketC!.value).toBeCloseTo(63 / 1.8 - 32 / 1.8, 9);
  });

  // Meeus, Astronomical Algorithms, and the almanac: at 35 degrees north on 10 April the sun is up for 12.85 hours.
  it('works out the fishing hours from date, latitude and noon', () => {
    const { fishing } = dayOf('date: 2026-04-10\nlatitude: 35\n').day;
    const hours = (fishing!.toMs - fishing!.fromMs) / 3_600_000;
    expect(hours).toBeGreaterThan(12.85 + 2 * 0.38);
    expect(hours).toBeLessThan(12.85 + 2 * 0.5);
    expect((fishing!.fromMs + fishing!.toMs) / 2).toBe(Date.parse('2026-04-10T12:00:00Z'));
  });

  it('puts the sun where its given times say', () => {
    const text = "sun: { dawn: '06:00', rise: '06:30', set: '18:50', dusk: '19:20' }\ndate: 2026-04-10\n";
    const { day } = dayOf(text);
    const altitude = (time: string) => {
      const atMs = Date.parse(`2026-04-10T${time}:00Z`);
      return day.hours.find(({ fromMs, toMs }) => atMs >= fromMs && atMs < toMs)!.sunAltitudeDeg!;
    };
    expect(day.fishing).toEqual({
      fromMs: Date.parse('2026-04-10T06:00:00Z'),
      toMs: Date.parse('2026-04-10T19:20:00Z'),
      own: false,
    });
    expect(altitude('06:30')).toBeCloseTo(-0.8, 0);
    expect(altitude('12:40')).toBeGreaterThan(60);
  });

  it('estimates where the layer stands in warm still water that says nothing of it, with how far that is known', () => {
    const { layer, day, assumptions } = dayOf(
      'waterBody: natural-lake\nwater: { main: 80 F }\nwind: { fetch: 3 km }',
    );
    // Hanna (1990): 8.4 m for 3 km of open water, as in src/science/thermocline.ts.
    expect(layer?.depthM).toBeCloseTo(8.4, 1);
    expect(layer!.lowM).toBeLessThan(layer!.depthM);
    expect(layer!.highM).toBeGreaterThan(layer!.depthM);
    expect(day.limitM).toBeLessThan(layer!.depthM);
    expect(assumptions).toContainEqual({ code: 'layer', ...layer, of: 'openWater' });
  });

  it('leaves a wider interval where nothing tells the size of the lake', () => {
    const of = (rest: string) => dayOf(`waterBody: natural-lake\nwater: { main: 80 F }\n${rest}`).layer!;
    const width = ({ lowM, highM }: { lowM: number; highM: number }) => highM / lowM;
    expect(width(of(''))).toBeGreaterThan(width(of('wind: { fetch: 2 km }')));
  });

  it.each([
    ['the form says it', 'layer: { depth: 20 ft }\nwater: { main: 80 F }'],
    ['the form says where the oxygen ends', 'oxygenDepth: 20 ft\nwater: { main: 80 F }'],
    ['the water runs', 'waterBody: tailwater\nwater: { main: 80 F }'],
    ['the water is cool', 'water: { main: 60 F }'],
    ['the bottom has oxygen', 'water: { main: 80 F, bottomOxygen: 7 mg/L }'],
  ])('estimates no layer where %s', (_, text) => {
    expect(dayOf(text).layer).toBeUndefined();
  });

  // 8,000 cfs through 300 by 12 ft run 2.22 ft/s in the mean; at the surface 1/0.85 of that (USGS WSP 2175, from memory).
  it('works the current out of the flow where the section is told, and else leaves it unknown', () => {
    const flow = (rest: string) =>
      dayOf(`waterBody: tailwater\nflow: { discharge: 8000 cfs${rest} }`).conditions;
    expect(flow(', width: 300 ft, depth: 12 ft').signals.currentMs?.value).toBeCloseTo(
      (8000 / 3600 / 0.85) * 0.3048,
      4,
    );
    expect(flow(', width: 300 ft').signals.currentMs).toBeUndefined();
    expect(flow('').gaps.map(({ id }) => id)).toContain('currentMs');
    expect(flow(', width: 300 ft, depth: 12 ft, current: 1 ft/s').signals.currentMs?.value).toBeCloseTo(
      0.3048,
      6,
    );
  });

  it('knows no fishing hours without date, sun or hours of the reader', () => {
    expect(dayOf('water: { main: 60 F }').day.fishing).toBeNull();
  });

  it.each([
    [`fishing: { from: '18:00', to: '06:00' }`, /fishing\.to: fishing ends at 06:00, before it begins/],
    [`sun: { rise: '07:00', set: '06:00' }`, /sun\.set: set at 06:00 is not after rise/],
    [`hours: [{ at: '08:00' }, { at: '07:00' }]`, /hours\.1\.at: 07:00 is not after 08:00/],
    [`hours: [{ at: '08:00', wind: 10 mph, gust: 5 mph }]`, /at 08:00 the gusts are weaker than the wind/],
    [`air: { highToday: 60 F }\nhours: [{ at: '13:00', air: 70 F }]`, /warmer than air\.highToday/],
    [`places: { has: [dock], hasNot: [dock] }`, /"dock" stands under has and under hasNot/],
    [`places: [dock, dok]`, /dok|places/],
    [`rain: { last24h: 2 in, last72h: 1 in }`, /rain\.last72h: less rain than in rain\.last24h/],
    [`hours: [{ at: '8:00' }]`, /expected a local time in quotes/],
    [`hours: [{ at: '08:00', windFrom: NNX }]`, /clockwise from north/],
    [`hours: [{ at: '08:00', wind: 10 }]`, /hours\.0\.wind: found 10 without a unit/],
    [`hours: [{ at: '08:00', fog: 10 }]`, /fog/],
    [`hours: []`, /expected at least one hour/],
  ])('says what is wrong with %j', (text, message) => {
    expect(() => read(text)).toThrow(message);
  });
});
