/** A farm pond of an eighth of an acre has its morning like any lake. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { startDemoServer, type DemoData } from '../../src/cli/demoServer.ts';
import { loadConfig } from '../../src/config/index.ts';
import { loadRules } from '../../src/config/rules.ts';
import { openRecord } from '../../src/record/index.ts';
import { renderBriefing } from '../../src/render/index.ts';
import { clientFor, makeBriefing } from '../../src/schedule/index.ts';

const folder = mkdtempSync(join(tmpdir(), 'pond-'));
const data = JSON.parse(readFileSync('fixtures/demo/ossarly.json', 'utf8')) as DemoData;
const services = await startDemoServer(data);
afterAll(async () => {
  await services.close();
  rmSync(folder, { recursive: true });
});

const lakeOf = (id: string, area: string, depth: string): string => `
  - id: ${id}
    name: ${id}
    position: { lat: 35.9, lon: -86.4 }
    zone: America/Chicago
    waterBody: pond
    meanDepth: ${depth}
    area: ${area}
`;

it('and its water is that of the smallest ponds the model knows', async () => {
  const path = join(folder, 'thawline.yaml');
  writeFileSync(
    path,
    `services: { baseUrls: { open-meteo: "${services.url}" } }\nlakes:${lakeOf('eighth', '0.125 acres', '0.5 m')}${lakeOf('half', '0.6 ha', '1.5 m')}`,
  );
  const config = await loadConfig(path);
  const record = await openRecord(':memory:');
  const client = clientFor(config, record);
  const water: number[] = [];
  for (const { id } of config.lakes) {
    const made = await makeBriefing({ config, record, rules: loadRules(), env: {}, client }, id, {
      asOfMs: Date.parse(data.asOf),
      offline: false,
    });
    const { waterC } = made.report.conditions.signals;
    expect(made.document.status).toBe('scheduled');
    expect(Number.isFinite(waterC?.value)).toBe(true);
    expect(waterC?.value).toBeGreaterThan(0);
    expect(waterC?.value).toBeLessThan(35);
    water.push(waterC?.value ?? NaN);
    const { text } = await renderBriefing(made.document, { units: 'us', form: 'full', pictures: false });
    expect(text).toContain(id.toUpperCase());
    expect(text).not.toMatch(/NaN|Infinity|undefined/);
  }
  expect(water).toHaveLength(2);
  await client.close();
  await record.close();
});
