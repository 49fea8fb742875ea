/** Readers: who gets what, how they come, how they leave. Nobody is mailed who did not ask. */
import { randomUUID } from 'node:crypto';
import type { Config } from '../config/index.ts';
import {
  allReaders,
  awayOf,
  eraseReader,
  inOneStep,
  insertReader,
  keepAway,
  letBack,
  readerByAddress,
  type ReaderRow,
  type ReaderWithLakes,
  updateReader,
} from '../record/delivery/index.ts';
import type { DeliveryRecord } from '../record/index.ts';
import type { AwayKind, ReaderOrigin, ReaderState } from '../record/schema/index.ts';
import { ThawlineError, type UnitSystem } from '../units/index.ts';
import { LANGUAGES, type Language } from '../vocabulary/index.ts';
import type { WishRefusal } from '../words/index.ts';
import { normalAddress } from './headers.ts';

/** What a reader may choose. */
export interface ReaderWishes {
  readonly lakes: readonly string[];
  readonly units: UnitSystem;
  readonly form: 'full' | 'short';
  /** ISO weekdays 1 (Monday) to 7; at the lake. */
  readonly days: readonly number[];
  /** Local hour at the lake before which nothing is sent, 0 to 12; 0 for no wish. */
  readonly earliestHour: number;
  readonly amendments: boolean;
  /** Null: that of the lake. */
  readonly language: Language | null;
  /** Hours they fish, local, which the plan is made for; null: those of the lake, else the day's light. */
  readonly fishing: FishingHours | null;
  /** Whether the mail asks for a reading of the water before anything else. */
  readonly asksReading: boolean;
}

export interface FishingHours {
  /** `HH:MM`, at a full or a half hour. */
  readonly from: string;
  readonly to: string;
}

export interface Reader extends ReaderWishes {
  readonly id: string;
  readonly address: string;
  readonly state: ReaderState;
  readonly origin: ReaderOrigin;
  readonly createdMs: number;
  readonly confirmedMs: number | null;
}

export const EVERY_DAY: readonly number[] = [1, 2, 3, 4, 5, 6, 7];
export const DEFAULT_WISHES: Omit<ReaderWishes, 'lakes'> = {
  units: 'us',
  form: 'full',
  days: EVERY_DAY,
  earliestHour: 0,
  amendments: true,
  language: null,
  fishing: null,
  asksReading: false,
};

const daysMask = (days: readonly number[]): number => days.reduce((mask, day) => mask | (1 << (day - 1)), 0);
const daysOf = (mask: number): number[] => EVERY_DAY.filter((day) => (mask & (1 << (day - 1))) !== 0);

/** `06:00-11:00`, as the record keeps hours. */
const hoursText = ({ from, to }: FishingHours): string => `${from}-${to}`;

/** Hours as the record keeps them; null for none, and for what are none. */
export function hoursOf(text: string | null): FishingHours | null {
  const [, from, to] = /^(\d\d:\d\d)-(\d\d:\d\d)$/.exec(text ?? '') ?? [];
  return from === undefined || to === undefined ? null : { from, to };
}

export function toReader(row: ReaderWithLakes): Reader {
  return {
    id: row.id,
    address: row.address,
    state: row.state,
    origin: row.origin,
    lakes: row.lakes,
    units: row.units,
    form: row.form,
    days: daysOf(row.days_mask),
    earliestHour: row.earliest_hour,
    amendments: row.amendments === 1,
    language: row.language,
    fishing: hoursOf(row.fishing),
    asksReading: row.asks_reading === 1,
    createdMs: row.created_ms,
    confirmedMs: row.confirmed_ms,
  };
}

/** For the reader a code, for the operator a sentence. */
const refused = (fact: WishRefusal, sentence: string): ThawlineError =>
  new ThawlineError('usage', sentence, { fact });

/** @throws ThawlineError `usage` when a wish is out of its range or a lake is not configured */
export function checkWishes(wishes: ReaderWishes, knownLakes: readonly string[]): void {
  const unknown = wishes.lakes.filter((lake) => !knownLakes.includes(lake));
  if (wishes.lakes.length === 0 || unknown.length > 0) {
    throw refused(
      { code: 'wish.lakes', known: knownLakes, others: unknown.length > 0 },
      `Choose at least one of the lakes ${knownLakes.join(', ')}${unknown.length > 0 ? '; one that was asked for is not among them' : ''}.`,
    );
  }
  if (wishes.days.length === 0 || wishes.days.some((day) => !EVERY_DAY.includes(day))) {
    throw refused({ code: 'wish.days' }, 'Choose at least one day of the week, 1 (Monday) to 7 (Sunday).');
  }
  if (!Number.isInteger(wishes.earliestHour) || wishes.earliestHour < 0 || wishes.earliestHour > 12) {
    throw refused({ code: 'wish.earliest' }, 'The earliest hour must be a whole hour from 0 to 12.');
  }
  if (wishes.language !== null && !LANGUAGES.includes(wishes.language)) {
    throw refused(
      { code: 'wish.language', known: LANGUAGES },
      `The language is one of ${LANGUAGES.join(', ')}.`,
    );
  }
  if (wishes.fishing !== null && !areHours(wishes.fishing)) {
    throw refused(
      { code: 'wish.hours' },
      'The hours you fish are two local times at full or half hours, the later one last, for example 06:00 and 11:00.',
    );
  }
}

/** Times at full or half hours, so that few plans serve many readers. */
const areHours = ({ from, to }: FishingHours): boolean =>
  [from, to].every((time) => /^([01]\d|2[0-3]):[03]0$/.test(time)) && from < to;

export function newRow(
  address: string,
  wishes: ReaderWishes,
  made: { state: ReaderState; origin: ReaderOrigin; nowMs: number; tackleJson?: string },
): ReaderRow {
  return {
    id: randomUUID(),
    address: normalAddress(address),
    state: made.state,
    origin: made.origin,
    ...wishColumns(wishes),
    tackle_json: made.tackleJson ?? null,
    token_epoch: 1,
    created_ms: made.nowMs,
    confirmed_ms: made.state === 'active' ? made.nowMs : null,
    left_ms: null,
    gone_state: null,
  };
}

export function wishColumns(
  wishes: ReaderWishes,
): Pick<
  ReaderRow,
  'units' | 'form' | 'days_mask' | 'earliest_hour' | 'amendments' | 'language' | 'fishing' | 'asks_reading'
> {
  return {
    units: wishes.units,
    form: wishes.form,
    days_mask: daysMask(wishes.days),
    earliest_hour: wishes.earliestHour,
    amendments: wishes.amendments ? 1 : 0,
    language: wishes.language,
    fishing: wishes.fishing === null ? null : hoursText(wishes.fishing),
    asks_reading: wishes.asksReading ? 1 : 0,
  };
}

export interface AddContext {
  readonly knownLakes: readonly string[];
  readonly nowMs: number;
  readonly origin?: ReaderOrigin;
  /** They asked for it again after they had left. */
  readonly again?: boolean;
}

/**
 * Adds a reader the operator vouches for. Of one who is known only what is told changes.
 *
 * @throws ThawlineError `usage` when the address or a wish is none, or when they left, complained or were erased and nobody says
 *   that they asked again
 */
export async function addReader(
  record: DeliveryRecord,
  address: string,
  told: Partial<ReaderWishes>,
  context: AddContext,
): Promise<Reader> {
  const known = await readerByAddress(record, normalAddress(address));
  const ended = await endOf(record, normalAddress(address), known);
  if (ended !== undefined && context.again !== true) throw gone(ended);
  if (known === undefined) {
    const [wishes, lakes] = wishesWith(known, told, context.knownLakes);
    checkWishes(wishes, lakes);
    const origin = context.origin ?? 'operator';
    const row = newRow(address, wishes, { state: 'active', origin, nowMs: context.nowMs });
    await inOneStep(record, async (step) => {
      await insertReader(step, row, wishes.lakes);
      await letBack(step, row.address);
    });
    return toReader({ ...row, lakes: [...wishes.lakes] });
  }
  const [wishes, lakes] = wishesWith(known, told, context.knownLakes);
  checkWishes(wishes, lakes);
  const change = {
    ...wishColumns(wishes),
    state: 'active',
    confirmed_ms: known.confirmed_ms ?? context.nowMs,
    left_ms: null,
    gone_state: null,
  } as const;
  await updateReader(record, known.id, change, wishes.lakes);
  return toReader({ ...known, ...change, lakes: [...wishes.lakes] });
}

interface End {
  readonly said: Exclude<AwayKind, 'bounced'>;
  readonly atMs: number | null;
}

/**
 * How somebody ended it, whether a row still says so, a request of a stranger waits, or only a hash is left; undefined
 * for who did not. An address that failed ended nothing: whoever vouches for it may try it again.
 */
async function endOf(
  record: DeliveryRecord,
  address: string,
  row: ReaderRow | undefined,
): Promise<End | undefined> {
  if (row === undefined) {
    const away = await awayOf(record, address);
    return away === undefined || away.said === 'bounced' ? undefined : { said: away.said, atMs: away.atMs };
  }
  const state = row.state === 'pending' ? row.gone_state : row.state;
  return state === 'left' || state === 'complained' ? { said: state, atMs: row.left_ms } : undefined;
}

const SAID: Readonly<Record<End['said'], string>> = {
  left: 'left',
  complained: 'reported the mails as unwanted',
  erased: 'had their address erased',
};

function gone({ said, atMs }: End): ThawlineError {
  const what = `${SAID[said]}${atMs === null ? '' : ` on ${new Date(atMs).toISOString().slice(0, 10)}`}`;
  return new ThawlineError(
    'usage',
    `This reader ${what} and is not brought back by others: they can ask for the briefing on its page, or, if they asked you, say so with --again.`,
  );
}

/**
 * What {@link addReader} would make of it, with nothing changed.
 *
 * @returns whether they left, complained or were erased, so that a list must not bring them back
 * @throws ThawlineError `usage` as {@link addReader} does
 */
export async function judgeReader(
  record: DeliveryRecord,
  address: string,
  told: Partial<ReaderWishes>,
  knownLakes: readonly string[],
): Promise<{ readonly address: string; readonly stayAway: boolean }> {
  const normal = normalAddress(address);
  const known = await readerByAddress(record, normal);
  if ((await endOf(record, normal, known)) !== undefined) return { address: normal, stayAway: true };
  checkWishes(...wishesWith(known, told, knownLakes));
  return { address: normal, stayAway: false };
}

/** Readers of the configuration who get no mail, and what they said. */
export interface UnheardReader {
  /** Where they stand in its list, from 1. */
  readonly place: number;
  readonly said: AwayKind;
}

/** Whom the configuration still names although they left, complained, were erased, or their address failed. */
export async function unheardReaders(record: DeliveryRecord, config: Config): Promise<UnheardReader[]> {
  const found: UnheardReader[] = [];
  for (const [index, reader] of config.readers.entries()) {
    const address = normalAddress(reader.address);
    const row = await readerByAddress(record, address);
    const state = row?.state === 'pending' ? row.gone_state : row?.state;
    const said = row === undefined ? (await awayOf(record, address))?.said : state;
    if (said !== undefined && said !== null && said !== 'active') found.push({ place: index + 1, said });
  }
  return found;
}

/** Wishes as they will be, and the lakes they may name: those they had are not judged again, one may have left since. */
function wishesWith(
  known: ReaderWithLakes | undefined,
  told: Partial<ReaderWishes>,
  knownLakes: readonly string[],
): [ReaderWishes, readonly string[]] {
  return known === undefined
    ? [{ ...DEFAULT_WISHES, lakes: [], ...told }, knownLakes]
    : [{ ...toReader(known), ...told }, [...knownLakes, ...known.lakes]];
}

/** Readers in order of id, a page at a time. */
export async function* listReaders(
  record: DeliveryRecord,
  filter: { state?: ReaderState; lake?: string } = {},
): AsyncGenerator<Reader> {
  for await (const row of allReaders(record, filter)) yield toReader(row);
}

/**
 * Removes the address and everything that points at it; that it is not to be mailed again stays, as a keyed hash. False
 * when it was not known.
 */
export async function eraseAddress(record: DeliveryRecord, address: string, nowMs: number): Promise<boolean> {
  const row = await readerByAddress(record, normalAddress(address));
  if (row === undefined) return false;
  await eraseForGood(record, row, nowMs);
  return true;
}

/** Erases a reader so that no list brings them back. What they said before it is not forgotten by it. */
export async function eraseForGood(record: DeliveryRecord, row: ReaderRow, nowMs: number): Promise<void> {
  const ended = await endOf(record, row.address, row);
  await keepAway(
    record,
    row.address,
    ended?.said === 'complained'
      ? { said: ended.said, atMs: ended.atMs ?? nowMs }
      : { said: 'erased', atMs: nowMs },
  );
  await eraseReader(record, row.id);
}

/** Changes what a reader gets. */
export async function changeWishes(
  record: DeliveryRecord,
  id: string,
  wishes: ReaderWishes,
  knownLakes: readonly string[],
): Promise<void> {
  checkWishes(wishes, knownLakes);
  await updateReader(record, id, wishColumns(wishes), wishes.lakes);
}

/**
 * Brings the readers of the configuration file into the record. Who left, bounced, complained or was erased stays so,
 * also when nothing but a hash is left of them: the file cannot overrule a reader's own word. Who is no longer in the file, and never asked otherwise, stops getting mail.
 */
export async function syncConfigReaders(
  record: DeliveryRecord,
  config: Config,
  nowMs: number,
): Promise<void> {
  const listed = new Set<string>();
  for (const reader of config.readers) {
    const address = normalAddress(reader.address);
    listed.add(address);
    const wishes: ReaderWishes = {
      ...DEFAULT_WISHES,
      lakes: reader.lakes,
      units: reader.units,
      form: reader.form,
      days: reader.days ?? EVERY_DAY,
      earliestHour: reader.earliestHour ?? DEFAULT_WISHES.earliestHour,
      amendments: reader.amendments,
      language: reader.language ?? null,
      fishing: reader.fishing ?? null,
      asksReading: reader.asksReading ?? false,
    };
    const tackleJson = reader.tackle === undefined ? null : JSON.stringify(reader.tackle);
    const known = await readerByAddress(record, address);
    if (known === undefined) {
      if ((await awayOf(record, address)) !== undefined) continue;
      const row = newRow(address, wishes, { state: 'active', origin: 'config', nowMs });
      await insertReader(record, { ...row, tackle_json: tackleJson }, wishes.lakes);
    } else if (known.origin === 'config' && (known.state === 'active' || known.state === 'pending')) {
      // What the file does not say of hours, language and readings stays as the reader chose it.
      const columns = {
        ...wishColumns(wishes),
        earliest_hour: reader.earliestHour ?? known.earliest_hour,
        language: reader.language ?? known.language,
        fishing: reader.fishing === undefined ? known.fishing : hoursText(reader.fishing),
        asks_reading: reader.asksReading === undefined ? known.asks_reading : reader.asksReading ? 1 : 0,
      };
      await updateReader(record, known.id, { ...columns, tackle_json: tackleJson }, wishes.lakes);
    }
  }
  for await (const row of allReaders(record, { origin: 'config', state: 'active' })) {
    if (!listed.has(row.address)) await eraseReader(record, row.id);
  }
}
