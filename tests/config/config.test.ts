import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { lakeById, loadConfig } from '../../src/config/index.ts';
import { ThawlineError } from '../../src/units/index.ts';

const EXAMPLE = readFileSync('config/thawline.example.yaml', 'utf8');

function written(text: string): string {
  const path = join(mkdtempSync(join(tmpdir(), 'thawline-config-')), 'thawline.yaml');
  writeFileSync(path, text);
  return path;
}

async function complaint(text: string): Promise<string> {
  const error: unknown = await loadConfig(written(text)).then(
    () => new Error('was accepted'),
    (thrown: unknown) => thrown,
  );
  expect(error).toBeInstanceOf(ThawlineError);
  expect((error as ThawlineError).exitCode).toBe(3);
  return (error as ThawlineError).message.replace(/^\/\S+\//gm, '');
}

describe('the example configuration', () => {
  it('is read whole, in SI', async () => {
    const config = await loadConfig('config/thawline.example.yaml');
    const lake = config.lakes[0];
    expect(lake?.meanDepthM).toBeCloseTo(42 * 0.3048, 6);
    expect(lake?.areaKm2).toBeCloseTo(6200 * 0.0040468564224, 6);
    expect(lake?.pockets[0]?.watershedKm2).toBeCloseTo(2.589988, 5);
    expect(config.tackle.linesKg[0]).toBeCloseTo(12 * 0.45359237, 6);
    expect(lake?.issueAt).toBe('05:15');
  });
});

describe('the example configuration, for who reads it', () => {
  /** Names of fields at any depth of a JSON Schema, but for the services that have an address of their own. */
  function namesIn(schema: unknown, at = ''): string[] {
    if (typeof schema !== 'object' || schema === null) return [];
    if (Array.isArray(schema)) return schema.flatMap((one) => namesIn(one, at));
    return Object.entries(schema).flatMap(([key, value]) =>
      key === 'properties' && !at.endsWith('baseUrls')
        ? Object.entries(value as object).flatMap(([name, field]) => [name, ...namesIn(field, name)])
        : ['items', 'anyOf', 'oneOf', 'allOf', 'additionalProperties'].includes(key)
          ? namesIn(value, at)
          : [],
    );
  }

  it('names every field, if only in a remark', () => {
    const names = [...new Set(namesIn(JSON.parse(readFileSync('config/schema/config.schema.json', 'utf8'))))];
    expect(names.length).toBeGreaterThan(100);
    // Points of the compass stand in one line.
    const isPoint = (name: string): boolean => /^[NESW]{1,2}$/.test(name);
    expect(names.filter((name) => !isPoint(name) && !new RegExp(`\\b${name}:`).test(EXAMPLE))).toEqual([]);
  });
});

describe('the earliest hour of a reader', () => {
  const withHour = (hour: string): string =>
    EXAMPLE.replace('units: us }', `units: us, earliestHour: ${hour} }`);

  it('is read, and absent when not written', async () => {
    expect((await loadConfig(written(withHour('7')))).readers[0]?.earliestHour).toBe(7);
    expect((await loadConfig(written(EXAMPLE))).readers[0]).not.toHaveProperty('earliestHour');
  });

  it.each(['13', '-1', '6.5'])('%s is refused', async (hour) => {
    expect(await complaint(withHour(hour))).toContain('readers.0.earliestHour');
  });

  it('of the commented example works once the sign is taken away', async () => {
    const config = await loadConfig(written(EXAMPLE.replace('# - { address: late', '- { address: late')));
    expect(config.readers[1]?.earliestHour).toBe(7);
  });
});

describe('a configuration with a fault', () => {
  it('is told file, line and column, what was found, what is expected: a wrong unit', async () => {
    const message = await complaint(EXAMPLE.replace('meanDepth: 42 ft #', 'meanDepth: 42 psi #'));
    expect(message).toMatch(
      /^thawline\.yaml:\d+:5: lakes\.0\.meanDepth: found the unit "psi", expected a number and a unit of length/,
    );
  });

  it('a number without a unit is refused: it could be either system’s', async () => {
    expect(await complaint(EXAMPLE.replace('meanDepth: 42 ft #', 'meanDepth: 42 #'))).toContain(
      'a number without a unit',
    );
  });

  it('a misspelt field gets the field that was meant', async () => {
    expect(await complaint(EXAMPLE.replace('    normalPool:', '    normlPool:'))).toContain(
      'unknown field "normlPool"; did you mean "normalPool"?',
    );
  });

  it('an unknown word gets the list and the likely one', async () => {
    expect(await complaint(EXAMPLE.replace('species: mixed', 'species: spoted'))).toContain(
      'did you mean spotted?',
    );
  });

  it('a kind of river belongs to moving water only', async () => {
    expect(await complaint(EXAMPLE.replace('# riverKind: regulated #', 'riverKind: regulated #'))).toMatch(
      /:\d+:5: lakes\.0\.riverKind: expected only where waterBody is tailwater or run-of-river/,
    );
  });

  it('an unquoted station is refused, since leading zeros would be lost', async () => {
    expect(await complaint(EXAMPLE.replace(/station: ['"]USGS-00000101['"]/, 'station: 00000101'))).toContain(
      'in quotes',
    );
  });

  it('a secret where the NAME of its variable belongs is refused', async () => {
    const message = await complaint(
      EXAMPLE.replace('smtpUrlEnv: THAWLINE_SMTP_URL', 'smtpUrlEnv: smtps://me:pw@mail.example.org'),
    );
    expect(message).toContain('NAME of an environment variable');
  });

  it('an unknown zone, a mail address that is none, a reader of an unknown lake', async () => {
    expect(await complaint(EXAMPLE.replace('America/Chicago', 'America/Chicgo'))).toContain('IANA');
    expect(
      await complaint(EXAMPLE.replace('reader@example.org, lakes', 'reader-at-example, lakes')),
    ).toContain('mail address');
    expect(await complaint(EXAMPLE.replace('lakes: [ossarly]', 'lakes: [elsewhere]'))).toContain(
      '"elsewhere", which is not among the lakes',
    );
  });

  it('broken YAML is told where it breaks', async () => {
    expect(await complaint(EXAMPLE.replace('position: {', 'position: {{'))).toMatch(
      /thawline\.yaml:\d+:\d+: /,
    );
  });

  it('all faults come at once', async () => {
    const message = await complaint(
      EXAMPLE.replace('42 ft #', '42 psi #').replace('species: mixed', 'species: pike'),
    );
    expect(message.split('\n')).toHaveLength(2);
  });

  it('a missing file says how to begin', async () => {
    await expect(loadConfig('no/such.yaml')).rejects.toThrow(/Copy config\/thawline\.example\.yaml/);
  });
});

it('an unknown lake gets the list of the known', async () => {
  const config = await loadConfig('config/thawline.example.yaml');
  expect(() => lakeById(config, 'nowhere')).toThrow(/Known lakes: ossarly/);
});

describe('the record', () => {
  const folder = mkdtempSync(join(tmpdir(), 'record-at-'));
  const written = (record: string): string => {
    const path = join(folder, 'thawline.yaml');
    writeFileSync(
      path,
      `record: ${record}\nlakes:\n  - { id: a, name: A, position: { lat: 35.9, lon: -86.4 }, zone: America/Chicago, waterBody: pond, meanDepth: 3 m, area: 0.1 km2 }\n`,
    );
    return path;
  };

  it('lies beside the configuration, whatever folder a command is given in', async () => {
    expect((await loadConfig(written('data/r.sqlite'))).recordPath).toBe(join(folder, 'data/r.sqlite'));
    expect((await loadConfig(written('/var/r.sqlite'))).recordPath).toBe('/var/r.sqlite');
  });

  it('that an earlier version began in the working folder is kept', async () => {
    // A file that stands in every working copy plays the old record.
    expect((await loadConfig(written('package.json'))).recordPath).toBe(resolve('package.json'));
    writeFileSync(join(folder, 'package.json'), '');
    expect((await loadConfig(written('package.json'))).recordPath).toBe(join(folder, 'package.json'));
  });
});
