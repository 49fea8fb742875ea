import { copyFileSync, mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { loadConfig } from '../../src/config/index.ts';
import type { Briefing } from '../../src/briefing/index.ts';
import { issueMorning } from './mornings/issue.ts';
import type { MorningPlan } from './mornings/plan.ts';
import { outlined } from './outlined.ts';
import { PLANS } from './mornings/plans.ts';

const folder = mkdtempSync(join(tmpdir(), 'thawline-mapped-'));
copyFileSync('config/ossarly.geojson', join(folder, 'ossarly.geojson'));
writeFileSync(join(folder, 'thawline.yaml'), outlined());
const [ossarly] = (await loadConfig(join(folder, 'thawline.yaml'))).lakes;

const issued = new Map<string, Promise<Briefing>>();

/** An invented morning on the invented outline, with so much wind on the day; issued once for the tests of a worker. */
export function mappedMorning(windMs: number, name = 'warm-rain-pulse'): Promise<Briefing> {
  const key = `${windMs} ${name}`;
  const known = issued.get(key) ?? issueMapped(windMs, name);
  issued.set(key, known);
  return known;
}

function issueMapped(windMs: number, name: string): Promise<Briefing> {
  const plan = PLANS.find((one) => one.name === name);
  if (plan === undefined || ossarly === undefined) throw new Error(`no morning ${name}`);
  const { latDeg, lonDeg, shape, pockets, points, ramps } = ossarly;
  const mapped: MorningPlan = {
    ...plan,
    days: { ...plan.days, 0: { ...plan.days?.[0], windMs } },
    lake: (first) => ({
      ...(plan.lake?.(first) ?? first),
      latDeg,
      lonDeg,
      pockets,
      points,
      ...(shape === undefined ? {} : { shape }),
      ...(ramps === undefined ? {} : { ramps }),
    }),
  };
  return issueMorning(mapped);
}
