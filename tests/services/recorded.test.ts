/**
 * Every recorded reply goes through every mapper: each either maps it to sound values or refuses it with one sentence.
 * Which replies must map is listed, so that a mapper which refuses everything cannot pass.
 */
import { readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { ThawlineError } from '../../src/units/index.ts';
import { MAPPERS, unsound, type MapperName } from './mappers.ts';
import { hydrated, recorded } from './support.ts';

const ROOT = fileURLToPath(new URL('../../fixtures/services/', import.meta.url));
const FILES = readdirSync(ROOT, { recursive: true, encoding: 'utf8' })
  .filter((name) => /\.(json|txt)$/.test(name))
  .sort();

/** Replies an adapter must read, by the start of their path. */
const MUST_MAP: readonly (readonly [RegExp, MapperName])[] = [
  [/^usgs\/v1_daily_dup/, 'usgs rows'],
  [/^usgs\/empty/, 'usgs rows'],
  [/^open-meteo\/(forecast|historical|previous)/, 'open-meteo'],
  [/^nws\/library\/detailed_forecast/, 'nws grid'],
  [/^nws\/relative-dates\/e2e_gridpoints_\w+_\d+,\d+\.json/, 'nws grid'],
  [/^nws\/(library|relative-dates)\/\w*stations_\w*observations/, 'nws station'],
  [/^nws\/(alerts\/|library\/alerts|relative-dates\/testing_alerts)/, 'nws alerts'],
  [/^nws\/(library\/points|relative-dates\/\w+_points_(33|34))/, 'nws point'],
  [/^nws\/(library\/gridpoints_stations|relative-dates\/e2e_gridpoints_LZK_83,73_stations)/, 'nws stations'],
  [/^nwps\/gauge_ACRT2/, 'nwps flood'],
  [/^nwps\/stageflow_ACRT2/, 'nwps stage'],
  [/^cwms\/(MountMorris|level|paging|unversioned|versioned|empty)/, 'cwms page'],
  [/^ea\/flood-monitoring_station_1491TH/, 'ea station'],
  [/^ea\/uk_readings/, 'ea readings'],
];

function parsed(file: string): unknown {
  try {
    return hydrated(JSON.parse(recorded(file)));
  } catch {
    return recorded(file);
  }
}

describe.each(FILES)('the recorded reply %s', (file) => {
  const body = parsed(file);

  it.each(Object.keys(MAPPERS) as MapperName[])('is mapped soundly or refused by: %s', (name) => {
    const must = MUST_MAP.some(([pattern, mapper]) => mapper === name && pattern.test(file));
    try {
      expect(unsound(MAPPERS[name](body))).toEqual([]);
    } catch (error) {
      if (!(error instanceof ThawlineError)) throw error;
      expect(error.code).toBe('service');
      expect(must ? error.message : '').toBe('');
    }
  });
});
