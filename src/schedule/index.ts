export type * from './types.ts';
export {
  dueSlots,
  nextIssueMs,
  refreshDue,
  localDateAt,
  type KnownRun,
  type Slot,
  type SlotLake,
} from './slots.ts';
export { ownerName } from './owner.ts';
export { issueEdition, type IssueOrder, type IssueResult } from './issue.ts';
export { amends, amendIfNeeded } from './amend.ts';
export { preflight } from './preflight.ts';
export { deliverPass, schedulePass } from './pass.ts';
export { runOnce, runScheduler } from './scheduler.ts';
export { sendNow, type SendReport } from './sendNow.ts';
export { statusOf, statusText, type LakeStatus, type Status } from './status.ts';
export { scheduleDeps } from './deps.ts';
