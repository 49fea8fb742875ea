export * from './types.ts';
export { messageId, normalAddress, sender } from './headers.ts';
export { buildMessage } from './message.ts';
export { personalise } from './personal.ts';
export { linkMaker, NOBODY, PATHS, permalink, type LinkMaker } from './links.ts';
export { createTransport, type MailTransport } from './transport.ts';
export { enqueue, type Issue } from './enqueue.ts';
export { currentPause, drain, type DrainDeps, type DrainReport } from './drain.ts';
export { createSender, type Sender } from './sender.ts';
export { packRendering, unpackRendering } from './outgoing.ts';
export {
  FOR_GOOD,
  handleBounces,
  reportBounce,
  REPORTS_MS,
  takeBounce,
  waitAfterMs,
  type BounceKind,
} from './bounces.ts';
export { dnsHints, type DnsHint, type TxtLookup } from './dnsHints.ts';
export { classifyFailure, type Failure } from './failure.ts';
export { tellOperator } from './operator.ts';
export { linkSecret } from './secret.ts';
export { signToken, readToken, type Claim, type Purpose } from './tokens.ts';
export * from './readers.ts';
export * from './subscribe.ts';
