const PARTS = {
  weekday: 'short',
  day: 'numeric',
  month: 'short',
  hour: '2-digit',
  minute: '2-digit',
  hourCycle: 'h23',
  timeZoneName: 'short',
} as const;

/** A local moment, the day before the month as everywhere in a briefing: `Sat 21 Mar`, `12:00` and `CDT`. */
export function localMoment(
  atMs: number,
  zone: string,
): { readonly date: string; readonly clock: string; readonly offset: string } {
  const parts = new Intl.DateTimeFormat('en-US', { timeZone: zone, ...PARTS }).formatToParts(atMs);
  const part = (type: Intl.DateTimeFormatPartTypes): string =>
    parts.find((found) => found.type === type)?.value ?? '';
  return {
    date: `${part('weekday')} ${part('day')} ${part('month')}`,
    clock: `${part('hour')}:${part('minute')}`,
    offset: part('timeZoneName'),
  };
}
