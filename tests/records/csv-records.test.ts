import { parse } from "csv-parse/sync";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { csvRecords } from "../../src/records/csv-records.ts";

/** Records as lists of cells, each with its line; `null` for a malformed one. */
function recordsOf(text: string, delimiter = ","): { line: number; cells: string[] | null }[] {
  const found: { line: number; cells: string[] | null }[] = [];
  csvRecords(text, delimiter, (record) => {
    const cells = Array.from({ length: record.cells }, (_, index) => record.cell(index));
    found.push({ line: record.line, cells: record.malformed ? null : cells });
  });
  return found;
}

const cells = (text: string, delimiter = ",") => recordsOf(text, delimiter).map((record) => record.cells);
const lines = (text: string) => recordsOf(text).map((record) => record.line);

describe("records of CSV text (RFC 4180)", () => {
  it("splits at the delimiter and at LF, CRLF and CR", () => {
    expect(cells("a,b\n1,2\r\n3,4\r5,6")).toEqual([
      ["a", "b"],
      ["1", "2"],
      ["3", "4"],
      ["5", "6"],
    ]);
    expect(cells("a;b\n1,5;2", ";")).toEqual([
      ["a", "b"],
      ["1,5", "2"],
    ]);
    expect(cells("a\tb\n1\t2\n", "\t")).toEqual([
      ["a", "b"],
      ["1", "2"],
    ]);
  });

  it("keeps empty cells, also the last one", () => {
    expect(cells("a,b,c\n,,\n1,,")).toEqual([
      ["a", "b", "c"],
      ["", "", ""],
      ["1", "", ""],
    ]);
  });

  it("takes quotes off and halves doubled ones", () => {
    expect(cells('"a","b ""c"" d",""\n"x, y",z,"""')).toEqual([["a", 'b "c" d', ""], null]);
    expect(cells('"""",x')).toEqual([['"', "x"]]);
  });

  it("counts lines through quoted line ends of every kind", () => {
    const text = 'a,b\n"1\n2",x\n"3\r\n4\r5",y\nz,z\n';
    expect(recordsOf(text)).toEqual([
      { line: 1, cells: ["a", "b"] },
      { line: 2, cells: ["1\n2", "x"] },
      { line: 4, cells: ["3\r\n4\r5", "y"] },
      { line: 7, cells: ["z", "z"] },
    ]);
  });

  it("passes over empty lines and counts them", () => {
    expect(lines("\n\na\n\n\r\nb\n")).toEqual([3, 6]);
  });

  it("loses one row to a stray quote, not the rest of the file", () => {
    const text = 'a,b\n1,2\n"3,4\n5,6\n7,"8"9\n10,11\n';
    expect(recordsOf(text)).toEqual([
      { line: 1, cells: ["a", "b"] },
      { line: 2, cells: ["1", "2"] },
      { line: 3, cells: null },
      { line: 4, cells: ["5", "6"] },
      { line: 5, cells: null },
      { line: 6, cells: ["10", "11"] },
    ]);
  });

  it("takes a quote inside a plain cell as it stands", () => {
    expect(cells('size 5",x\n')).toEqual([['size 5"', "x"]]);
  });

  it("agrees with a general-purpose CSV parser on well-formed text", () => {
    const cell = fc.stringMatching(/^[a-c0-9 ;"\n\r,]{0,8}$/);
    const table = fc
      .integer({ min: 2, max: 4 })
      .chain((width) =>
        fc.array(fc.array(cell, { minLength: width, maxLength: width }), { minLength: 1, maxLength: 6 }),
      );
    fc.assert(
      fc.property(
        table,
        fc.constantFrom(",", ";", "\t"),
        fc.constantFrom("\n", "\r\n"),
        (rows, delimiter, end) => {
          const quote = (text: string) => `"${text.replaceAll('"', '""')}"`;
          const written = (text: string) => (/["\r\n,;\t]/.test(text) ? quote(text) : text);
          const text = rows.map((row) => row.map(written).join(delimiter)).join(end);
          const other: string[][] = parse(text, { delimiter, record_delimiter: end });
          expect(cells(text, delimiter)).toEqual(other);
          expect(other).toEqual(rows);
        },
      ),
      { numRuns: 300 },
    );
  });
});
