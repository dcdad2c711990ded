import { describe, expect, it } from "vitest";
import { takeStudy } from "../../src/workbench/study/root.ts";

const opened = (...names: string[]) => names.map((name) => ({ name, bytes: new Uint8Array(1) }));
const namesOf = (...names: string[]) => {
  const { files, ...rest } = takeStudy(opened(...names));
  return { ...rest, files: files.map(({ name }) => name) };
};

describe("what is taken of opened files", () => {
  it("a folder: what stands beside and below its study file, under names relative to it", () => {
    expect(
      namesOf("mine/study.yaml", "mine/tables/a.csv", "mine/notes.docx", "mine/.git/config.txt"),
    ).toEqual({
      title: "mine",
      whole: true,
      files: ["study.yaml", "tables/a.csv"],
      leftOut: ["mine/notes.docx", "mine/.git/config.txt"],
    });
  });

  it("of several study files the highest, and nothing outside its folder", () => {
    const found = namesOf("all/x/deep/study.yaml", "all/x/study.yaml", "all/y/b.csv", "all/x/a.csv");
    expect(found).toMatchObject({ title: "x", files: ["deep/study.yaml", "study.yaml", "a.csv"] });
    expect(found.leftOut).toEqual(["all/y/b.csv"]);
  });

  it("no report of an earlier run", () => {
    const found = namesOf("s/study.yaml", "s/fourfold-report/tables/accuracy.csv");
    expect(found.files).toEqual(["study.yaml"]);
  });

  it("loose files: additions, without a folder's name", () => {
    expect(namesOf("a.csv", "b.TSV")).toEqual({
      title: null,
      whole: false,
      files: ["a.csv", "b.TSV"],
      leftOut: [],
    });
  });

  it("a folder without a study file: its tables, relative to what they have in common", () => {
    expect(namesOf("data/in/a.csv", "data/in/more/b.csv")).toMatchObject({
      title: "in",
      whole: false,
      files: ["a.csv", "more/b.csv"],
    });
  });
});
