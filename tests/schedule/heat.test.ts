import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { loadRules } from '../../src/config/rules.ts';
import { openRecord, type RecordStore } from '../../src/record/index.ts';
import { makeBriefing } from '../../src/schedule/makeBriefing.ts';
import { config } from '../delivery/kit.ts';
import { recordView, testLake } from '../helpers/weatherRecord.ts';

const AS_OF = '2026-07-14T10:15:00Z';
let folder: string;
let record: RecordStore;

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'heat-'));
  record = await openRecord(join(folder, 'record.sqlite'));
});

afterEach(async () => {
  await record.close();
  rmSync(folder, { recursive: true, force: true });
});

/** Level of the heat hazard of a July day with this humidity at its hottest hour. */
async function heatLevel(humidity: number): Promise<number | undefined> {
  const view = recordView({
    asOf: AS_OF,
    weather: (local) => ({ air: local.hour === 15 ? 35.5 : 26, humidity: local.hour === 15 ? humidity : 95 }),
  });
  await record.putObservations(view.observations);
  const { advice } = await makeBriefing(
    { config: config({ lakes: [testLake] }), record, rules: loadRules(), env: {} },
    testLake.id,
    { asOfMs: Date.parse(AS_OF), offline: true },
  );
  expect(JSON.stringify(advice.safety.notChecked)).not.toMatch(/heat index/);
  return advice.safety.hazards.find(({ id }) => id === 'heat')?.level;
}

describe('heat', () => {
  // 96 F: 116 F at 60 %, 91 F at 10 % (National Weather Service chart; 103 F and 90 F are its danger and caution limits).
  it.each([
    [60, 3],
    [10, 2],
  ])(
    'is judged with the humidity of the hottest hour, not of the moist night: %i %%',
    async (humidity, level) => {
      expect(await heatLevel(humidity)).toBe(level);
    },
  );
});
