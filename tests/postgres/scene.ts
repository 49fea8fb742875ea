/** Twenty invented lakes in twelve zones, and time that the test moves by hand for all processes at once. */
import { readFileSync, writeFileSync } from 'node:fs';
import { lake } from '../delivery/kit.ts';
import type { LakeConfig } from '../../src/config/types.ts';

const ZONES = [
  'America/Chicago',
  'America/New_York',
  'America/Denver',
  'America/Los_Angeles',
  'America/Phoenix',
  'America/Anchorage',
  'America/Halifax',
  'Europe/London',
  'Europe/Madrid',
  'Africa/Johannesburg',
  'Asia/Tokyo',
  'Australia/Adelaide',
];

/** @param zone of all of them; left out, one after the other of the twelve */
export const lakesOf = (count: number, zone?: string): LakeConfig[] =>
  Array.from({ length: count }, (_, i) =>
    lake({
      id: `lake-${i}`,
      name: `Lake ${i}`,
      zone: zone ?? ZONES[i % ZONES.length] ?? 'utc',
      issueAt: '05:15',
    }),
  );

/** One clock of all processes: a number in a file. */
export const clockOf = (file: string): { now: () => number; set: (ms: number) => void } => {
  let last = 0;
  return {
    now: () => {
      const read = Number(readFileSync(file, 'utf8'));
      // A file that is just being written reads as nothing.
      if (read > 0) last = read;
      return last;
    },
    set: (ms) => writeFileSync(file, String(ms)),
  };
};

/** Work that one process of the scene does. */
export interface Role {
  readonly kind: 'worker' | 'web';
  readonly address: string;
  readonly smtpUrl: string;
  readonly clockFile: string;
  readonly owner: string;
  readonly lakes: number;
  /** Of all lakes; left out, they lie in twelve. */
  readonly zone?: string;
  readonly connections: number;
  /** How often what is due is looked for; three times a second when left out, for a test has no time. */
  readonly passMs?: number;
  /** By how much the clock of its machine is ahead of the database's. */
  readonly clockOffMs: number;
}
