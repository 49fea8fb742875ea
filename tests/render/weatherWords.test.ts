/** The day's wind and rain in words, as a reader hears them: the Beaufort scale calls less than 0.3 m/s calm (WMO). */
import { describe, expect, it } from 'vitest';
import { weatherWords } from '../../src/render/charts/weatherWords.ts';
import { formatQuantity } from '../../src/units/index.ts';
import { wordsFor } from '../../src/words/index.ts';

const HOUR = 3_600_000;
const START = Date.UTC(2026, 2, 6, 12);

interface Blown {
  readonly from?: number;
  readonly windMs?: number;
  readonly gustMs?: number;
  readonly rainMm?: number;
  readonly airC?: number;
}

const said = (hours: readonly Blown[], issued = START): string =>
  weatherWords(
    hours.map(({ from, ...hour }, i) => ({
      atMs: START + i * HOUR,
      sunAltitudeDeg: 20,
      forecast: true,
      ...(from === undefined ? {} : { windDirDeg: from }),
      ...hour,
    })),
    issued,
    {
      q: (value, kind) => formatQuantity(value, kind, 'metric'),
      time: (ms) => `hour ${(ms - START) / HOUR}`,
      w: wordsFor('en').front,
      m: wordsFor('en').page,
      units: 'metric',
    },
  ).join(' ');

const of = (n: number, blown: Blown): Blown[] => Array<Blown>(n).fill(blown);

describe('the wind of a day', () => {
  it('is told with its turn, where a front brings one', () => {
    expect(said([...of(4, { from: 180, windMs: 4 }), ...of(5, { from: 315, windMs: 12 })])).toContain(
      'Wind from S, from hour 4 NW, 14 to 43 km/h',
    );
  });

  it('that goes round slowly is told from where to where', () => {
    expect(said([...of(3, { from: 180, windMs: 4 }), ...of(3, { from: 225, windMs: 6 })])).toContain(
      'Wind from S to SW, ',
    );
  });

  it('has no direction where it comes from anywhere', () => {
    const anywhere = [0, 180, 0, 180].flatMap((from) => of(2, { from, windMs: 3 }));
    expect(said([...anywhere, { from: 0, windMs: 5 }])).toMatch(/^Wind 11 to 18 km\/h/);
  });

  it('of one speed is told once, without an hour at which it is strongest', () => {
    const even = said(of(6, { from: 315, windMs: 3, gustMs: 3 }));
    expect(even).toBe('Wind from NW, about 11 km/h.');
  });

  it('that hardly stirs the water is no wind', () => {
    expect(said(of(6, { from: 315, windMs: 0.4, gustMs: 3 }))).toBe('Hardly any wind, gusts 11 km/h.');
  });

  it('that has blown before the issue is not told', () => {
    const day = [...of(3, { from: 180, windMs: 12 }), ...of(4, { from: 180, windMs: 5 })];
    expect(said(day, START + 3 * HOUR)).toBe('Wind from S, about 18 km/h.');
    expect(said(day, START + 9 * HOUR)).toBe('');
  });
});

describe('what falls on a day', () => {
  it('is snow where the air of all its hours is near freezing', () => {
    expect(said(of(4, { rainMm: 2, airC: -5 }))).toBe('Snow, 8 mm of water, from hour 0.');
    expect(said([...of(3, { rainMm: 2, airC: -5 }), { rainMm: 2, airC: 4 }])).toMatch(/^Rain 8 mm/);
    expect(said(of(4, { rainMm: 2 }))).toMatch(/^Rain 8 mm/);
  });

  it('is nothing where it would not wet a jacket', () => {
    expect(said(of(4, { rainMm: 0.04, airC: 5 }))).toBe('No rain.');
  });
});

describe('rain of hours that are not known', () => {
  it('is not told as dry: the words end where the forecast does', () => {
    expect(said([...of(3, { rainMm: 0 }), ...of(9, {})])).toBe(
      'No rain to hour 3; of the hours after it nothing is known.',
    );
    expect(said([...of(3, { rainMm: 2, airC: 12 }), ...of(9, {})])).toBe(
      'Rain 6 mm, from hour 0 to hour 3; of the hours after it nothing is known.',
    );
  });

  it('in between is told as the hours that are known', () => {
    expect(said([...of(3, { rainMm: 0 }), ...of(4, {}), ...of(3, { rainMm: 0 })])).toBe(
      'No rain in the hours that are known.',
    );
  });

  it('is told as the day’s where one hour alone is missing', () => {
    expect(said([...of(8, { rainMm: 0 }), {}])).toBe('No rain.');
  });
});
