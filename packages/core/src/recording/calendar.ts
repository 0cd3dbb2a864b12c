/** A day of UTC without leap seconds, as the count of seconds since 1970 has it. */
export const SECONDS_IN_A_DAY = 86_400;

/** Two-digit years from here on are of the last century: the first receivers counted time from 1980. */
const FIRST_YEAR = 1980;

/**
 * Days from 1970-01-01 to a date of the Gregorian calendar.
 *
 * @param month 1 to 12
 * @returns NaN where there is no such date. Never throws.
 */
export function dayNumber(year: number, month: number, day: number): number {
  const time = Date.UTC(year, month - 1, day);
  const exists = month >= 1 && month <= 12 && new Date(time).getUTCDate() === day;
  return exists ? time / (1000 * SECONDS_IN_A_DAY) : Number.NaN;
}

/** The year that two digits stand for. */
export const fullYear = (twoDigits: number): number =>
  (twoDigits < FIRST_YEAR - 1900 ? 2000 : 1900) + twoDigits;
