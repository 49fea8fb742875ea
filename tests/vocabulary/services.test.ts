import { describe, expect, it } from 'vitest';
import { BASE_IDS, BASES, GAUGE_SERVICES, SERVICE_IDS, serviceRow } from '../../src/vocabulary/index.ts';

describe('the table of services', () => {
  it('credits every service by name, text and licence', () => {
    for (const id of SERVICE_IDS) {
      const { name, attribution, licence } = serviceRow(id);
      expect(
        [name, attribution, licence].every((text) => text.length > 3),
        id,
      ).toBe(true);
    }
  });

  it('has an address for every base, each over https and without a slash at its end', () => {
    expect(BASE_IDS.length).toBeGreaterThan(5);
    for (const id of BASE_IDS) expect(BASES[id], id).toMatch(/^https:\/\/[^\s]+[^/]$/);
  });

  it('names no base twice', () => {
    const all = SERVICE_IDS.flatMap((id) => Object.keys(serviceRow(id).bases));
    expect(new Set(all).size).toBe(all.length);
  });

  it('offers as gauge services those that measure something, a file of one’s own among them', () => {
    expect(GAUGE_SERVICES).toContain('csv');
    expect(GAUGE_SERVICES).not.toContain('open-meteo');
  });
});
