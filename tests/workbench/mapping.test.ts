import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import type { InputFile } from "../../src/records/model.ts";
import { readStudy } from "../../src/records/read-study.ts";
import { folderOf } from "../../src/workbench/study/folder.ts";
import { guessed, withCodes } from "../../src/workbench/study/mapping/guess.ts";
import { lacking } from "../../src/workbench/study/mapping/lacking.ts";
import { mappedStudy } from "../../src/workbench/study/mapping/mapped-study.ts";
import type { Mapping } from "../../src/workbench/study/mapping/mapping.ts";
import { previewOf, type TablePreview } from "../../src/workbench/study/mapping/table-preview.ts";
import { ROOT } from "./opened.ts";

const bytes = (text: string) => new TextEncoder().encode(text);
const preview = (file: Uint8Array) => previewOf(file) as TablePreview;
const SAID = {
  kit: "Kit",
  condition: "Condition",
  specimen: "Specimen",
  reference: "Reference",
  role: "reference_standard",
  discrepancies: "not settled",
  selection: "consecutive",
  invalid: "failure",
  repeat: "first",
  outside_window: "keep",
  max_attempts: 1,
  interval: { method: "wilson", level: 0.95 },
};

/** What the readers make of files: for each set its cells, added up. */
function cellsOf(files: readonly InputFile[]): Record<string, Record<string, number>> {
  const outcome = readStudy(files);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  return Object.fromEntries(
    outcome.records.sets.map(({ analyte, specimen, pairs }) => {
      const cells: Record<string, number> = {};
      for (const { rapid, reference, weight } of pairs) {
        const cell = `${rapid} ${reference}`;
        cells[cell] = (cells[cell] ?? 0) + weight;
      }
      return [`${analyte} ${specimen}`, cells];
    }),
  );
}

function folder(name: string, ...files: readonly string[]): InputFile[] {
  return files.map((file) => ({ name: file, bytes: readFileSync(`${ROOT}/data/${name}/${file}`) }));
}

describe("a table without a study file", () => {
  const nwtco = folder("results-nwtco", "nwtco.csv")[0] as InputFile;
  const counts = folder("counts", "counts.csv")[0] as InputFile;

  it("of counts is guessed from its names and gives the cells that the written study gives", () => {
    const seen = preview(counts.bytes);
    const mapping = { ...guessed("counts.csv", seen), about: SAID };
    expect(mapping.shape).toBe("counts");
    expect(lacking(mapping, seen)).toEqual([]);
    const made = cellsOf([...mappedStudy(mapping, seen), counts]);
    expect(made).toEqual(cellsOf(folder("counts", "study.yaml", "kit.yaml", "counts.csv")));
  });

  it("of results with codes that say nothing asks for them, then gives the cells of the written study", () => {
    const seen = preview(nwtco.bytes);
    const first = guessed("nwtco.csv", seen);
    expect(first.shape).toBe("results");
    const pointed = {
      ...first,
      about: SAID,
      meanings: { ...first.meanings, instit: "rapid", histol: "reference" },
    } as Mapping;
    const coded = withCodes(withCodes(pointed, seen, "rapid"), seen, "reference");
    // 2 could mean anything: nobody is asked to believe a guess.
    expect(coded.rapid["2"]).toBe("");
    expect(lacking(coded, seen).map(({ kind }) => kind)).toContain("codes");
    const whole: Mapping = {
      ...coded,
      rapid: { "1": "nonreactive", "2": "reactive" },
      reference: { "1": "negative", "2": "positive" },
    };
    expect(lacking(whole, seen)).toEqual([]);
    const made = Object.values(cellsOf([...mappedStudy(whole, seen), nwtco]));
    const written = folder("results-nwtco", "study.yaml", "kit.yaml", "nwtco.csv");
    expect(made).toEqual(Object.values(cellsOf(written)));
  });

  it("has its codes guessed where they speak, each guess named", () => {
    const seen = preview(bytes("pid,RDT,ELISA,mins\n1,R,pos,15\n2,NR,neg,16\n3,inv,neg,\n4,?,pos,15\n"));
    const mapping = guessed("t.csv", seen);
    expect(mapping.meanings).toEqual({ pid: "person", RDT: "rapid", ELISA: "reference", mins: "minutes" });
    expect(mapping.rapid).toEqual({ R: "reactive", NR: "nonreactive", inv: "invalid", "?": "" });
    expect(mapping.guessed).toContain("rapid:NR");
    expect(mapping.guessed).not.toContain("rapid:?");
    const lacks = lacking({ ...mapping, about: SAID }, seen);
    expect(lacks).toContainEqual({ kind: "codes", of: "rapid", codes: ["?"] });
    expect(lacks).toContainEqual({ kind: "window" });
  });

  it("decides nothing that was not said", () => {
    const seen = preview(counts.bytes);
    const mapping = guessed("counts.csv", seen);
    expect(lacking(mapping, seen).map(({ kind }) => kind)).toEqual(["about"]);
    expect(() => mappedStudy(mapping, seen)).toThrow(/about/);
    const study = new TextDecoder().decode(
      folderOf(mappedStudy({ ...mapping, about: SAID }, seen)).get("study.yaml"),
    );
    expect(study).toMatch(/^status: draft$/m);
    expect(study).toMatch(/^ {2}invalid: failure$/m);
  });

  it("with specimen types that are no short names says which", () => {
    const seen = preview(bytes("specimen,tp,fp,fn,tn\nvenous blood,1,2,3,4\n"));
    expect(lacking({ ...guessed("t.csv", seen), about: SAID }, seen)).toEqual([
      { kind: "names", meaning: "specimen", texts: ["venous blood"] },
    ]);
  });
});
