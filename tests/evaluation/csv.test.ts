import { parse } from "csv-parse/sync";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Cell, writeCsv } from "../../src/evaluation/csv.ts";

const cellOf = (cell: Cell) => writeCsv({ name: "t", columns: ["a"], rows: [[cell]] }).slice(2, -1);

describe("writeCsv", () => {
  it.each(["=1+1", "+1+1", "-1+1", "@SUM(A1)", "\t=1", "\r=1", "＝1+1", "=cmd|' /C calc'!A0", "-", "+1"])(
    "puts an apostrophe before %j, which a spreadsheet may run",
    (text) => {
      // OWASP, CSV Injection: cells that begin with = + - @ tab or carriage return.
      const [row] = parse(cellOf(text)) as string[][];
      expect(row?.[0]).toBe(`'${text}`);
    },
  );

  it("leaves numbers alone, negative ones too", () => {
    expect(cellOf(-0.25)).toBe("-0.25");
    expect(cellOf(1e-12)).toBe("1e-12");
    expect(cellOf("-0.25")).toBe("-0.25");
    expect(cellOf("007")).toBe("007");
  });

  it("leaves an absent value empty, which is not the text null", () => {
    expect(cellOf(null)).toBe("");
  });

  it("quotes what another reader of the table would split or trim", () => {
    expect(cellOf("a,b")).toBe('"a,b"');
    expect(cellOf("a;=1")).toBe('"a;=1"');
    expect(cellOf('say "yes"')).toBe('"say ""yes"""');
    expect(cellOf(" a")).toBe('" a"');
  });

  it("can be read back by a general CSV reader, whatever stands in the cells", () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(fc.string(), fc.string()), { minLength: 1 }), (rows) => {
        const text = writeCsv({ name: "t", columns: ["a", "b"], rows });
        const back = (parse(text, { relax_column_count: false }) as string[][]).slice(1);
        expect(back.map((row) => row.map((cell) => cell.replace(/^'/, "")))).toEqual(
          rows.map((row) => row.map((cell) => cell.replace(/^'/, ""))),
        );
      }),
    );
  });

  it("never writes a text cell that begins like a formula", () => {
    fc.assert(
      fc.property(fc.constantFrom("=", "+", "-", "@", "\t", "\r"), fc.string(), (first, rest) => {
        const [row] = parse(cellOf(first + rest), { trim: false }) as string[][];
        const written = row?.[0] ?? "";
        expect(written.startsWith("'") || /^-\d/.test(written)).toBe(true);
      }),
    );
  });
});
