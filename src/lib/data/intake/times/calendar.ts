const daysBefore = [0, 0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334] as const;

export const dayMs = 86_400_000;

/** First and last year a record can be of; outside is a mistyped year. */
export const firstYear = 1980;
export const lastYear = 2099;

function isLeap(year: number): boolean {
  return year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);
}

function daysInMonth(year: number, month: number): number {
  if (month === 2) return isLeap(year) ? 29 : 28;
  return month === 4 || month === 6 || month === 9 || month === 11 ? 30 : 31;
}

/**
 * Days from 1 January 1970 to a date of the Gregorian calendar, NaN where there is no such date or its year is not
 * from 1980 to 2099: 31 February is never a day of March.
 */
export function dayNumber(year: number, month: number, day: number): number {
  if (!(year >= firstYear && year <= lastYear && month >= 1 && month <= 12 && day >= 1)) return NaN;
  if (day > daysInMonth(year, month)) return NaN;
  const before = year - 1;
  const leaps = Math.floor(before / 4) - Math.floor(before / 100) + Math.floor(before / 400);
  const leapDay = month > 2 && isLeap(year) ? 1 : 0;
  return before * 365 + leaps + (daysBefore[month] ?? NaN) + leapDay + day - 719_163;
}

/** The year that two digits stand for: 80 to 99 are 1980 to 1999, 00 to 79 are 2000 to 2079. */
export function fullYear(twoDigits: number): number {
  return twoDigits >= 80 ? 1900 + twoDigits : 2000 + twoDigits;
}

/** The date of a day number as year, month, day. */
export function dateOf(day: number): { year: number; month: number; day: number } {
  // Counted from 1 March of year 0, so that the leap day ends a year.
  const shifted = day + 719_468;
  const era = Math.floor(shifted / 146_097);
  const dayOfEra = shifted - era * 146_097;
  const yearOfEra = Math.floor(
    (dayOfEra -
      Math.floor(dayOfEra / 1460) +
      Math.floor(dayOfEra / 36_524) -
      Math.floor(dayOfEra / 146_096)) /
      365
  );
  const dayOfYear = dayOfEra - (365 * yearOfEra + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100));
  const monthFromMarch = Math.floor((5 * dayOfYear + 2) / 153);
  const month = monthFromMarch < 10 ? monthFromMarch + 3 : monthFromMarch - 9;
  return {
    year: yearOfEra + era * 400 + (month <= 2 ? 1 : 0),
    month,
    day: dayOfYear - Math.floor((153 * monthFromMarch + 2) / 5) + 1
  };
}
