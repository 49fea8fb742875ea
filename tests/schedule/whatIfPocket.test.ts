/** A what-if's pocket that faces a side gets the sun of that side. */
import { describe, expect, it } from 'vitest';
import { understand, whatIfSchema, type Understood } from '../../src/advice/whatIf/index.ts';
import { parseYaml } from '../../src/config/index.ts';
import { loadRules } from '../../src/config/rules.ts';
import { clearSkyWm2, cloudTransmission, sunPosition } from '../../src/science/index.ts';
import { whatIfAnswer } from '../../src/schedule/whatIfAnswer.ts';
import { withPocketSun } from '../../src/schedule/whatIfPocket.ts';
import { guessedHorizon } from '../../src/signals/index.ts';
import { expandQuantities } from '../../src/units/placeholder.ts';
import { classPocket } from '../../src/water/pocket/index.ts';
import { say } from '../../src/words/catalogue.ts';
import { wordsFor } from '../../src/words/index.ts';

const form = (more: Record<string, string> = {}): string =>
  Object.entries({
    date: '2026-01-20',
    latitude: '46',
    sky: 'clear',
    air: '{ overnightLow: 34 F, highToday: 50 F, mean24h: 42 F }',
    wind: '{ speed: 3 mph }',
    water: '{ main: 43 F }',
    ...more,
  })
    .filter(([, value]) => value !== '')
    .map(([key, value]) => `${key}: ${value}\n`)
    .join('');
const read = (more?: Record<string, string>) => parseYaml(form(more), 'day.yaml', whatIfSchema);
const facing = (facesDeg: number | undefined, more?: Record<string, string>): Understood =>
  withPocketSun(understand(read(more)), facesDeg);
const sunOf = ({ assumptions }: Understood) => assumptions.find((one) => one.code === 'pocketSun');
const at = ({ day }: Understood, hour: number): number => {
  const atMs = Date.parse(`2026-01-20T${String(hour).padStart(2, '0')}:30:00Z`);
  return day.hours.find(({ fromMs, toMs }) => fromMs <= atMs && toMs > atMs)?.pocketMinusMainC ?? NaN;
};

describe('the pocket of a what-if', () => {
  it('warms more open to the south than to the north, by no more than the sun brings', () => {
    const told = sunOf(facing(180));
    if (told === undefined) throw new Error('nothing told');
    const more = told.differenceC - told.oppositeC;
    expect(more).toBeGreaterThan(0.02);
    // Energy balance: what the sun brings straight to one and not to the other, at most, over the four days that are run,
    // in water of the pocket's depth (heat capacity 4186 J/kg/K, 1000 kg/m3): it loses some of that to air and lake.
    const { areaM2, meanDepthM } = classPocket('small');
    const horizons = [180, 0].map((deg) => guessedHorizon(deg, 'mixed', areaM2));
    const shines = (horizon: readonly number[], altitude: number, azimuth: number): boolean => {
      const place = (azimuth / 360) * horizon.length;
      const [a, b] = [Math.floor(place) % horizon.length, Math.ceil(place) % horizon.length];
      const from = horizon[a] ?? 0;
      return altitude > from + (place - Math.floor(place)) * ((horizon[b] ?? 0) - from);
    };
    let joules = 0;
    for (let quarter = 0; quarter < 96; quarter += 1) {
      const ms = Date.parse('2026-01-20T00:00:00Z') + (quarter + 0.5) * 900_000;
      const { altitudeDeg, azimuthDeg } = sunPosition(46, 0, ms);
      const [south, north] = horizons.map((horizon) => shines(horizon, altitudeDeg, azimuthDeg));
      if (altitudeDeg > 0 && south !== north)
        joules += 900 * clearSkyWm2(altitudeDeg) * cloudTransmission(10) * (south === true ? 1 : -1);
    }
    expect(joules).toBeGreaterThan(0);
    expect(more).toBeLessThan((4 * joules) / (4186 * 1000 * meanDepthM));
  });

  it('has the sun of its side at its hour: open to the east it is ahead in the morning, behind in the evening', () => {
    const [east, west] = [facing(90), facing(270)];
    const gained = (of: Understood, from: number, to: number): number => at(of, to) - at(of, from);
    expect(gained(east, 7, 9)).toBeGreaterThan(gained(west, 7, 9));
    expect(gained(west, 14, 16)).toBeGreaterThan(gained(east, 14, 16));
  });

  it('is warmer under a clear sky than under cloud, as the same side gets less', () => {
    expect(sunOf(facing(180))?.differenceC ?? 0).toBeGreaterThan(
      sunOf(facing(180, { sky: 'overcast' }))?.differenceC ?? 0,
    );
  });

  it('follows the sun south of the equator, where the north side is the warm one', () => {
    const told = sunOf(facing(0, { latitude: '-46', date: '2026-07-20' }));
    expect((told?.differenceC ?? 0) - (told?.oppositeC ?? 0)).toBeGreaterThan(0.02);
  });

  it.each([
    ['that somebody measured', { water: '{ main: 43 F, pocket: 47 F }' }],
    ['of a day without a date', { date: '' }],
    ['under a sky that nobody tells', { sky: '' }],
    ['in air that nobody tells', { air: '{ warmingDays: 3 }' }],
    ['beside a lake that nobody measured', { water: '{ clarity: 4 ft }' }],
  ])('%s stays as it was', (_, more) => {
    const before = understand(read(more));
    expect(withPocketSun(before, 180)).toEqual(before);
  });

  it('that faces no side stays as it was', () => {
    const before = understand(read());
    expect(withPocketSun(before, undefined)).toEqual(before);
  });

  it('keeps what rain has done to it, and tells the sun beside it', () => {
    const rain = { rain: '{ last24h: 1.2 in, temperature: 55 F, hoursSince: 6 }' };
    const wet = facing(180, rain);
    const before = understand(read(rain)).conditions.signals.pocketMinusMainC?.value ?? NaN;
    expect(sunOf(wet)?.differenceC).toBeCloseTo((sunOf(facing(180))?.differenceC ?? NaN) + before, 6);
  });

  it('is said in the answer, with its side, its hours of sun, its hour and the other side', () => {
    const answer = whatIfAnswer(read({ places: '{ faces: { pocket: S } }' }), loadRules(), {
      reels: [],
      linesKg: [],
      castLengthM: 23,
    });
    const told = sunOf(answer.understood);
    if (told === undefined) throw new Error('nothing told');
    expect(expandQuantities(say(wordsFor('en').whatIf.assumed, told), 'us')).toMatch(
      /^A pocket open to the south has about \d+ h of direct sun on such a day\. By its heat balance it is \d+ °F warmer than the main lake at 1\d:00, when it is at its warmest; open to the north it would be .*\. A small pocket with trees on its other sides was taken; check with a thermometer\.$/,
    );
    expect(answer.understood.conditions.gaps.map(({ id }) => id)).not.toContain('pocketMinusMainC');
  });
});
