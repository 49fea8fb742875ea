/** What `check` says of a lake whose numbers do not fit each other. Zones: IANA; solar time moves 15 degrees an hour. */
import { describe, expect, it } from 'vitest';
import { shapeFindings, zoneFinding } from '../../src/cli/checkLake.ts';
import { lake } from '../delivery/kit.ts';

const NOW = Date.UTC(2026, 2, 6, 12);

describe('position and zone', () => {
  it.each([
    [36, -92, 'America/Chicago'],
    [52.5, 13.4, 'Europe/Berlin'],
    [40.4, -3.7, 'Europe/Madrid'],
    [47.5, -122.3, 'America/Los_Angeles'],
    [35.7, 139.7, 'Asia/Tokyo'],
    [-36.9, 174.8, 'Pacific/Auckland'],
    [29.9, -97.7, 'America/Chicago'],
    [46.9, -67.9, 'America/New_York'],
  ])('fit each other at %d, %d in %s', (latDeg, lonDeg, zone) => {
    expect(zoneFinding(lake({ latDeg, lonDeg, zone }), NOW)).toMatchObject({ ok: true });
  });

  it('do not fit when the sign of the west was forgotten, and that is said', () => {
    const { ok, sentence } = zoneFinding(lake({ latDeg: 36, lonDeg: 92, zone: 'America/Chicago' }), NOW);
    expect(ok).toBe(false);
    expect(sentence).toMatch(/36, -92 does: was the sign of the longitude forgotten/);
  });

  it('do not fit when the zone is of another place', () => {
    const { ok, sentence } = zoneFinding(lake({ latDeg: 36, lonDeg: -92, zone: 'Europe/Berlin' }), NOW);
    expect(ok).toBe(false);
    expect(sentence).toMatch(/off by 7 hours/);
  });
});

describe('pockets', () => {
  const pocket = { id: 'draw', name: 'Draw', landCover: 'mixed' } as const;
  it('deeper or larger than their lake are named', () => {
    const found = shapeFindings(
      lake({ meanDepthM: 6, areaKm2: 1, pockets: [{ ...pocket, meanDepthM: 9, areaM2: 800_000 }] }),
    );
    expect(found.map(({ sentence }) => sentence)).toEqual([
      expect.stringMatching(/pocket draw: its mean depth of 9.0 m is more than the lake's 6.0 m/),
      expect.stringMatching(/more than half of the lake/),
    ]);
  });

  it('that fit are not', () => {
    expect(shapeFindings(lake({ pockets: [{ ...pocket, meanDepthM: 2, areaM2: 6000 }] }))).toEqual([]);
  });
});
