/** From what was written to an outing, or to everything that is wrong with it. */
import { createHash } from 'node:crypto';
import { type LakeConfig, nearest } from '../config/index.ts';
import type { LureClass, Outing, OutingPlace, Reading } from '../record/index.ts';
import { dayNumber, instantOf, localDateAt, localHourAt } from '../units/time/index.ts';
import { readNumber, readQuantity } from '../units/index.ts';
import { isIdOf, LURE, LURES, MAIN_LAKE, POCKET_WATER } from '../vocabulary/index.ts';
import { DECIMALS, LIMITS, USUAL } from './limits.ts';
import { kindsOf, namedPlaces, placeNamed } from './places.ts';
import type { OutingFault, OutingProblem, WrittenOuting } from './written.ts';

export interface OutingContext {
  readonly lake: LakeConfig;
  readonly readerId: string;
  /** epoch ms */
  readonly nowMs: number;
}

export type ReadOuting =
  | { readonly outing: Outing; readonly reading?: Reading; readonly problems: readonly [] }
  | { readonly problems: readonly OutingProblem[] };

const kept = (value: number, decimals: number): number => Number(value.toFixed(decimals));

/** Collects problems, so that all are told at once. */
class Reader {
  readonly problems: OutingProblem[] = [];
  constructor(
    private readonly written: WrittenOuting,
    private readonly context: OutingContext,
  ) {}

  private wrong(field: keyof WrittenOuting, fault: OutingFault): null {
    const found = this.written[field];
    this.problems.push({ field, found: typeof found === 'string' ? found : String(found), fault });
    return null;
  }

  date(): string {
    const { lake, nowMs } = this.context;
    const date = this.written.date.trim();
    const today = localDateAt(nowMs, lake.zone);
    let day: number;
    try {
      day = dayNumber(date);
    } catch {
      this.wrong('date', { code: 'notDate' });
      return today;
    }
    if (date > today) this.wrong('date', { code: 'inFuture', lake: lake.name, today });
    else if (dayNumber(today) - day > LIMITS.oldestDays) this.wrong('date', { code: 'tooOld' });
    return date;
  }

  private minute(field: 'from' | 'to'): number | null {
    const text = this.written[field].trim();
    if (text === '') return null;
    const [, hour = '', minute = ''] = /^(\d{1,2}):(\d{2})$/.exec(text) ?? [];
    const at = Number(hour) * 60 + Number(minute);
    if (hour === '' || Number(minute) > 59 || at > 1440) return this.wrong(field, { code: 'notTime' });
    return at;
  }

  /** Effort, and the clock where it was said. */
  effort(date: string): { hours: number; clock?: NonNullable<Outing['clock']> } {
    const { lake, nowMs } = this.context;
    const fromMinute = this.minute('from');
    const toMinute = this.minute('to');
    const span = fromMinute === null || toMinute === null ? null : (toMinute - fromMinute) / 60;
    if (fromMinute !== null && toMinute === null && this.written.to.trim() === '')
      this.wrong('to', { code: 'untilMissing' });
    if (toMinute !== null && fromMinute === null && this.written.from.trim() === '')
      this.wrong('from', { code: 'sinceMissing' });
    if (span !== null && span <= 0) this.wrong('to', { code: 'notAfter' });
    const isToday = date === localDateAt(nowMs, lake.zone);
    if (isToday && toMinute !== null && toMinute / 60 > localHourAt(nowMs, lake.zone))
      this.wrong('to', { code: 'notYet' });
    const clock =
      span === null || span <= 0 || fromMinute === null || toMinute === null
        ? {}
        : { clock: { fromMinute, toMinute } };
    const text = this.written.hours.trim();
    if (text === '') {
      if (span !== null) return { hours: kept(span, DECIMALS.hours), ...clock };
      if (this.written.from.trim() === '' && this.written.to.trim() === '')
        this.wrong('hours', { code: 'hoursMissing' });
      return { hours: 1 };
    }
    const read = readNumber(text);
    const isHours = read !== null && (read.unit === null || /^h(ours?)?$/i.test(read.unit));
    if (!isHours || !(read.number > 0) || read.number > LIMITS.hours) {
      this.wrong('hours', { code: 'hoursOutOfRange', most: LIMITS.hours });
      return { hours: 1 };
    }
    // A minute of rounding is nobody's slip.
    if (span !== null && span > 0 && read.number > span + 1 / 60)
      this.wrong('hours', { code: 'moreThanSpan', from: this.written.from, to: this.written.to });
    if (isToday && span === null && read.number > localHourAt(nowMs, lake.zone))
      this.wrong('hours', { code: 'moreThanDay' });
    return { hours: kept(read.number, DECIMALS.hours), ...clock };
  }

  count(field: 'fish' | 'bites', most: number): number | null {
    const text = this.written[field].trim();
    if (text === '') return field === 'fish' ? this.wrong('fish', { code: 'fishMissing' }) : null;
    const value = /^\d{1,6}$/.test(text) ? Number(text) : NaN;
    if (!(value <= most)) return this.wrong(field, { code: 'countOutOfRange', most });
    return value;
  }

  biggest(fish: number | null): { biggestM?: number; biggestKg?: number } {
    const text = this.written.biggest.trim();
    if (text === '') return {};
    if (fish === 0) this.wrong('biggest', { code: 'biggestOfNone' });
    const mass = readQuantity(text, 'mass');
    if ('si' in mass) {
      if (mass.si >= LIMITS.leastBiggestKg && mass.si <= LIMITS.biggestKg)
        return { biggestKg: kept(mass.si, DECIMALS.kg) };
      this.wrong('biggest', { code: mass.si > LIMITS.biggestKg ? 'tooHeavy' : 'tooLight' });
      return {};
    }
    const length = readQuantity(text, 'length');
    if (!('si' in length)) this.wrong('biggest', { code: 'notSize' });
    else if (length.si >= LIMITS.leastBiggestM && length.si <= LIMITS.biggestM)
      return { biggestM: kept(length.si, DECIMALS.m) };
    else this.wrong('biggest', { code: 'notBassLength' });
    return {};
  }

  water(): number | null {
    const text = this.written.water.trim();
    if (text === '') return null;
    const read = readQuantity(text, 'temperature');
    if (!('si' in read)) return this.wrong('water', { code: 'notTemperature' });
    const { low, high } = LIMITS.waterC;
    if (read.si >= low && read.si <= high) return kept(read.si, DECIMALS.waterC);
    const asFahrenheit = ((readNumber(text)?.number ?? NaN) - 32) / 1.8;
    const looksLikeF = /c$/i.test(text) && asFahrenheit >= low && asFahrenheit <= high;
    return this.wrong('water', { code: 'notLakeWater', waterC: read.si, looksLikeF });
  }

  length(field: 'depth' | 'clarity', low: number, high: number): number | null {
    const text = this.written[field].trim();
    if (text === '') return null;
    const read = readQuantity(text, 'length');
    if (!('si' in read)) return this.wrong(field, { code: 'notLength' });
    if (read.si < low || read.si > high)
      return this.wrong(field, { code: 'lengthOutOfRange', lowM: low, highM: high });
    return kept(read.si, DECIMALS.m);
  }

  places(): OutingPlace[] {
    const { lake } = this.context;
    const words = this.written.places.map((word) => word.trim()).filter((word) => word !== '');
    if (words.length > LIMITS.places) this.wrong('places', { code: 'tooManyPlaces', most: LIMITS.places });
    const known = [...namedPlaces(lake).map(({ name = '' }) => name), ...kindsOf(lake)];
    const found = words.flatMap((word): OutingPlace[] => {
      const place = placeNamed(word, lake);
      if (place !== null) return [place];
      const near = nearest(word, known);
      this.wrong('places', {
        code: 'unknownPlace',
        word,
        lake: lake.name,
        near,
        some: known.slice(0, 3),
      });
      return [];
    });
    const keys = new Map(found.map((place) => [`${place.kind} ${place.name ?? ''}`, place]));
    return [...keys.entries()].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, place]) => place);
  }

  lures(): LureClass[] {
    const words = this.written.lures.map((word) => word.trim()).filter((word) => word !== '');
    if (words.length > LIMITS.lures) this.wrong('lures', { code: 'tooManyLures', most: LIMITS.lures });
    const found = words.flatMap((word): LureClass[] => {
      const lure = LURES.find((one) => one.toLowerCase() === word.toLowerCase());
      if (lure !== undefined && isIdOf(LURE, lure)) return [lure];
      const near = nearest(word, LURES);
      this.wrong('lures', { code: 'unknownLure', word, near, some: LURES.slice(0, 4) });
      return [];
    });
    return [...new Set(found)].sort();
  }

  plan(): NonNullable<Outing['plan']> | null {
    const text = this.written.plan.trim();
    if (text === '') return null;
    return text === 'followed' || text === 'elsewhere' ? text : this.wrong('plan', { code: 'notPlan' });
  }

  note(): string {
    // eslint-disable-next-line no-control-regex -- control characters are what is looked for
    const note = this.written.note.replace(/[\u0000-\u001f\u007f]+/g, ' ').trim();
    if (note.length > LIMITS.noteCharacters)
      this.wrong('note', { code: 'noteTooLong', most: LIMITS.noteCharacters });
    return note;
  }
}

/** What an outing is known by: told again it is the same, whatever was caught. */
function idOf(
  outing: Pick<Outing, 'readerId' | 'lake' | 'date' | 'clock' | 'hours' | 'places' | 'lures'>,
): string {
  const { readerId, lake, date, clock, hours, places, lures } = outing;
  const text = JSON.stringify([readerId, lake, date, clock ?? hours, places, lures]);
  return createHash('sha256').update(text).digest('hex').slice(0, 12);
}

/** Kinds of place whose water is not the main lake's: a reading in one that is not configured teaches nobody. */
const SIDE_WATER: ReadonlySet<string> = new Set([...POCKET_WATER, 'eddy_seam']);

/** The lake's reading that an outing brings; undefined where there is none, or it is nobody's water. */
function readingOf(outing: Outing, { lake, nowMs }: OutingContext): Reading | undefined {
  const { waterC, clarityM, places, clock } = outing;
  if (waterC === undefined && clarityM === undefined) return undefined;
  const [place] = places.length === 1 ? places : [];
  const pocket = lake.pockets.find(({ name }) => place?.kind === 'pocket' && name === place.name);
  if (pocket === undefined && places.some(({ kind }) => SIDE_WATER.has(kind))) return undefined;
  const minute = clock === undefined ? USUAL.noonMinute : Math.round((clock.fromMinute + clock.toMinute) / 2);
  const at = `${String(Math.floor(minute / 60)).padStart(2, '0')}:${String(minute % 60).padStart(2, '0')}`;
  return {
    // Of this outing alone, so that it can go with it.
    id: `o${outing.id}`,
    lake: lake.id,
    atMs: Math.min(instantOf(outing.date, at, lake.zone), nowMs),
    ...(waterC === undefined ? {} : { waterC }),
    ...(clarityM === undefined ? {} : { clarityM }),
    depthM: outing.waterDepthM ?? USUAL.depthM,
    sdC: USUAL.sdC,
    where: place === undefined ? MAIN_LAKE : (place.name ?? place.kind.replaceAll('_', ' ')),
    ...(pocket === undefined ? {} : { pocket: pocket.id }),
  };
}

const put = <K extends string, V>(name: K, value: V | null | undefined): Partial<Record<K, V>> =>
  value === null || value === undefined ? {} : ({ [name]: value } as Record<K, V>);

/**
 * An outing from what was written, with the reading that it brings to the lake.
 *
 * @returns the outing, or every problem at once; nothing is guessed
 */
export function readOuting(written: WrittenOuting, context: OutingContext): ReadOuting {
  const reader = new Reader(written, context);
  const date = reader.date();
  const { hours, clock } = reader.effort(date);
  const fish = reader.count('fish', LIMITS.fish);
  const perH = (fish ?? 0) / hours;
  // Hours that are wrong themselves have been asked about.
  if (perH > LIMITS.fishPerH && !reader.problems.some(({ field }) => field === 'hours'))
    reader.problems.push({
      field: 'fish',
      found: written.fish,
      fault: { code: 'tooMany', perH, most: LIMITS.fishPerH },
    });
  const bites = reader.count('bites', LIMITS.bites);
  if (bites !== null && fish !== null && bites < fish)
    reader.problems.push({
      field: 'bites',
      found: written.bites,
      fault: { code: 'fewerThanFish' },
    });
  const waterC = reader.water();
  const clarityM = reader.length('clarity', LIMITS.clarityM.low, LIMITS.clarityM.high);
  const waterDepthM = reader.length('depth', 0, LIMITS.depthM);
  if (waterDepthM !== null && written.water.trim() === '' && written.clarity.trim() === '')
    reader.problems.push({
      field: 'depth',
      found: written.depth,
      fault: { code: 'depthOfNothing' },
    });
  const told = {
    readerId: context.readerId,
    lake: context.lake.id,
    date,
    ...put('clock', clock),
    hours,
    places: reader.places(),
    lures: reader.lures(),
    ...put('bites', bites),
    fish: fish ?? 0,
    ...reader.biggest(fish),
    ...put('waterC', waterC),
    ...put('waterDepthM', waterDepthM),
    ...put('clarityM', clarityM),
    ...put('plan', reader.plan()),
    note: reader.note(),
    shared: written.shared,
  };
  if (reader.problems.length > 0) return { problems: reader.problems };
  const outing: Outing = { id: idOf(told), ...told };
  const reading = readingOf(outing, context);
  return reading === undefined
    ? { outing, problems: [] }
    : { outing: { ...outing, readingId: reading.id }, reading, problems: [] };
}
