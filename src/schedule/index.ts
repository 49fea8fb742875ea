export type * from './types.ts';
export { dueSlots, nextIssueMs, refreshDue, type KnownRun, type Slot, type SlotLake } from './slots.ts';
export { livingPid, ownerName } from './owner.ts';
export { SCHEDULER_LOCK } from './lock.ts';
export { issueEdition, type IssueOrder, type IssueResult } from './issue.ts';
export { amends } from './amend.ts';

export { decideFailed, failedForGood, type FailedWork } from './failures.ts';
export { deliverPass, schedulePass } from './pass.ts';
export { runOnce, runScheduler, type PassReport } from './scheduler.ts';
export { sendNow, type SendReport } from './sendNow.ts';
export {
  failedLine,
  statusOf,
  statusText,
  type QueueStatus,
  type LakeStatus,
  type Status,
} from './status.ts';
export { scheduleDeps, silentLog } from './deps.ts';
export { openEngine, type Engine } from './work/engine.ts';
export { runWorker, sharedClock, type WorkTimes } from './work/worker.ts';
export type { PipelineContext } from './context.ts';
export { briefingView, makeBriefing } from './makeBriefing.ts';
export { pipelineFor } from './pipeline.ts';
export { clientFor } from './refresh.ts';
export { verificationOf } from './verification.ts';
export { type WhatIfAnswer, facesOf, whatIfAnswer } from './whatIfAnswer.ts';
