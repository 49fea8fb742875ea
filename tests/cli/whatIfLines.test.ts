import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Command } from 'commander';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { addWhatIfCommand } from '../../src/cli/whatIf.ts';

const folder = mkdtempSync(join(tmpdir(), 'thawline-lines-'));

async function lines(...given: string[]): Promise<Record<string, unknown>[]> {
  const file = join(folder, 'days.jsonl');
  writeFileSync(file, `${given.join('\n')}\n`);
  const written: string[] = [];
  const spy = vi.spyOn(process.stdout, 'write').mockImplementation((chunk) => {
    written.push(String(chunk));
    return true;
  });
  try {
    const program = new Command().exitOverride();
    addWhatIfCommand(program);
    await program.parseAsync(['what-if', file, '--lines'], { from: 'user' });
  } finally {
    spy.mockRestore();
  }
  return written.map((line) => JSON.parse(line) as Record<string, unknown>);
}

const DAY = {
  date: '2026-07-10',
  latitude: 35,
  water: { main: '84 F', clarity: '5 ft' },
  hours: [
    { at: '00:00', air: '73 F', cloud: '20 %', wind: '2 mph', thunder: '5 %' },
    { at: '15:00', air: '86 F', cloud: '90 %', wind: '8 mph', gust: '20 mph', thunder: '70 %' },
    { at: '19:00', thunder: '5 %', wind: '4 mph', gust: '8 mph' },
  ],
};

afterEach(() => {
  process.exitCode = undefined;
});

describe('what-if --lines', () => {
  it('writes one answer a line, in the order asked', async () => {
    const answers = await lines(JSON.stringify({ water: { main: '44 F' } }), JSON.stringify(DAY));
    expect(answers).toHaveLength(2);
    expect(answers[0]).toHaveProperty('phase');
    expect(process.exitCode).toBeUndefined();
  });

  it('answers what cannot be read with the line and what is wrong, goes on, and exits with an error', async () => {
    const answers = await lines('{"water":', '{"water":{"mian":"50 F"}}', JSON.stringify(DAY));
    expect(answers[0]).toMatchObject({ line: 1, error: expect.stringContaining('JSON') as string });
    expect(answers[1]).toMatchObject({ line: 2, error: expect.stringContaining('water') as string });
    expect(answers[2]).toHaveProperty('plan');
    expect(process.exitCode).toBe(2);
  });

  it('tells the hours of a danger that leaves others, with the level and with the danger', async () => {
    const [answer] = await lines(JSON.stringify(DAY));
    const safety = answer!['safety'] as { levelWords: string; hazards: { headline: string; when: string }[] };
    expect(safety.levelWords).toBe('stay ashore 15:00 to 19:30');
    const thunder = safety.hazards.find(({ headline }) => headline.startsWith('LIGHTNING'));
    expect(thunder?.when).toBe('15:00 to 19:30.');
    // What stands all day keeps the words of its row.
    expect(safety.hazards.at(-1)?.when).not.toMatch(/\d/);
  });

  it('gives the plan by the clock, with closed hours and when to be in', async () => {
    const [answer] = await lines(JSON.stringify(DAY));
    const plan = answer!['plan'] as {
      blocks: Record<string, unknown>[];
      closed: Record<string, unknown>[];
      beInBy: { at: string };
    };
    expect(plan.closed).toMatchObject([{ from: '15:00', to: '19:30', hazard: 'thunder' }]);
    expect(plan.beInBy.at).toBe('14:00');
    for (const block of plan.blocks) {
      expect(block).toMatchObject({
        from: expect.stringMatching(/^\d\d:\d\d$/) as string,
        to: expect.stringMatching(/^\d\d:\d\d$/) as string,
        place: expect.any(String) as string,
        lureClass: expect.any(String) as string,
        depthM: [expect.any(Number), expect.any(Number)],
      });
      expect(block).toHaveProperty('weightG');
      expect((block['because'] as string[]).length).toBeGreaterThan(0);
      expect((block['because'] as string[]).join(' ')).not.toContain('{{');
    }
    expect(answer).toMatchObject({
      plan: { second: expect.anything() as object, bigFish: expect.anything() as object },
    });
  });

  it('makes up no date for a day that was given none', async () => {
    const fishing = { from: '07:00', to: '15:00' };
    const [answer, dated] = await lines(
      JSON.stringify({ fishing, water: { main: '47 F' } }),
      JSON.stringify({ date: '2026-03-06', fishing, water: { main: '47 F' } }),
    );
    expect(JSON.stringify(answer)).not.toContain('1970');
    expect(answer).toMatchObject({ plan: { date: null }, conditions: { date: null, asOfMs: null } });
    expect(dated).toMatchObject({ plan: { date: '2026-03-06' } });
  });

  it.each([
    ['a place of a list', { places: ['dock', 'blufff'] }, 'entry 2: found "blufff"', 'did you mean bluff?'],
    ['a place it has', { places: { has: ['blufff'] } }, 'has: entry 1', 'did you mean bluff?'],
    ['the name of a side', { places: { faces: { blufff: 'N' } } }, 'unknown field "blufff"', '"bluff"'],
    ['a field of places', { places: { hass: ['dock'] } }, 'unknown field "hass"', '"has"'],
    ['one word for a list', { places: 'dock' }, 'found "dock"', 'expected a list, or fields'],
    [
      'a word of two',
      { flow: { generation: 'maybe' } },
      'found "maybe"',
      'expected on, or off, or true or false',
    ],
    ['a date', { date: '2026-2-3' }, 'found "2026-2-3"', 'for example 2026-03-06'],
  ])('says what is wrong with %s and what is expected', async (_, form, found, expected) => {
    const [answer] = await lines(JSON.stringify(form));
    expect(answer!['error']).toContain(found);
    expect(answer!['error']).toContain(expected);
  });

  it('ranks exactly the places of a list', async () => {
    const [answer] = await lines(JSON.stringify({ ...DAY, places: ['main_point', 'dock', 'flat'] }));
    const positions = answer!['positions'] as { place: string }[];
    expect(positions.map(({ place }) => place).sort()).toEqual(['dock', 'flat', 'main_point']);
  });

  it('refuses a place that a kind of water never has', async () => {
    const [answer] = await lines(
      JSON.stringify({ ...DAY, waterBody: 'natural-lake', places: { has: ['river_channel'] } }),
    );
    expect(answer!['error']).toMatch(/natural-lake never has the place "river_channel"/);
  });
});
