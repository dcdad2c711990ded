import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { byReference, cellsOf, fourfold } from "../../src/demo/cases.ts";
import { WIDE_PLAN, WIDE_SEED } from "../../src/demo/make-small.ts";
import { simulate } from "../../src/demo/simulate.ts";
import { kitJsonSchema, studyJsonSchema } from "../../src/records/json-schema.ts";
import { tally } from "../../src/records/tallies.ts";
import { DATA, recordsOf, rowsOf } from "./folder.ts";

const AS_READ = { invalid: "set_aside", outsideWindow: "keep" } as const;

describe("the open data of histology", () => {
  const { sets, issues, ledger } = recordsOf("results-nwtco");

  // Source: R 4.2.2, table(survival::nwtco$instit, survival::nwtco$histol), package survival 3.5-3.
  it("gives the table that R gives", () => {
    expect(sets).toHaveLength(1);
    const set = sets[0] as (typeof sets)[number];
    const { counts, people } = tally(set, AS_READ);
    expect(counts).toEqual({
      truePositives: 330,
      falseNegatives: 129,
      falsePositives: 76,
      trueNegatives: 3493,
    });
    expect(people).toBe(4028);
  });

  // Source: R 4.2.2, table(survival::nwtco$stage).
  it("has the four stages as subgroups, in order", () => {
    const stages = (sets[0]?.pairs ?? []).map((pair) => pair.strata.stage);
    const count = (stage: string) => stages.filter((one) => one === stage).length;
    expect(["1", "2", "3", "4"].map(count)).toEqual([1572, 1052, 944, 460]);
  });

  it("has nothing to complain of, and its ids stay text", () => {
    expect(issues).toEqual([]);
    expect(ledger[0]).toMatchObject({ rows: 4028, analysed: 4028 });
    expect(sets[0]?.pairs[0]?.person).toBe("1");
  });
});

/** A result by the plain rule: control line seen, test line seen or not. */
function lookUp(row: Readonly<Record<string, string>> | undefined, column: string): string {
  if (row?.control_line !== "clear" || row[column] === "unreadable") return "invalid";
  return row[column] === "absent" ? "nonreactive" : "reactive";
}

describe("the open data of two tests on the same patients", () => {
  const { sets, issues, ledger, results, totals, kits } = recordsOf("two-kits-nodal");
  const set = (kit: string) => {
    const found = sets.find((one) => one.kit === kit);
    if (found === undefined) throw new Error(`no set of ${kit}`);
    return found;
  };

  // Source of the counts of acid: worked example A-16, recomputed with R 4.2.2 from boot::nodal.
  it("gives the fourfold table of acid that the worked example has", () => {
    const cases = JSON.parse(
      readFileSync(join(DATA, "../tests/reference/worked-examples.json"), "utf8"),
    ) as readonly { id: string; inputs: Record<string, number> }[];
    const { tp, fp, fn, tn } = cases.find(({ id }) => id === "A-16")?.inputs ?? {};
    expect(tally(set("ACID"), AS_READ).counts).toEqual({
      truePositives: tp,
      falsePositives: fp,
      falseNegatives: fn,
      trueNegatives: tn,
    });
  });

  // Source: R 4.2.2, table(boot::nodal$xray, boot::nodal$r), package boot 1.3-28.1.
  it("gives the table of the X-ray that R gives", () => {
    expect(tally(set("XRAY"), AS_READ).counts).toEqual({
      truePositives: 11,
      falsePositives: 5,
      falseNegatives: 9,
      trueNegatives: 28,
    });
  });

  // Source: R 4.2.2, table(acid, xray) of boot::nodal within r == 1 and within r == 0.
  it("has the same people on both sides", () => {
    const other = new Map(set("XRAY").pairs.map((pair) => [pair.person, pair]));
    const crossed = (status: string) => {
      const people = set("ACID").pairs.filter((pair) => pair.reference === status);
      const count = (acid: string, xray: string) =>
        people.filter((pair) => pair.rapid === acid && other.get(pair.person)?.rapid === xray).length;
      const [on, off] = ["reactive", "nonreactive"] as const;
      return [count(on, on), count(on, off), count(off, on), count(off, off)];
    };
    expect(crossed("positive")).toEqual([9, 7, 2, 2]);
    expect(crossed("negative")).toEqual([2, 12, 3, 16]);
  });

  it("has the kits in order, two devices for each row, and nothing to complain of", () => {
    expect(kits.map(({ id }) => id)).toEqual(["XRAY", "ACID"]);
    expect(sets.map(({ kit }) => kit)).toEqual(["XRAY", "ACID"]);
    expect(totals).toMatchObject({ enrolled: 53, devices: 106, repeats: 0 });
    expect(new Set(results.map(({ device }) => device)).size).toBe(106);
    expect(issues).toEqual([]);
    expect(ledger[0]).toMatchObject({ rows: 53, analysed: 53 });
  });
});

describe("the study in the wide form", () => {
  const { sets, issues, ledger, rereadings } = recordsOf("wide");

  it("gives what its generator knows", () => {
    const cells = cellsOf(simulate({ seed: WIDE_SEED, plan: WIDE_PLAN }));
    for (const { analyte, specimen, cases } of cells) {
      const set = sets.find((one) => one.analyte === analyte && one.specimen === specimen);
      if (set === undefined) throw new Error(`no set of ${analyte}, ${specimen}`);
      expect(tally(set, AS_READ).counts).toEqual(fourfold(cases, byReference));
      expect(set.pairs).toHaveLength(120);
    }
  });

  it("holds the second looks of the first reader beside the first, 10 to 20 minutes later", () => {
    const rows = rowsOf("wide", "readings.csv");
    const again = rows.filter((row) => row.reading_no === "2");
    expect(again.length).toBeGreaterThan(50);
    expect(rereadings).toHaveLength(2 * again.length);
    for (const { device, analyte, reader, first, second } of rereadings) {
      const column = analyte === "hbsag" ? "t1_line" : "t2_line";
      const written = (number: string) =>
        rows.find(
          (row) => row.cassette_id === device && row.reader_id === reader && row.reading_no === number,
        );
      expect([first.result, second.result]).toEqual(
        ["1", "2"].map((number) => lookUp(written(number), column)),
      );
      if (first.minutes === null || second.minutes === null) continue;
      const later = second.minutes - first.minutes;
      // The first look may have been written down as the pre-printed 15 or 20 minutes.
      expect(later).toBeGreaterThan(5);
      expect(later).toBeLessThan(25);
    }
    const late = rereadings.filter(
      (one) => one.first.result === "nonreactive" && one.second.result === "reactive",
    );
    expect(late.length).toBeGreaterThan(0);
    expect(ledger.find(({ file }) => file === "readings.csv")).toMatchObject({
      setAside: [],
      analysed: rows.length,
    });
  });

  it("has no planted fault: the one pending specimen is all", () => {
    const rules = issues.filter(({ severity }) => severity !== "note").map(({ rule }) => rule);
    expect(rules).toEqual(["missing_reference", "missing_reference"]);
  });
});

describe("the study of counts", () => {
  const { sets, issues } = recordsOf("counts");

  it("adds its rows up", () => {
    const rows = rowsOf("counts", "counts.csv");
    for (const set of sets) {
      const own = rows.filter((row) => row.analyte === set.analyte && row.specimen === set.specimen);
      const sum = (column: string) => own.reduce((total, row) => total + Number(row[column]), 0);
      const { counts, invalidPositives, invalidNegatives } = tally(set, AS_READ);
      expect(own).toHaveLength(3);
      expect(counts).toEqual({
        truePositives: sum("reactive_positive"),
        falsePositives: sum("reactive_negative"),
        falseNegatives: sum("nonreactive_positive"),
        trueNegatives: sum("nonreactive_negative"),
      });
      expect([invalidPositives, invalidNegatives]).toEqual([
        sum("invalid_positive"),
        sum("invalid_negative"),
      ]);
    }
    expect(sets).toHaveLength(4);
    expect(issues).toEqual([]);
  });
});

/** Texts that stand under a key anywhere in a JSON Schema. */
function gather(schema: unknown, key: string, texts: (entry: object) => readonly string[]): string[] {
  if (typeof schema !== "object" || schema === null) return [];
  return Object.entries(schema).flatMap(([name, inner]: [string, unknown]) => [
    ...(name === key && typeof inner === "object" && inner !== null ? texts(inner) : []),
    ...gather(inner, key, texts),
  ]);
}

describe("the template", () => {
  const folder = join(DATA, "template");
  const study = readFileSync(join(folder, "study.yaml"), "utf8");
  const kit = readFileSync(join(folder, "kit.yaml"), "utf8");

  it("is a valid study without rows", () => {
    const { issues } = recordsOf("template");
    expect(new Set(issues.map(({ rule }) => rule))).toEqual(new Set(["no_rows"]));
  });

  it("shows every field that study and kit files may have, at any depth", () => {
    const shown = (text: string, field: string) => new RegExp(`(^|[ {#])${field}:`, "m").test(text);
    const fieldsOf = (schema: unknown) => gather(schema, "properties", (entry) => Object.keys(entry));
    expect(fieldsOf(studyJsonSchema())).toEqual(
      expect.arrayContaining(["comparisons", "margin", "observed"]),
    );
    expect(fieldsOf(studyJsonSchema()).filter((field) => !shown(study, field))).toEqual([]);
    expect(fieldsOf(kitJsonSchema()).filter((field) => !shown(kit, field))).toEqual([]);
  });

  it("names every choice of the study file", () => {
    const choices = gather(studyJsonSchema(), "enum", (list) => Object.values(list));
    expect(choices).toEqual(expect.arrayContaining(["one_sided", "fixed_sequence", "equivalence"]));
    expect(choices.filter((choice) => !study.includes(choice))).toEqual([]);
  });

  it("explains every field: a comment stands right above it", () => {
    for (const text of [study, kit]) {
      const lines = text.split("\n");
      const bare = lines.filter(
        (line, index) => /^[a-z_]+:/.test(line) && !(lines[index - 1] ?? "").startsWith("#"),
      );
      expect(bare).toEqual([]);
    }
  });

  it("explains every column of its empty tables", () => {
    const tables = readdirSync(folder).filter((name) => name.endsWith(".csv"));
    expect(tables).toHaveLength(8);
    for (const name of tables) {
      const header = readFileSync(join(folder, name), "utf8");
      expect(header.trimEnd().split("\n")).toHaveLength(1);
      const silent = header
        .trim()
        .split(",")
        .filter((column) => !study.includes(column));
      expect(silent, name).toEqual([]);
    }
  });
});
