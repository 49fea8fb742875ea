export {
  type ArchivedBriefing,
  type StoredRendering,
  besideBriefing,
  listBriefings,
  loadBriefing,
  loadRendering,
  pruneRenderings,
  storeBriefing,
} from './briefings.ts';
export {
  type WorkKey,
  dropFailure,
  failuresOf,
  forgetFailure,
  forgetPassing,
  noteFailure,
  retryFailure,
} from './failures.ts';
export { JOBS_SCHEMA, type JobQueue, inTurn, jobQueues, withinStep } from './jobs.ts';
export { type Notice, noticesOf, putNotice, removeNotice } from './notices.ts';
export {
  type RunKey,
  changeState,
  claimRun,
  endRun,
  forgetAhead,
  freeLock,
  getState,
  handBackRuns,
  holdLock,
  lastRun,
  lockHolder,
  missRun,
  noteRefresh,
  putState,
  refreshOf,
  runsSince,
} from './runs.ts';
export { countRequests, forgetRequests } from './webRequests.ts';
export { forgetWorker, seeWorker, sharedNowMs, workersOf } from './workers.ts';
