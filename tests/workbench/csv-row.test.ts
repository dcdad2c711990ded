import { parse } from "csv-parse/sync";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { rowsAround, withCell, withLine } from "../../src/workbench/study/csv-row.ts";

const text = 'id;result\r\n1;"a;b"\r\n2;pos\r\n3\r\n4;neg\r\n';

describe("a row of a table", () => {
  it("is shown with its neighbours, whole or broken", () => {
    const found = rowsAround(text, 4, 1);
    expect(found?.header).toEqual(["id", "result"]);
    expect(found?.rows.map(({ line, cells }) => [line, cells])).toEqual([
      [3, ["2", "pos"]],
      [4, null],
      [5, ["4", "neg"]],
    ]);
    expect(rowsAround(text, 9, 1)).toBeNull();
  });

  it("is changed in one cell or as a line, and nothing else is", () => {
    expect(withCell(text, 3, 1, "neg")).toEqual({ text: text.replace("2;pos", "2;neg"), column: "result" });
    expect(withCell(text, 2, 1, 'x"y')?.text).toBe(text.replace('"a;b"', '"x""y"'));
    expect(withLine(text, 4, "3;pos")?.text).toBe(text.replace("3\r\n", "3;pos\r\n"));
    expect(withCell(text, 3, 7, "x")).toBeNull();
  });

  it("reads as the same table with one cell changed (csv-parse 7)", () => {
    const cell = fc.stringMatching(/^[a-z0-9 ,"\n]{0,6}$/);
    const row = fc.tuple(cell, cell, cell);
    fc.assert(
      fc.property(
        fc.array(row, { minLength: 1, maxLength: 5 }),
        fc.nat(4),
        fc.nat(2),
        cell,
        (rows, at, column, next) => {
          const quoted = rows.map((cells) => cells.map((one) => `"${one.replaceAll('"', '""')}"`).join(","));
          const table = `a,b,c\n${quoted.join("\n")}\n`;
          const place = at % rows.length;
          const line =
            2 + rows.slice(0, place).reduce((sum, cells) => sum + cells.join("").split("\n").length, 0);
          const changed = withCell(table, line, column, next);
          const wanted = rows.map((cells, row) =>
            cells.map((one, col) => (row === place && col === column ? next : one)),
          );
          expect(parse(changed?.text ?? "")).toEqual([["a", "b", "c"], ...wanted]);
        },
      ),
      { numRuns: 100, seed: 3 },
    );
  });
});
