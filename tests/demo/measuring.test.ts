import { readFileSync } from "node:fs";
import { join } from "node:path";
import library from "jstat";
import { describe, expect, it } from "vitest";
import { PANEL, PANEL_DEVIATION } from "../../src/demo/panel.ts";
import { evaluate } from "../../src/evaluation/evaluate.ts";
import { expectClose } from "../tolerance.ts";
import { DATA, recordsOf, rowsOf } from "./folder.ts";

describe("the demo's clinics, its reader's numbers and its panel", () => {
  const records = recordsOf("demo");
  const document = evaluate(records, []);

  it("the panel gives back the concentration that 95 in 100 devices show", () => {
    // By the model that the devices were drawn from: log10 threshold + 1.645 standard deviations.
    const truth = PANEL.atThreshold * 10 ** (library.jStat.normal.inv(0.95, 0, 1) * PANEL_DEVIATION);
    const [panel] = document.panels;
    const found = panel?.values?.probit.concentrations.find(({ probability }) => probability === 0.95);
    expect(found?.concentration.lower).toBeLessThan(truth);
    expect(found?.concentration.upper).toBeGreaterThan(truth);
    expect(panel?.lots.map(({ lot }) => lot)).toEqual(PANEL.lots);
    expect(panel?.devices.tested).toBe(2 * 7 * 24);
  });

  it("every clinic of every cell holds the people that its subgroup holds", () => {
    expect(document.pooled.length).toBeGreaterThan(0);
    for (const { analyte, specimen, groups } of document.pooled) {
      const subgroup = document.subgroups.find(
        (one) => one.analyte === analyte && one.specimen === specimen && one.stratum === "site",
      );
      expect(groups.map(({ label, sensitivity }) => [label, sensitivity])).toEqual(
        subgroup?.groups.map(({ group, sensitivity }) => [group, sensitivity]),
      );
    }
  });

  it("the optical reader's numbers are those of the table, and at the kit's cutoff give its results", () => {
    const intensities = document.intensities.map((one) => [one.analyte, one.specimen, one.reader]);
    expect(intensities).toHaveLength(4);
    const lines = rowsOf("demo", "line_readings.csv").filter((row) => row.reader_id === "OR");
    const written = new Set(
      lines.filter((row) => row.line_id === "T1").map(({ intensity }) => Number(intensity)),
    );
    for (const { analyte, specimen, reader, stated, people } of document.intensities) {
      const set = records.sets.find(
        (one) => one.analyte === analyte && one.specimen === specimen && one.reader === reader,
      );
      const pairs = (set?.pairs ?? []).filter(
        ({ rapid, reference, measured }) =>
          (rapid === "reactive" || rapid === "nonreactive") &&
          (reference === "positive" || reference === "negative") &&
          measured?.intensity != null,
      );
      expect(pairs).toHaveLength(people.positives + people.negatives);
      if (analyte === "hbsag") {
        expect(pairs.every(({ measured }) => written.has(measured?.intensity as number))).toBe(true);
      }
      const truePositives = pairs.filter(
        (one) => one.reference === "positive" && one.rapid === "reactive",
      ).length;
      expect(stated?.sensitivity).toMatchObject({ count: truePositives, total: people.positives });
    }
  });
});

describe("the open measurements of urine", () => {
  const records = recordsOf("instruments-urine");
  const document = evaluate(records, []);
  const [calcium, gravity] = document.intensities;

  // Source: R 4.2.2, wilcox.test(…)$statistic / (34 × 45) and the highest Youden index, package boot 1.3-28.1.
  it("have the areas and the cutoff that R gives", () => {
    expectClose(calcium?.curve.area.value, 0.79509803921568623, { relative: 1e-12 });
    expectClose(gravity?.curve.area.value, 0.74477124183006538, { relative: 1e-12 });
    expect(calcium?.people).toEqual({ asked: 79, positives: 34, negatives: 45, setAside: [] });
    expect(calcium?.chosen?.values.cutoff.value).toBe(5.54);
    expectClose(calcium?.chosen?.values.youden, 0.5215686, { absolute: 1e-7 });
  });

  // Source: R 4.2.2, placements by mean((x > y) + (x == y) / 2), var of their differences over 34 and 45.
  it("differ by no more than chance, with DeLong's standard error by R", () => {
    const [comparison] = document.intensityComparisons;
    expectClose(comparison?.values?.standardError, 0.062804655108259749, { relative: 1e-10 });
    expect(comparison?.values?.p).toBeGreaterThan(0.05);
  });

  // Source: R 4.2.2, table(r, calc >= 4) and table(r, gravity >= 1.02).
  it("give the two tables that ORIGIN.md has", () => {
    const counts = document.accuracy.map(({ sensitivity, specificity }) => [
      sensitivity.count,
      sensitivity.total,
      specificity.count,
      specificity.total,
    ]);
    expect(counts).toEqual([
      [24, 34, 36, 45],
      [22, 34, 30, 45],
    ]);
    expect(records.issues).toEqual([]);
    expect(readFileSync(join(DATA, "instruments-urine", "ORIGIN.md"), "utf8")).toMatch(
      /0\.79509803921568623/,
    );
  });
});
