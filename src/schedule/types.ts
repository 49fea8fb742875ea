import type { Logger } from 'pino';
import type { HazardLevel } from '../advice/index.ts';
import type { Config } from '../config/index.ts';
import type { OwnView } from '../record/delivery/index.ts';
import type { Edition } from '../record/schema/index.ts';
import type { DrainDeps, MailTransport, RenderedMail, Sender } from '../delivery/index.ts';
import type { DeliveryRecord, RecordStore } from '../record/index.ts';
import type { UnitSystem } from '../units/index.ts';

/** A briefing that was made but not yet issued. */
export interface MadeBriefing {
  /** How many statements the gate held back, by the check that did. */
  readonly heldBack?: Readonly<Record<string, number>>;
  /** Goes into the archive as JSON, as it is. */
  readonly document: object;
  /** What an amendment is decided on. */
  readonly safetyLevel: HazardLevel;
  readonly firstPlace: string;
  /** @param own what a reader wants otherwise than the lake has it; left out: nothing */
  render(units: UnitSystem, form: 'full' | 'short', own?: OwnView): Promise<RenderedMail>;
}

/** How a refresh of a lake went; a sentence of what did not. */
export interface RefreshOutcome {
  readonly ok: boolean;
  readonly problem: string;
}

/** The way from services to a rendered briefing; the schedule only says when. */
export interface Pipeline {
  /** Fetches what is new for a lake. A service that is down is `ok: false`, not an exception. */
  refresh(lakeId: string, nowMs: number): Promise<RefreshOutcome>;
  /** The same for many lakes in as few requests as the services allow; lake by lake where it is left out. */
  refreshGroup?(lakeIds: readonly string[], nowMs: number): Promise<ReadonlyMap<string, RefreshOutcome>>;
  /** Never fails for want of data: with nothing fresh it makes a NIL briefing. */
  makeBriefing(lakeId: string, asOfMs: number, edition: Edition): Promise<MadeBriefing>;
}

export interface ScheduleDeps {
  readonly record: RecordStore;
  readonly config: Config;
  readonly pipeline: Pipeline;
  readonly transport: MailTransport;
  /** Links and limits of delivery; the schedule adds owner, clock and log. */
  readonly links: DrainDeps['links'];
  /** Pace and limits of the mails, as long-lived as the process. */
  readonly sender?: Sender;
  readonly owner: string;
  readonly now: () => number;
  readonly sleep: (ms: number) => Promise<void>;
  readonly random: () => number;
  readonly log: Logger;
  /** Where secrets are looked up; the process's own when left out. */
  readonly env?: Readonly<Record<string, string | undefined>>;
  readonly signal?: AbortSignal;
  /** Asks for the mails of an issue, in the transaction that issues it; without it they are looked for at each pass. */
  readonly onIssued?: (step: DeliveryRecord, readers: number) => Promise<void>;
}
