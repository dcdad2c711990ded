import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { elapsed, moment } from "../../src/records/moments.ts";

const between = (from: string, to: string) => {
  const first = moment(from);
  const second = moment(to);
  return first === null || second === null ? null : elapsed(first, second);
};

describe("clock times", () => {
  it("reads days, clock times and both, with and without offset", () => {
    expect(moment("2026-04-01")).toMatchObject({ day: "2026-04-01", dayOnly: true, dated: true });
    expect(moment("9:05")).toMatchObject({ minutes: 545, dated: false, offset: null });
    expect(moment("23:59:30")).toMatchObject({ minutes: 1439.5, seconds: true });
    expect(moment("2026-04-01T10:15+02:00")).toMatchObject({
      offset: 120,
      day: "2026-04-01",
      seconds: false,
    });
    expect(moment("2026-04-01 10:15:00Z")).toMatchObject({ offset: 0 });
    expect(moment("2026-04-01T10:15:00.25-0330")).toMatchObject({ offset: -210 });
  });

  it.each([
    "",
    "soon",
    "2026-02-30",
    "2026-13-01",
    "2026-00-10",
    "01/04/2026",
    "2026-04-01T24:00",
    "2026-04-01T10:60",
    "10",
    "10:1",
    "25:00",
    "10:15+02:00",
    "2026-04-01T10:15 noon",
    "2026-04-01x10:15",
  ])("does not guess at %j", (text) => {
    expect(moment(text)).toBeNull();
  });

  it("knows leap days (Gregorian rule)", () => {
    expect(moment("2024-02-29")).not.toBeNull();
    expect(moment("2000-02-29")).not.toBeNull();
    expect(moment("1900-02-29")).toBeNull();
    expect(moment("2026-02-29")).toBeNull();
  });

  it("agrees with the platform's own dates on every instant", () => {
    const second = fc.integer({ min: Date.UTC(1970, 0, 1) / 1000, max: Date.UTC(2099, 11, 31) / 1000 });
    const offset = fc.integer({ min: -840, max: 840 });
    fc.assert(
      fc.property(second, second, offset, offset, (one, other, here, there) => {
        const found = between(written(one, here), written(other, there));
        expect(found?.minutes).toBeCloseTo((other - one) / 60, 6);
      }),
    );
  });

  it("passes midnight with dates", () => {
    expect(between("2026-04-30T23:50+02:00", "2026-05-01T00:07+02:00")?.minutes).toBe(17);
    expect(between("2026-04-30T23:50", "2026-05-01T00:07")).toMatchObject({
      minutes: 17,
      overMidnight: false,
    });
  });

  it("takes bare clock times as passing midnight where that makes 12 hours or less", () => {
    expect(between("23:50", "00:07")).toEqual({ minutes: 17, overMidnight: true, offsetOnOneSide: false });
    expect(between("10:15", "10:05")).toEqual({ minutes: -10, overMidnight: false, offsetOnOneSide: false });
    expect(between("2026-04-30T23:50+02:00", "00:07")).toMatchObject({ minutes: 17, overMidnight: true });
  });

  it("takes two times as the same local time where one lacks its offset", () => {
    expect(between("2026-04-30T10:00+02:00", "2026-04-30T10:16")).toMatchObject({
      minutes: 16,
      offsetOnOneSide: true,
    });
  });

  it("does not compare what cannot be compared", () => {
    expect(between("2026-04-30", "2026-04-30T10:16")).toBeNull();
    expect(between("10:00", "2026-04-30T10:16")).toBeNull();
  });
});

function written(second: number, offset: number): string {
  const local = new Date((second + offset * 60) * 1000).toISOString().slice(0, 19);
  const size = Math.abs(offset);
  const digits = (value: number) => String(value).padStart(2, "0");
  return `${local}${offset < 0 ? "-" : "+"}${digits(Math.floor(size / 60))}:${digits(size % 60)}`;
}
