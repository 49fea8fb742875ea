/** What the day's plan is called in a calendar. */
export const calendar = {
  of: (lake: string): string => `${lake}: the day's plan`,
  block: (place: string, lure: string): string => `${place}: ${lure}`,
  closed: (why: string): string => `Off the water: ${why}`,
  beIn: 'Be in',
  noPlan: 'No plan today',
  ashore: 'Stay ashore today',
  /** General information, and what comes before it. */
  defer: 'General information, no decision: official warnings and what you see come first.',
};
