/**
 * A clock time as written: wall-clock minutes, with the date and the offset from UTC where stated.
 * Nothing is converted to the time zone of the machine.
 */
export interface Moment {
  /** Minutes of wall-clock time since 1970-01-01 00:00; since 00:00 where no date is written. */
  readonly minutes: number;
  readonly dated: boolean;
  /** Minutes east of UTC; `null` where not written. */
  readonly offset: number | null;
  /** The day as written, `null` for a bare clock time. */
  readonly day: string | null;
  /** Seconds are written. */
  readonly seconds: boolean;
  /** A day alone, without a clock time. */
  readonly dayOnly: boolean;
}

/** Reads `2026-04-01`, `2026-04-01T10:15[:30][+02:00]` or `10:15[:30]`; `null` for anything else. */
export function moment(text: string): Moment | null {
  const dated = text.charCodeAt(4) === DASH;
  const start = dated ? dayMinutes(text) : 0;
  if (start === null) return null;
  const day = dated ? text.slice(0, DAY_LENGTH) : null;
  if (dated && text.length === DAY_LENGTH) {
    return { minutes: start, dated, offset: null, day, seconds: false, dayOnly: true };
  }
  const separator = dated ? text.charCodeAt(DAY_LENGTH) : SPACE;
  if (separator !== SPACE && separator !== LETTER_T) return null;
  const clock = clockFrom(text, dated ? DAY_LENGTH + 1 : 0);
  if (clock === null) return null;
  const offset = offsetFrom(text, clock.end);
  if (offset === undefined || (offset !== null && !dated)) return null;
  return { minutes: start + clock.minutes, dated, offset, day, seconds: clock.seconds, dayOnly: false };
}

const DASH = 45;
const SPACE = 32;
const LETTER_T = 84;
const COLON = 58;
const POINT = 46;
const COMMA = 44;
const ZERO = 48;
const DAY_LENGTH = 10;
const MINUTES_PER_DAY = 1440;
const MONTH_LENGTHS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

/** Two digits at a place; -1 where there are none. */
function twoDigits(text: string, at: number): number {
  const tens = text.charCodeAt(at) - ZERO;
  const units = text.charCodeAt(at + 1) - ZERO;
  return tens >= 0 && tens <= 9 && units >= 0 && units <= 9 ? tens * 10 + units : -1;
}

/** Minutes from 1970-01-01 to the start of the day that the text begins with. */
function dayMinutes(text: string): number | null {
  const century = twoDigits(text, 0);
  const rest = twoDigits(text, 2);
  const month = twoDigits(text, 5);
  const day = twoDigits(text, 8);
  if (century < 0 || rest < 0 || month < 1 || month > 12 || day < 1) return null;
  if (text.charCodeAt(7) !== DASH) return null;
  const year = century * 100 + rest;
  const leap = year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);
  const length = month === 2 && leap ? 29 : (MONTH_LENGTHS[month - 1] ?? 0);
  return day > length ? null : daysSince1970(year, month, day) * MINUTES_PER_DAY;
}

/** Days since 1970-01-01 in the Gregorian calendar, years counted from March so that leap days come last. */
function daysSince1970(year: number, month: number, day: number): number {
  const fromMarch = month > 2 ? year : year - 1;
  const monthFromMarch = (month + 9) % 12;
  const leapDays = Math.floor(fromMarch / 4) - Math.floor(fromMarch / 100) + Math.floor(fromMarch / 400);
  const dayOfYear = Math.floor((153 * monthFromMarch + 2) / 5) + day - 1;
  return fromMarch * 365 + leapDays + dayOfYear - 719_468;
}

interface Clock {
  readonly minutes: number;
  readonly seconds: boolean;
  /** Where the text goes on. */
  readonly end: number;
}

/** Reads `10:15`, `9:05` or `10:15:30[.5]`. */
function clockFrom(text: string, start: number): Clock | null {
  const short = text.charCodeAt(start + 1) === COLON;
  const hour = short ? text.charCodeAt(start) - ZERO : twoDigits(text, start);
  const colon = start + (short ? 1 : 2);
  const minute = twoDigits(text, colon + 1);
  if (text.charCodeAt(colon) !== COLON || hour < 0 || hour > 23 || minute < 0 || minute > 59) return null;
  const end = colon + 3;
  if (text.charCodeAt(end) !== COLON) return { minutes: hour * 60 + minute, seconds: false, end };
  const second = twoDigits(text, end + 1);
  if (second < 0 || second > 59) return null;
  return { minutes: hour * 60 + minute + second / 60, seconds: true, end: afterFraction(text, end + 3) };
}

/** Parts of seconds are passed over. */
function afterFraction(text: string, start: number): number {
  const sign = text.charCodeAt(start);
  if (sign !== POINT && sign !== COMMA) return start;
  let end = start + 1;
  while (text.charCodeAt(end) >= ZERO && text.charCodeAt(end) <= ZERO + 9) end += 1;
  return end;
}

/** The common offsets, whole hours, so that they need not be taken apart. */
const OFFSETS: ReadonlyMap<string, number> = new Map(
  Array.from({ length: 29 }, (_, index) => {
    const hours = index - 14;
    const digits = String(Math.abs(hours)).padStart(2, "0");
    return [`${hours < 0 ? "-" : "+"}${digits}:00`, hours * 60] as const;
  }),
);

/** Minutes east of UTC; `null` where nothing follows; `undefined` where something else does. */
function offsetFrom(text: string, start: number): number | null | undefined {
  if (start === text.length) return null;
  const rest = text.slice(start).trimStart();
  const known = OFFSETS.get(rest);
  if (known !== undefined) return known;
  if (rest === "Z" || rest === "z") return 0;
  const parts = /^([+-])(\d{2})(?::?(\d{2}))?$/.exec(rest);
  if (parts === null) return undefined;
  const size = Number(parts[2]) * 60 + Number(parts[3] ?? "0");
  return parts[1] === "-" ? -size : size;
}

/** Minutes between two moments, and how they were understood. */
export interface Elapsed {
  readonly minutes: number;
  /** Bare clock times, the later one being earlier on the clock: taken as after midnight. */
  readonly overMidnight: boolean;
  /** Only one of the two states its offset: both taken as the same local time. */
  readonly offsetOnOneSide: boolean;
}

/** Bare clock times are taken as passing midnight only up to this many minutes. */
const LONGEST_OVER_MIDNIGHT = 720;

/**
 * Minutes from one moment to another; negative where the second is earlier; `null` where they
 * cannot be compared (one without a date, or a day without a clock time).
 *
 * Two bare clock times, the second earlier on the clock, are taken as passing midnight when that
 * makes 12 hours or less; otherwise the second is simply earlier. Common practice, no source.
 */
export function elapsed(from: Moment, to: Moment): Elapsed | null {
  if (from.dayOnly || to.dayOnly) return null;
  if (from.dated && to.dated) {
    const both = from.offset !== null && to.offset !== null;
    const shift = both ? (from.offset ?? 0) - (to.offset ?? 0) : 0;
    return {
      minutes: tidy(to.minutes - from.minutes + shift),
      overMidnight: false,
      offsetOnOneSide: (from.offset === null) !== (to.offset === null),
    };
  }
  const clock = tidy(clockOf(to) - clockOf(from));
  if (from.dated && !to.dated) return overMidnight(clock);
  if (!from.dated && !to.dated) return overMidnight(clock);
  return null;
}

function overMidnight(clock: number): Elapsed {
  const passes = clock < 0 && clock + MINUTES_PER_DAY <= LONGEST_OVER_MIDNIGHT;
  return {
    minutes: passes ? clock + MINUTES_PER_DAY : clock,
    overMidnight: passes,
    offsetOnOneSide: false,
  };
}

function clockOf(at: Moment): number {
  return at.dated ? at.minutes - Math.floor(at.minutes / MINUTES_PER_DAY) * MINUTES_PER_DAY : at.minutes;
}

/** Seconds are whole, so minutes are multiples of 1/60: takes rounding dust off. */
function tidy(minutes: number): number {
  return Math.round(minutes * 60) / 60;
}
