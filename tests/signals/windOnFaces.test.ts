/** Wind on places that only say which way they face. */
import { describe, expect, it } from 'vitest';
import { windOnFaces } from '../../src/signals/index.ts';
import { lakeReport } from '../../src/signals/place/index.ts';
import { testLake } from '../helpers/weatherRecord.ts';

const HOUR = 3_600_000;

describe('wind on places that say which way they face', () => {
  const MORNING = Date.parse('2026-03-06T12:00:00Z'); // 06:00
  const faces = [
    { name: 'North', facesDeg: 0 },
    { name: 'South', facesDeg: 180 },
  ];
  const hours = (...winds: readonly (readonly [deg: number, ms: number])[]) =>
    winds.map(([windDirDeg, windMs], i) => ({ atMs: MORNING + i * HOUR, windMs, windDirDeg }));
  const told = (...winds: readonly (readonly [deg: number, ms: number])[]) =>
    windOnFaces(faces, hours(...winds), testLake.zone);
  it('is told of the longest stretch it blows onto one, with the side in the middle of it', () => {
    expect(told([0, 5], [0, 5], [0, 5])).toEqual({
      code: 'windOn',
      on: ['North'],
      fromHour: 6,
      toHour: 9,
      side: 0,
      out: [{ name: 'South', faces: 4 }],
    });
    expect(told([315, 5], [0, 5], [45, 5])).toMatchObject({ side: 0, fromHour: 6, toHour: 9 });
    expect(told([0, 5], [0, 5], [90, 5], [0, 5], [0, 5], [0, 5])).toMatchObject({
      fromHour: 9,
      toHour: 12,
      out: [],
    });
  });
  it('is told of the longest stretch in a row, not of the place that has most hours in all', () => {
    expect(told([0, 5], [90, 5], [0, 5], [90, 5], [0, 5], [90, 5], [180, 5], [180, 5])).toMatchObject({
      on: ['South'],
      fromHour: 12,
      toHour: 14,
    });
  });
  it('names with it only those places that the whole stretch blows onto', () => {
    const near = [...faces, { name: 'Northeast', facesDeg: 60 }];
    const of = (...winds: readonly (readonly [deg: number, ms: number])[]) =>
      windOnFaces(near, hours(...winds), testLake.zone);
    expect(of([0, 5], [0, 5], [0, 5])).toMatchObject({ on: ['North', 'Northeast'] });
    expect(of([340, 5], [0, 5], [0, 5])).toMatchObject({ on: ['North'], fromHour: 6, toHour: 9 });
  });
  it('needs two hours, and wind of 2.7 m/s', () => {
    expect(told([0, 5])).toBeNull();
    expect(told([0, 2.7], [0, 2.7])).not.toBeNull();
    expect(told([0, 2.6], [0, 2.6], [0, 2.6])).toBeNull();
    expect(told([0, 5], [90, 5], [0, 5])).toBeNull();
  });
  it('blows onto what lies within 67.5 degrees of it, and from the back of what lies 112.5 away', () => {
    expect(told([67.5, 5], [67.5, 5])).toMatchObject({ on: ['North'], out: [{ name: 'South', faces: 4 }] });
    expect(told([68, 5], [68, 5])).toBeNull();
    expect(told([292.5, 5], [292.5, 5])).toMatchObject({ on: ['North'] });
    expect(told([67, 5], [68, 5], [67, 5], [67, 5])).toMatchObject({ fromHour: 8, toHour: 10, out: [] });
  });
  it('is nothing to a lake without places', () => {
    expect(lakeReport(testLake, [], { dawnMs: null, riseMs: null, setMs: null, duskMs: null })).toBeNull();
    expect(windOnFaces([], hours([0, 5], [0, 5]), testLake.zone)).toBeNull();
  });
});
