/** Who holds a lock or a lease, written so that a dead holder on the same machine can be told from a living one. */
import { randomUUID } from 'node:crypto';
import { readlinkSync } from 'node:fs';
import { hostname } from 'node:os';

/** Processes see each other only within one process namespace; outside it a pid says nothing. */
function processNamespace(): string {
  try {
    return readlinkSync('/proc/self/ns/pid').replace(/\D/g, '');
  } catch {
    return 'none';
  }
}

/** Name of this process: host, process namespace, pid, and a random part. */
export function ownerName(): string {
  return [hostname(), processNamespace(), process.pid, randomUUID().slice(0, 8)].join('|');
}

/** The pid of a holder that runs in this process namespace; null when it is elsewhere or gone. */
export function livingPid(owner: string, self: string): number | null {
  const [host, space, pid] = owner.split('|');
  const [myHost, mySpace] = self.split('|');
  if (host !== myHost || space !== mySpace || space === 'none' || !/^\d+$/.test(pid ?? '')) return null;
  return isDead(owner, self) ? null : Number(pid);
}

/** True only when the holder certainly no longer runs. */
export function isDead(owner: string, self: string): boolean {
  const [host, space, pid] = owner.split('|');
  const [myHost, mySpace, myPid] = self.split('|');
  if (host !== myHost || space !== mySpace || space === 'none' || pid === undefined || pid === myPid)
    return false;
  try {
    process.kill(Number(pid), 0);
    return false;
  } catch (error) {
    return error instanceof Error && 'code' in error && error.code === 'ESRCH';
  }
}
