export {
  DAY_MS,
  HOUR_MS,
  addDays,
  datesBetween,
  dayNumber,
  dayNumberOf,
  dayOfYear,
  isoDate,
} from './calendar.ts';
export {
  instantOf,
  localDateAt,
  localDayAt,
  localHourAt,
  sameClockTimeMs,
  startOfDayMs,
} from './localTime.ts';
