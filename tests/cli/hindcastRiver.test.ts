import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Command } from 'commander';
import { describe, expect, it, vi } from 'vitest';
import { addHindcastCommand } from '../../src/cli/hindcast.ts';
import { neonSites } from '../../bench/neon-data.ts';

const folder = mkdtempSync(join(tmpdir(), 'thawline-river-'));
const creek = neonSites().find(({ name }) => name === 'HOPB')!;
const weather = join(folder, 'air.csv');
const readings = join(folder, 'water.csv');
writeFileSync(
  weather,
  `date,air_c,flow_m3s\n${creek.weather.map(({ date, airC }) => `${date},${airC ?? ''},`).join('\n')}\n`,
);
writeFileSync(
  readings,
  `date,water_c\n${[...creek.water].map(([date, waterC]) => `${date},${waterC}`).join('\n')}\n`,
);

async function hindcast(...flags: string[]): Promise<{ out: string; score: { model: { rmseC: number } } }> {
  const out = join(folder, 'estimates.csv');
  const written = vi.spyOn(process.stdout, 'write').mockReturnValue(true);
  try {
    const program = new Command().exitOverride();
    addHindcastCommand(program);
    await program.parseAsync(
      [
        'hindcast',
        '--weather',
        weather,
        '--readings',
        readings,
        '--lat',
        '42.5',
        '--out',
        out,
        '--json',
        ...flags,
      ],
      { from: 'user' },
    );
    return JSON.parse(String(written.mock.calls.at(-1)![0])) as {
      out: string;
      score: { model: { rmseC: number } };
    };
  } finally {
    written.mockRestore();
  }
}

/** A creek in Massachusetts (NEON, CC0: fixtures/water/neon/README.md). */
describe('hindcast of a river on one’s own logger', () => {
  it('scores it with daily readings and writes the same columns as for a lake', async () => {
    const { out, score } = await hindcast('--river', 'lowland', '--watershed', '11.9');
    expect(score.model.rmseC).toBeLessThan(1);
    expect(readFileSync(out, 'utf8').split('\n')[0]).toBe('date,water_c,low_c,high_c,reading_age_days');
  });

  it('refuses what belongs to a lake, an unknown kind, and a lake without depth', async () => {
    await expect(hindcast('--river', '--mean-depth', '3')).rejects.toThrow(/belong to a lake/);
    await expect(hindcast('--river', 'broad')).rejects.toThrow(/lowland, wide, snow-fed, regulated/);
    await expect(hindcast()).rejects.toThrow(/--mean-depth/);
    await expect(hindcast('--mean-depth', '3', '--watershed', '4')).rejects.toThrow(/belongs to a river/);
  });
});
