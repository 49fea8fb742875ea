import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Command } from 'commander';
import { describe, expect, it, vi } from 'vitest';
import { parse } from 'yaml';
import { z } from 'zod';
import { understand, varied, whatIfSchema, whatIfTemplate } from '../../src/advice/whatIf/index.ts';
import { addWhatIfCommand } from '../../src/cli/whatIf.ts';
import { parseYaml } from '../../src/config/index.ts';
import { conditionsOf } from './support.ts';

const read = (text: string) => parseYaml(text, 'day.yaml', whatIfSchema);
const folder = mkdtempSync(join(tmpdir(), 'thawline-what-if-'));

function run(...args: string[]): string {
  const written: string[] = [];
  const spy = vi.spyOn(process.stdout, 'write').mockImplementation((chunk) => {
    written.push(String(chunk));
    return true;
  });
  try {
    const program = new Command().exitOverride();
    addWhatIfCommand(program);
    program.parse(['what-if', ...args], { from: 'user' });
  } finally {
    spy.mockRestore();
  }
  return written.join('');
}

function fileOf(text: string, name = 'day.yaml'): string {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
}

const DAY = `
date: 2026-03-02
latitude: 35.5
rain: { last24h: 1.6 in, last72h: 1.6 in, temperature: 58 F, hoursSince: 8 h }
water: { main: 47 F, change7d: 1.5 F, clarity: 3 ft }
sky: overcast
wind: { speed: 8 mph }
`;

describe('the conditions form', () => {
  it('reads every unit into SI', () => {
    const { signals } = conditionsOf({
      water: { main: '50 F', clarity: '4 ft' },
      rain: { last24h: '1 in' },
      level: { change24h: '-0.5 ft' },
      wind: { speed: '10 mph' },
      flow: { current: '1 ft/s' },
    });
    expect(signals.waterC?.value).toBeCloseTo(10, 9);
    expect(signals.clarityM?.value).toBeCloseTo(1.2192, 9);
    expect(signals.rain24Mm?.value).toBeCloseTo(25.4, 9);
    expect(signals.level24hM?.value).toBeCloseTo(-0.1524, 9);
    expect(signals.windMs?.value).toBeCloseTo(4.4704, 9);
    expect(signals.currentMs?.value).toBeCloseTo(0.3048, 9);
  });

  it('reads bare numbers in the units named at the top', () => {
    expect(conditionsOf({ units: 'us', water: { main: 50 } }).signals.waterC?.value).toBeCloseTo(10, 9);
    expect(conditionsOf({ units: 'metric', water: { main: 10 } }).signals.waterC?.value).toBe(10);
    expect(conditionsOf({ units: 'metric', wind: { speed: 36 } }).signals.windMs?.value).toBeCloseTo(10, 9);
  });

  it.each([
    ['water: { main: 50 }', /day\.yaml:1:10: water\.main: found 50 without a unit.*units: us/s],
    ['water:\n  mian: 50 F', /day\.yaml:2:3: water: unknown field "mian"; did you mean "main"\?/],
    [
      'water:\n  main: 50 G',
      /day\.yaml:2:3: water\.main: found the unit "G", expected a number and a unit \(F,/,
    ],
    ['sky: cloudish', /day\.yaml:1:1: sky: found "cloudish".*or one of clear, partly, overcast/s],
    ['species: spoted', /did you mean spotted\?/],
    ['water: { main: 500 F }', /out of range/],
    ['schema: thawline-conditions/9', /thawline-conditions\/1/],
    ['date: 2026-13-40', /date/],
  ])('says what is wrong with %j, with line and column', (text, message) => {
    expect(() => read(text)).toThrow(message);
  });

  it('reports all problems at once', () => {
    expect(() => read('sky: x\nwater: { main: 50 }\n')).toThrow(/sky[\s\S]*water\.main/);
  });

  it('has a JSON Schema that editors can use', () => {
    const schema = z.toJSONSchema(whatIfSchema, { io: 'input' }) as { properties: Record<string, unknown> };
    expect(Object.keys(schema.properties)).toEqual(
      expect.arrayContaining(['water', 'rain', 'level', 'sky', 'species']),
    );
  });

  it('prints a template whose every line, once opened, is a valid form', () => {
    const opened = whatIfTemplate()
      .split('\n')
      .slice(2)
      .map((line) => line.replace(/^# /, '').replace(/^# {2}/, ' '))
      .join('\n');
    const form = read(opened);
    expect(Object.keys(parse(opened) as object).sort()).toEqual(Object.keys(whatIfSchema.shape).sort());
    expect(form.water?.main).toBe('47 F');
    expect(read(whatIfTemplate())).toEqual({ schema: 'thawline-conditions/1' });
  });
});

describe('what is understood', () => {
  it('names every gap and invents nothing in its place', () => {
    const { signals, gaps } = conditionsOf({ water: { main: '47 F' } });
    expect(Object.keys(signals)).toEqual(['waterC']);
    expect(gaps.map(({ id }) => id)).toEqual(
      expect.arrayContaining(['clarityM', 'windMs', 'rain72Mm', 'level24hM']),
    );
    expect(new Set(gaps.map(({ fact }) => fact.code))).toEqual(new Set(['notGiven']));
  });

  it('estimates a coarse pocket from rain, says so, and gives it a wide interval', () => {
    const { conditions, assumptions } = understand(read(DAY));
    const pocket = conditions.signals.pocketMinusMainC;
    expect(pocket?.kind).toBe('estimated');
    expect(pocket?.value).toBeGreaterThan(1);
    expect(pocket!.high! - pocket!.low!).toBeGreaterThan(2);
    expect(assumptions.map(({ code }) => code)).toEqual(
      expect.arrayContaining(['pocketRenewed', 'pocketCoarse']),
    );
  });

  it('prefers the thermometer: a measured pocket replaces the estimate', () => {
    const form = read(DAY.replace('main: 47 F', 'main: 47 F, pocket: 45 F'));
    const pocket = understand(form).conditions.signals.pocketMinusMainC;
    expect(pocket?.kind).toBe('observed');
    expect(pocket?.value).toBeCloseTo(-2 / 1.8, 9);
  });

  it('makes no pocket of rain below half an inch', () => {
    const form = read(DAY.replaceAll('1.6 in', '0.3 in'));
    expect(understand(form).conditions.signals.pocketRenewedShare?.value).toBe(0);
    expect(understand(form).conditions.signals.pocketMinusMainC).toBeUndefined();
  });

  it('halves the pocket every 24 hours', () => {
    const at = (hours: number): number =>
      understand(read(DAY.replace('8 h', `${hours} h`))).conditions.signals.pocketMinusMainC!.value;
    expect(at(32) / at(8)).toBeCloseTo(0.5, 6);
  });

  it('works out day length from date and latitude (U.S. almanac value for 35.5 N on 1 March: about 11.4 h)', () => {
    const { signals } = conditionsOf({ date: '2026-03-01', latitude: 35.5 });
    expect(signals.dayLengthH?.value).toBeGreaterThan(11.2);
    expect(signals.dayLengthH?.value).toBeLessThan(11.6);
    expect(signals.dayLengthChangeHPerWeek?.value).toBeGreaterThan(0.15);
  });
});

describe('thawline what-if', () => {
  it('prints advice as JSON with all places, and the conditions as understood', () => {
    const answer = JSON.parse(run(fileOf(DAY), '--format', 'json')) as {
      schema: string;
      positions: { place: string }[];
      presentations: { lureClass: string }[];
      conditions: { signals: { waterC: { value: number } } };
      safety: { level: number };
    };
    expect(answer.schema).toBe('thawline-advice/1');
    expect(answer.positions).toHaveLength(14);
    expect(answer.positions[0]!.place).toBe('inflow');
    expect(answer.presentations.length).toBeGreaterThanOrEqual(2);
    expect(answer.conditions.signals.waterC.value).toBeCloseTo(8.333, 2);
    expect(answer.safety.level).toBeGreaterThanOrEqual(2);
    expect(JSON.stringify(answer)).not.toContain('{{');
  });

  it('prints text in the reader’s units, without a placeholder left', () => {
    const us = run(fileOf(DAY));
    expect(us).toMatch(/47 °F/);
    expect(us).toMatch(/1\. back of an inflow pocket/);
    expect(us).not.toContain('{{');
    const metric = run(fileOf(`units: metric\n${DAY}`));
    expect(metric).toMatch(/8\.3 °C/);
  });

  it('takes JSON as well as YAML', () => {
    const json = fileOf(JSON.stringify({ water: { main: '47 F' } }), 'day.json');
    expect(run(json)).toMatch(/CONFIDENCE low/);
  });

  it('shows how the ranking moves along one field', () => {
    const rows = JSON.parse(
      run(fileOf(DAY), '--vary', 'rain.temperature=36 F..60 F', '--format', 'json'),
    ) as {
      value: string;
      places: { place: string; rank: number; total: number }[];
    }[];
    expect(rows).toHaveLength(9);
    expect(rows[0]!.value).toBe('36 F');
    expect(rows[8]!.value).toBe('60 F');
    const inflow = rows.map(({ places }) => places.find(({ place }) => place === 'inflow')!.total);
    for (const [index, total] of inflow.entries())
      if (index > 0) expect(total).toBeGreaterThanOrEqual(inflow[index - 1]! - 1e-9);
    expect(run(fileOf(DAY), '--vary', 'rain.temperature=36 F..60 F')).toMatch(/^\* /m);
  });

  it.each([
    [['--vary', 'water.man=1..2'], /fields: /],
    [['--vary', 'water.main=40..50'], /without a unit/],
    [['--format', 'xml'], /expected text or json/],
  ])('says what is wrong with %j', (args, message) => {
    expect(() => run(fileOf(DAY), ...args)).toThrow(message);
  });

  it('asks for a file when there is none, and answers a form in which all is commented out', () => {
    expect(() => run()).toThrow(/--template/);
    expect(() => run(join(folder, 'missing.yaml'))).toThrow(/cannot be read/);
    expect(run(fileOf('# nothing known\n', 'empty.yaml'))).toMatch(/CONFIDENCE low/);
  });

  it('varies evenly and keeps the rest of the form', () => {
    const steps = varied(read(DAY), 'water.main=40..48 F');
    expect(steps.map(({ written }) => written)).toEqual([
      '40 F',
      '41 F',
      '42 F',
      '43 F',
      '44 F',
      '45 F',
      '46 F',
      '47 F',
      '48 F',
    ]);
    expect(steps[3]!.form.water?.clarity).toBe('3 ft');
  });
});
