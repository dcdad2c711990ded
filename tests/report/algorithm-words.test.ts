import { describe, expect, test } from "vitest";
import * as formats from "../../src/report/formats.ts";
import { algorithm } from "../../src/report/words/en/algorithm.ts";
import { algorithmParts } from "../../src/report/words/en/algorithm-parts.ts";

/** No-break spaces as plain ones. */
const plain = (text: string) => text.replace(/[\u00a0\u202f]/g, " ");

describe("an expected number of people where few matter", () => {
  test.each([
    [0, "0"],
    [0.0004, "< 0.1"],
    [0.049, "< 0.1"],
    [0.05, "0.1"],
    [1.26, "1.3"],
    [9.94, "9.9"],
    [9.96, "10"],
    [1234.5, "1,235"],
  ])("%s", (value, text) => expect(plain(formats.expectedFew(value))).toBe(text));
});

describe("the first sentences", () => {
  test.each([
    ["none", "95.6 truly are"],
    ["independent", "95.6 truly are if the kits' errors are independent, as the file assumes"],
    ["stated", "95.6 truly are with the error correlation stated"],
    ["estimated", "95.6 truly are with the error correlation seen in people tested with both kits"],
    ["shared", "95.6 truly are with the shared effect stated"],
  ] as const)("what the number rests on: %s", (basis, text) => {
    expect(algorithm.answer.truly("95.6", basis)).toBe(text);
  });

  test("the target, with its probability or with every number at its centre", () => {
    expect(algorithm.answer.targetChance("99", "0.02")).toBe(
      "The target, 99 of 100, is reached with probability 0.02.",
    );
    expect(algorithm.answer.targetAtCentre("99", false)).toContain("not reached");
  });

  test("another analyte in one sentence", () => {
    const facts = {
      analyte: "anti-HCV",
      algorithm: "Q, then W",
      truly: "94.4 truly are",
      independent: "99.1",
    };
    expect(algorithm.answer.other({ ...facts, chance: "< 0.01" })).toBe(
      "For anti-HCV, of 100 whom “Q, then W” calls positive there, 94.4 truly are, 99.1 if the kits erred independently; the target is reached with probability < 0.01.",
    );
    expect(algorithm.answer.other({ ...facts, independent: null, chance: null })).toBe(
      "For anti-HCV, of 100 whom “Q, then W” calls positive there, 94.4 truly are.",
    );
  });

  test("cost with and without a case found", () => {
    expect(algorithm.answer.cost("2.9 credits", "67 credits")).toBe(
      "That costs 2.9 credits per client, and 67 credits for each true case found.",
    );
    expect(algorithm.answer.cost("2.9 credits", null)).toBe("That costs 2.9 credits per client.");
  });
});

describe("what to mind", () => {
  test("from which prevalence on the target is reached", () => {
    const { from } = algorithm.care.prevalence;
    expect(plain(from("99", "4.0", "0.19"))).toBe(
      "A PPV of 99 is reached from a prevalence of 4.0 % on; it would be from 0.19 % on if the kits erred independently.",
    );
    expect(plain(from("99", "4.0", "4.0"))).toBe("A PPV of 99 is reached from a prevalence of 4.0 % on.");
    expect(from("99", null, null)).toBe("A PPV of 99 is reached at no prevalence that was looked at.");
  });
});

describe("discordant results", () => {
  const facts = {
    channel: "antenatal clinics",
    first: "Kit Q",
    second: "Kit R",
    seen: "108",
    all: "1,873",
    expected: "167",
    verdict: "alike",
    diseased: null,
  } as const;
  test.each([
    ["alike", "That is within what chance and the stated kits explain."],
    ["more", "That is more than chance and the stated kits explain"],
    ["fewer", "That is fewer than chance and the stated kits explain"],
  ] as const)("%s", (verdict, text) => {
    const said = algorithmParts.observed.sentence({ ...facts, verdict });
    expect(said).toContain("Kit R called 108 of the 1,873 people whom Kit Q called reactive non-reactive");
    expect(said).toContain("167 were to be expected");
    expect(said).toContain(text);
  });
});

describe("algorithms of the search", () => {
  test("bear their kits and how they are used", () => {
    const { search } = algorithmParts;
    expect(search.inTurn(["Kit R", "Kit V"])).toBe("Kit R, then Kit V");
    expect(search.either(["Kit R", "Kit V"])).toBe("Kit R or Kit V");
    expect(search.decides(["Kit Q", "Kit R"], "Kit V")).toBe("Kit Q and Kit R, Kit V decides");
  });
});
