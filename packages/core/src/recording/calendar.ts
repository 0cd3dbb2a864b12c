/** A day of UTC without leap seconds, as the count of seconds since 1970 has it. */
export const SECONDS_IN_A_DAY = 86_400;

/** Two-digit years from here on are of the last century: the first receivers counted time from 1980. */
const FIRST_YEAR = 1980;

const DAYS_IN_MONTHS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31] as const;

/** From 1 March of the year 0, with which the count of days begins that puts leap days last, to 1970-01-01. */
const DAYS_TO_1970 = 719_468;

const isLeap = (year: number): boolean => year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);

/**
 * Days from 1970-01-01 to a date of the Gregorian calendar.
 *
 * @param month 1 to 12
 * @returns NaN where there is no such date. Never throws.
 */
export function dayNumber(year: number, month: number, day: number): number {
  const days = DAYS_IN_MONTHS[month - 1];
  const last = days === 28 && isLeap(year) ? 29 : days;
  const exists =
    last !== undefined && Number.isInteger(year) && Number.isInteger(day) && day >= 1 && day <= last;
  if (!exists) return Number.NaN;
  // years from March to February, so that a leap day ends one
  const [years, months] = month > 2 ? [year, month - 3] : [year - 1, month + 9];
  const leapDays = Math.floor(years / 4) - Math.floor(years / 100) + Math.floor(years / 400);
  return 365 * years + leapDays + Math.floor((153 * months + 2) / 5) + day - 1 - DAYS_TO_1970;
}

/** The year that two digits stand for. */
export const fullYear = (twoDigits: number): number =>
  (twoDigits < FIRST_YEAR - 1900 ? 2000 : 1900) + twoDigits;
