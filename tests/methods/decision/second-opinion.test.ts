import { readFileSync } from "node:fs";
import { describe, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { decisionAssurance } from "../../../src/methods/decision/assurance.ts";
import { decisionFamily } from "../../../src/methods/decision/family.ts";
import { expectClose } from "../../tolerance.ts";

interface Family {
  readonly p: readonly number[];
  readonly bonferroni: readonly number[];
  readonly holm: readonly number[];
  readonly benjaminiHochberg: readonly number[];
  readonly fixedSequence: readonly number[];
}
interface Asked {
  readonly count: number;
  readonly total: number;
  readonly threshold: number;
  readonly direction: "at_least" | "at_most";
  readonly further: number;
  readonly method: "clopper_pearson" | "wilson";
  readonly estimateHeld: readonly number[];
  readonly predictive: readonly number[];
}

/** Made by R 4.2.2 base/stats with `tests/reference/scripts/second-opinion-decision.R`. */
const file = new URL("../../reference/second-opinion-decision.json", import.meta.url);
const opinion = JSON.parse(readFileSync(file, "utf8")) as { families: Family[]; assurances: Asked[] };

describe("adjusted p-values", () => {
  it.each(opinion.families.map((family) => [family.p.length, family] as const))("of %i", (_, family) => {
    const criteria = family.p.map((pValue, at) => ({ label: `${at}`, pValue }));
    const { values } = compute(decisionFamily, { criteria });
    for (const [at, found] of values.criteria.entries()) {
      for (const kind of ["bonferroni", "holm", "benjaminiHochberg", "fixedSequence"] as const) {
        expectClose(found[kind], family[kind][at] ?? -1, { relative: 1e-12 }, `${kind} ${at}`);
      }
    }
  });
});

describe("assurance", () => {
  it.each(
    opinion.assurances.map(
      (asked) => [`${asked.count} of ${asked.total} + ${asked.further}`, asked] as const,
    ),
  )("%s", (_, asked) => {
    const { estimateHeld, predictive, method, ...input } = asked;
    const { values } = compute(decisionAssurance, input, { method, horizon: 0 });
    // Sums of masses that R has through logarithms of factorials: about 1e-11.
    const close = { relative: 1e-9, absolute: 1e-13 };
    for (const [at, part] of (["met", "notMet", "undecided"] as const).entries()) {
      expectClose(values.estimateHeld[part], estimateHeld[at] ?? -1, close, `held ${part}`);
      expectClose(values.predictive[part], predictive[at] ?? -1, close, `predictive ${part}`);
    }
  });
});
