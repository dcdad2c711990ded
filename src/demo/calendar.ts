/**
 * Time in the invented world: seconds since the first study day, 00:00 local time. Selbria keeps
 * one offset all year, so that local time is plain arithmetic.
 */
const FIRST_DAY = Date.UTC(2026, 3, 1);
const OFFSET = "+01:00";
const SECONDS_A_DAY = 86_400;
const FIRST_WEEKDAY = 3;

export const STUDY_DAYS = 183;

/** Day 0 is 2026-04-01; the last study day, 182, is 2026-09-30. */
export function dateOf(day: number): string {
  return new Date(FIRST_DAY + day * SECONDS_A_DAY * 1000).toISOString().slice(0, 10);
}

/** ISO 8601 with the offset, to the second. */
export function timestamp(seconds: number): string {
  return `${new Date(FIRST_DAY + seconds * 1000).toISOString().slice(0, 19)}${OFFSET}`;
}

export function secondsOf(day: number, hour: number): number {
  return day * SECONDS_A_DAY + Math.round(hour * 3600);
}

export function isWorkingDay(day: number): boolean {
  const weekday = (FIRST_WEEKDAY + day) % 7;
  return weekday !== 0 && weekday !== 6;
}

/** The day itself where clinics are open, else the next one on which they are. */
export function nextWorkingDay(day: number): number {
  return isWorkingDay(day) ? day : nextWorkingDay(day + 1);
}
