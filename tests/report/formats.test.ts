import { describe, expect, test } from "vitest";
import * as formats from "../../src/report/formats.ts";

/** The expected texts follow the project's number rules; the roundings themselves are plain arithmetic. */
const nb = (text: string) => text.replaceAll("_", "\u00a0");

describe("counts", () => {
  test.each([
    [0, "0"],
    [999, "999"],
    [1000, "1,000"],
    [1234567, "1,234,567"],
    [-4200, "\u22124,200"],
  ])("%d", (value, text) => expect(formats.count(value)).toBe(text));

  test("right before all", () => expect(formats.countOf(1541, 1549)).toBe(nb("1,541_/_1,549")));
  test("expected people are whole, and a fraction is not nobody", () => {
    expect(formats.expectedPeople(441.6)).toBe("442");
    expect(formats.expectedPeople(0.3)).toBe(nb("<_1"));
    expect(formats.expectedPeople(0)).toBe("0");
  });
});

describe("percentages", () => {
  test.each([
    [0.9823, 0.9375, 0.9978, undefined, 1],
    [0.9948, 0.993, 0.9978, undefined, 2],
    [0.9948, 0.989, 0.9978, undefined, 1],
    [null, null, null, undefined, 1],
    [0.9998, 0.9, 1, undefined, 2],
    [0.00001, 0, 0.1, undefined, 3],
    [1, 0.93, 1, undefined, 1],
    [0.98, 0.9496, 0.99, 0.95, 2],
    [0.98, 0.95, 0.99, 0.95, 1],
    [0.98, 0.94999999, 0.99, 0.95, 4],
  ])("decimals of %d (%d to %d), threshold %d: %d", (value, lower, upper, threshold, decimals) => {
    expect(formats.percentDecimals({ value, lower, upper }, threshold)).toBe(decimals);
  });

  test("value with interval", () => {
    const text = formats.percentWithRange({ value: 0.98230088, lower: 0.93748, upper: 0.99784 });
    expect(text).toBe(nb("98.2\u202f% (93.7_–_99.8)"));
    expect(formats.percentWithRange({ value: null, lower: null, upper: null })).toBeNull();
  });

  test("no minus zero", () => {
    expect(formats.percent(-0.00001)).toBe("0.0");
    expect(formats.fixed(-0, 1)).toBe("0.0");
    expect(formats.points(-0.0001)).toBe("0.0");
    expect(formats.points(0.0001)).toBe("0.0");
  });

  test("a stated share keeps its own digits", () => {
    expect(formats.statedPercent(0.95)).toBe("95");
    expect(formats.statedPercent(0.985)).toBe("98.5");
    expect(formats.statedPercent(0.07)).toBe("7");
    expect(formats.statedPercent(0.29)).toBe("29");
  });

  test("points carry their sign", () => {
    expect(formats.points(0.0124)).toBe("+1.2");
    expect(formats.points(-0.004)).toBe("\u22120.4");
  });
});

describe("differences in points", () => {
  test("carry their sign, with as many decimals as tell no falsehood", () => {
    const range = { value: -0.0726, lower: -0.1332, upper: 0.004 };
    expect(formats.pointsWithRange(range)).toBe(nb("\u22127.3 (\u221213.3_–_+0.4)"));
    expect(formats.pointsDecimals({ value: 0.0003, lower: -0.001, upper: 0.0016 })).toBe(2);
    expect(formats.pointsDecimals({ value: -0.02, lower: -0.04997, upper: 0.01 }, [-0.05])).toBe(3);
    expect(formats.pointsDecimals({ value: 0, lower: -0.02, upper: 0.02 })).toBe(1);
    expect(formats.pointsWithRange({ value: null, lower: null, upper: null })).toBeNull();
  });

  test("stated ones keep their own digits", () => {
    expect([-0.05, 0, 0.025].map(formats.statedPoints)).toEqual(["\u22125", "0", "+2.5"]);
  });
});

describe("chances and coefficients", () => {
  test.each([
    [0.7149, "71\u202f%"],
    [0.004, "<_1\u202f%"],
    [0.9997, ">_99\u202f%"],
    [0, "0\u202f%"],
    [1, "100\u202f%"],
  ])("a chance of %d", (value, text) => expect(formats.chance(value)).toBe(nb(text)));

  test("a kappa that is not 1 is not printed as 1", () => {
    const limits = { value: 0.9975, lower: 0.9942, upper: 0.9993 };
    expect(formats.indexDecimals(limits)).toBe(3);
    expect(formats.indexWithRange({ value: 0.545, lower: 0.2, upper: 0.89 })).toBe(nb("0.55 (0.20_–_0.89)"));
    expect(formats.indexDecimals({ value: 1, lower: 0.9, upper: 1 })).toBe(2);
  });
});

describe("other numbers", () => {
  test.each([
    [189.2, "189"],
    [0.017849, "0.0178"],
    [12345.6, "12,300"],
    [1.2345, "1.23"],
    [9.996, "10.0"],
    [0, "0"],
    [-2.5, "\u22122.50"],
    [1e-7, "0.000000100"],
  ])("ratio %d", (value, text) => expect(formats.ratio(value)).toBe(text));

  test.each([
    [0.00004, "<_0.001"],
    [0.0012, "0.001"],
    [0.0467, "0.047"],
    [0.0996, "0.10"],
    [0.42, "0.42"],
    [1, ">_0.99"],
  ])("p-value %d", (value, text) => expect(formats.pValue(value)).toBe(nb(text)));

  test.each([
    [0.9999, ">_0.99"],
    [0.001, "<_0.01"],
    [0.94, "0.94"],
    [0, "<_0.01"],
  ])("probability %d", (value, text) => expect(formats.probability(value)).toBe(nb(text)));

  test("stated numbers and ranges", () => {
    expect(formats.statedRange(15, 20)).toBe("15–20");
    expect(formats.statedRange(20, 20)).toBe("20");
    expect(formats.stated(0.1 + 0.2)).toBe("0.3");
    expect(formats.shortHash("a".repeat(64))).toBe(`${"a".repeat(12)}…`);
  });
});
