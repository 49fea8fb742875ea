/** The reader's clock. Sentences and charts write local times as `HH:MM`; a reader of the 12-hour clock gets them so. */
export type ClockStyle = '12h' | '24h';

const TIME = /\b([01]\d|2[0-4]):([0-5]\d)\b/g;

/** `06:10 to 17:00` -> `6:10 am to 5 pm`; as it is for a reader of the 24-hour clock. */
export function inClock(text: string, style: ClockStyle): string {
  if (style === '24h') return text;
  return text.replace(TIME, (_whole, hour: string, minute: string) => {
    const h = Number(hour) % 24;
    return `${h % 12 === 0 ? 12 : h % 12}${minute === '00' ? '' : `:${minute}`} ${h < 12 ? 'am' : 'pm'}`;
  });
}
