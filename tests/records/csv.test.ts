import { describe, expect, it } from "vitest";
import { delimiterOf, readCsv } from "../../src/records/csv.ts";
import { issueLog } from "../../src/records/issues.ts";
import { ledgerOf } from "../../src/records/table.ts";
import { textFile } from "./build-study.ts";

const wanted = { required: ["id"], optional: ["value"] };

function read(text: string | Uint8Array) {
  const issues = issueLog();
  const file = typeof text === "string" ? textFile("t.csv", text) : { name: "t.csv", bytes: text };
  const table = readCsv(file, wanted, issues);
  const column = (name: string) =>
    table === null ? null : table.lines.map((_, row) => table.columns.get(name)?.(row) ?? null);
  return { table, issues: issues.list, rules: issues.list.map((issue) => issue.rule), column };
}

describe("a table from bytes", () => {
  it("keeps identifiers as text and trims cells", () => {
    const { column, rules } = read("id,value\n007, 1.50 \n 1e3 ,\u00a0x\u00a0\n");
    expect(column("id")).toEqual(["007", "1e3"]);
    expect(column("value")).toEqual(["1.50", "x"]);
    expect(rules).toEqual([]);
  });

  it("finds the delimiter from the header, quoted pieces apart", () => {
    expect(delimiterOf("id,value\n1;2;3;4,5")).toBe(",");
    expect(delimiterOf('"a,b,c";d;e')).toBe(";");
    expect(delimiterOf("id\tvalue")).toBe("\t");
    expect(delimiterOf("id")).toBe(",");
  });

  it("notes a byte order mark and reads on", () => {
    const { column, rules } = read(Uint8Array.of(0xef, 0xbb, 0xbf, ...new TextEncoder().encode("id\n1\n")));
    expect(rules).toEqual(["byte_order_mark"]);
    expect(column("id")).toEqual(["1"]);
  });

  it("refuses what is not UTF-8, empty, or blank", () => {
    expect(read(Uint8Array.of(0x69, 0x64, 0x0a, 0xfc))).toMatchObject({
      table: null,
      issues: [{ rule: "not_utf8", row: 2, severity: "error" }],
    });
    expect(read("")).toMatchObject({ table: null, rules: ["empty_file"] });
    expect(read(" \n\n")).toMatchObject({ table: null, rules: ["empty_file"] });
  });

  it("accepts a header without rows, and says so", () => {
    const { table, rules } = read("id,value\n");
    expect(rules).toEqual(["no_rows"]);
    expect(table?.lines).toEqual([]);
  });

  it("refuses a table without a needed column and suggests the likely one", () => {
    const { table, issues } = read("di,value\n1,2\n");
    expect(table).toBeNull();
    expect(issues[0]).toMatchObject({ rule: "missing_column", row: 1, column: "id" });
    expect(read("ids,value\n1,2\n").issues[0]?.expected).toBe('the column id; did you mean "ids"?');
  });

  it("uses the first of two columns of one name", () => {
    const { column, issues } = read("id,value,id\n1,2,3\n");
    expect(column("id")).toEqual(["1"]);
    expect(issues).toMatchObject([{ rule: "duplicate_header", row: 1, column: "id" }]);
  });

  it("leaves unnamed columns out", () => {
    const { column, issues } = read("id,,value\n1,2,3\n");
    expect(column("value")).toEqual(["3"]);
    expect(issues).toMatchObject([{ rule: "empty_header", row: 1, column: "column 2" }]);
  });

  it("sets ragged, malformed, blank and damaged rows aside, each with its line", () => {
    const { table, issues } = read('id,value\n1,"two\nlines"\n2\n3,4,5\n"6,7\n,\n8\0,9\n10,11\n');
    expect(issues.map(({ rule, row }) => [rule, row])).toEqual([
      ["ragged_row", 4],
      ["ragged_row", 5],
      ["malformed_row", 6],
      ["blank_row", 7],
      ["nul_character", 8],
    ]);
    expect(table === null ? null : ledgerOf(table)).toEqual({
      file: "t.csv",
      rows: 7,
      analysed: 2,
      setAside: [
        { reason: "blank_row", rows: [7] },
        { reason: "malformed_row", rows: [6] },
        { reason: "nul_character", rows: [8] },
        { reason: "ragged_row", rows: [4, 5] },
      ],
    });
  });

  it("speaks of a cell of 1,000 characters, in any column, without printing it whole", () => {
    const { issues, column } = read(`id,other\n1,${"x".repeat(1000)}\n2,${"y".repeat(999)}\n`);
    expect(issues).toMatchObject([{ rule: "long_cell", row: 2, column: "other", consequence: "kept" }]);
    expect(issues[0]?.received.length).toBeLessThan(100);
    expect(issues[0]?.received).toContain("(1000 characters)");
    expect(column("id")).toEqual(["1", "2"]);
  });
});
