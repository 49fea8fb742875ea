/** The home page, the fronts of lakes, past issues and what programs fetch. */
import type { UnitSystem } from '../../units/index.ts';

const otherUnits: Readonly<Record<UnitSystem, string>> = { us: 'Feet and °F', metric: 'Metres and °C' };

export const archive = {
  home: {
    title: 'What the water did, and where that puts the bass',
    byMail: 'Have the briefing by mail every morning',
    whatIf: 'Try conditions of your own',
    evidence: 'What each rule rests on',
  },
  front: {
    nothing: 'Nothing has been issued yet.',
    over: (moment: string): string => `Not of today: valid to ${moment}.`,
    issued: (moment: string): string => `Issued ${moment}.`,
    whole: 'The whole briefing',
    earlier: 'earlier days',
    map: 'the map by the hour',
    /** The present hour, below the strip of the day. */
    now: {
      line: (time: string, what: string): string => `Now, the hour from ${time}: ${what}.`,
      wind: (wind: string): string => `wind ${wind}`,
      air: (air: string): string => `air ${air}`,
      rain: (rain: string): string => `rain ${rain}`,
    },
  },
  moment: (day: string, time: string): string => `${day}, ${time}`,
  dayOfYear: (day: string, year: number): string => `${day} ${year}`,
  title: 'Briefings',
  noneYet: 'none yet',
  /** @param date a link */
  newest: (date: string): string => `newest ${date}`,
  ofLake: (lake: string, newest: string): string => `${lake}: ${newest}`,
  earlierDays: 'Earlier days',
  asIssued: 'As issued; nothing is changed afterwards.',
  feed: 'Feed',
  planAsCalendar: 'the plan as a calendar',
  none: 'No briefing has been issued yet.',
  older: 'Older',
  columns: { day: 'Day', water: 'Water', danger: 'Danger', first: 'First place' },
  edition: { amendment: 'amendment', evening: 'evening' },
  danger: (level: number): string => `${level} of 4`,
  ashore: 'ashore',
  closedDay: 'no hours',
  issue: {
    before: 'The issue before',
    after: 'The issue after',
    earlier: 'Earlier briefings',
    otherUnits,
    asData: 'As data',
    byMail: 'Have it by mail',
    whatIf: 'What if',
  },
  latest: {
    noLake: 'There is no such lake.',
    nothing: 'Nothing has been issued yet.',
    noPicture: 'This issue has no picture.',
    noUnits: 'Units are us or metric.',
  },
};
