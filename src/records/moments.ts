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

const DAY = /^(\d{4})-(\d{2})-(\d{2})$/;
const CLOCK = /^(\d{1,2}):(\d{2})(?::(\d{2})(?:[.,]\d+)?)?$/;
const DAY_AND_CLOCK =
  /^(\d{4})-(\d{2})-(\d{2})[T ](\d{1,2}):(\d{2})(?::(\d{2})(?:[.,]\d+)?)? ?(Z|z|[+-]\d{2}(?::?\d{2})?)?$/;

/** Reads `2026-04-01`, `2026-04-01T10:15[:30][+02:00]` or `10:15[:30]`; `null` for anything else. */
export function moment(text: string): Moment | null {
  const full = DAY_AND_CLOCK.exec(text);
  if (full !== null) return fullMoment(full);
  const clock = CLOCK.exec(text);
  if (clock !== null) {
    const minutes = clockMinutes(clock[1], clock[2], clock[3]);
    if (minutes === null) return null;
    return {
      minutes,
      dated: false,
      offset: null,
      day: null,
      seconds: clock[3] !== undefined,
      dayOnly: false,
    };
  }
  const day = DAY.exec(text);
  const start = day === null ? null : dayMinutes(day[1], day[2], day[3]);
  if (start === null) return null;
  return { minutes: start, dated: true, offset: null, day: text, seconds: false, dayOnly: true };
}

function fullMoment(parts: RegExpExecArray): Moment | null {
  const start = dayMinutes(parts[1], parts[2], parts[3]);
  const clock = clockMinutes(parts[4], parts[5], parts[6]);
  if (start === null || clock === null) return null;
  return {
    minutes: start + clock,
    dated: true,
    offset: parts[7] === undefined ? null : offsetMinutes(parts[7]),
    day: `${parts[1]}-${parts[2]}-${parts[3]}`,
    seconds: parts[6] !== undefined,
    dayOnly: false,
  };
}

const MINUTES_PER_DAY = 1440;
const MILLISECONDS_PER_MINUTE = 60_000;

function dayMinutes(year = "", month = "", day = ""): number | null {
  const value = Date.UTC(Number(year), Number(month) - 1, Number(day));
  const back = new Date(value);
  const exists = back.getUTCMonth() === Number(month) - 1 && back.getUTCDate() === Number(day);
  return exists ? value / MILLISECONDS_PER_MINUTE : null;
}

function clockMinutes(hour = "", minute = "", second = "0"): number | null {
  if (Number(hour) > 23 || Number(minute) > 59 || Number(second) > 59) return null;
  return Number(hour) * 60 + Number(minute) + Number(second) / 60;
}

function offsetMinutes(text: string): number {
  if (text === "Z" || text === "z") return 0;
  const digits = text.slice(1).replace(":", "");
  const size = Number(digits.slice(0, 2)) * 60 + Number(digits.slice(2) || "0");
  return text.startsWith("-") ? -size : size;
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

/** Remembers the moments of a text already read. */
export function momentReader(): (text: string) => Moment | null {
  let lastText = "";
  let last: Moment | null = null;
  return (text) => {
    if (text !== lastText) {
      lastText = text;
      last = moment(text);
    }
    return last;
  };
}
