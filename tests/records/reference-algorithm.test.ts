import { describe, expect, it } from "vitest";
import {
  combined,
  type ReferenceAlgorithm,
  type ReferenceResult,
  referenceStatus,
} from "../../src/records/reference-algorithm.ts";

/** Screening assay, the same in duplicate, then neutralisation: an antigen's usual way (common practice, no source). */
const algorithm: ReferenceAlgorithm = [
  { assay: "EIA1", several: "last", leads_to: { reactive: "EIA1-again", nonreactive: "negative" } },
  { assay: "EIA1-again", several: "any_reactive", leads_to: { reactive: "NEUT", nonreactive: "negative" } },
  {
    assay: "NEUT",
    several: "last",
    leads_to: { reactive: "positive", nonreactive: "negative", failed: "indeterminate" },
  },
];

function run(results: Record<string, ReferenceResult[]>) {
  return referenceStatus(algorithm, (assay) => results[assay] ?? []);
}

describe("the reference algorithm", () => {
  it("stops at the first assay that decides", () => {
    expect(run({ EIA1: ["nonreactive"], NEUT: ["reactive"] })).toEqual({
      status: "negative",
      path: ["EIA1"],
      wanting: null,
      deadEnd: null,
    });
  });

  it("follows every step to the end", () => {
    const all = { EIA1: ["reactive"], "EIA1-again": ["nonreactive", "reactive"] } as const;
    const with_ = (neutralisation: ReferenceResult) =>
      run({ EIA1: [...all.EIA1], "EIA1-again": [...all["EIA1-again"]], NEUT: [neutralisation] });
    expect(with_("reactive")).toMatchObject({ status: "positive", path: ["EIA1", "EIA1-again", "NEUT"] });
    expect(with_("nonreactive").status).toBe("negative");
    expect(with_("failed").status).toBe("indeterminate");
  });

  it("says which assay is wanting rather than guess", () => {
    expect(run({})).toMatchObject({ status: "not_done", wanting: "EIA1", path: [] });
    expect(run({ EIA1: ["reactive"] })).toMatchObject({ status: "not_done", wanting: "EIA1-again" });
  });

  it("ends as indeterminate where a result leads nowhere", () => {
    expect(run({ EIA1: ["greyzone"] })).toMatchObject({ status: "indeterminate", deadEnd: "EIA1" });
  });

  it("combines several runs as the study file says", () => {
    const mixed: ReferenceResult[] = ["reactive", "nonreactive", "reactive"];
    expect(combined("last", mixed)).toBe("reactive");
    expect(combined("all_reactive", mixed)).toBe("nonreactive");
    expect(combined("all_reactive", ["reactive", "reactive"])).toBe("reactive");
    expect(combined("any_reactive", ["reactive", "failed"])).toBe("reactive");
    expect(combined("any_reactive", ["greyzone", "nonreactive"])).toBe("nonreactive");
    expect(combined("last", [])).toBeNull();
  });
});
