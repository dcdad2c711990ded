import { describe, expect, test } from "vitest";
import type { Evaluation, Intensity, Panel, Pooled } from "../../src/evaluation/document.ts";
import { pooledProportion } from "../../src/methods/pooling/univariate.ts";
import { receiverCurve } from "../../src/methods/roc/curve.ts";
import { chosenCutoff } from "../../src/methods/roc/cutoff.ts";
import { detectionLimitOf } from "../../src/methods/roc/detection-limit.ts";
import { intensities } from "../../src/methods/roc/intensity.ts";
import { headingLevels, reportOf, sectionOf, textOf } from "./html.ts";
import { sampleEvaluation } from "./sample-evaluation.ts";

const CELL = { analyte: "hbsag", kit: "KIT-Q", specimen: "venous", reader: "OR" };
const POSITIVES = [4, 9, 14, 30, 60, 80, 120, 200];
const NEGATIVES = [1, 1.5, 2, 2.5, 3, 3.5, 5, 12];
const share = (count: number, total: number) => ({
  count,
  total,
  value: count / total,
  lower: 0.5,
  upper: 0.99,
});

function measured(): Intensity {
  const readings = { positives: POSITIVES, negatives: NEGATIVES };
  const curve = receiverCurve(
    { ...readings, direction: "higher" },
    { level: 0.95, truncate: true, points: 50, ranges: [], replicates: 0, seed: 1 },
  );
  const chosen = chosenCutoff(
    { ...readings, direction: "higher", rule: { kind: "youden" } },
    { level: 0.95, correction: "cross_validation", replicates: 50, folds: 4, repeats: 5, seed: 1 },
  );
  const spread = intensities({ ...readings, minutes: null }, { bins: 8 });
  const { groups, histogram, overlap, largestGap } = spread.values;
  return {
    ...CELL,
    lines: ["T1"],
    unit: "units",
    direction: "higher",
    scale: "log10",
    people: { asked: 16, positives: 8, negatives: 8, setAside: [] },
    curve: curve.values,
    stated: {
      cutoff: 10,
      from: "kit",
      source: "instructions for use",
      sensitivity: share(6, 8),
      specificity: share(7, 8),
    },
    chosen: { rule: { kind: "youden" }, values: chosen.values },
    eyes: [],
    distribution: { groups, histogramScale: "log10", histogram, overlap, largestGap, minutes: null },
    calibration: null,
    notes: [],
  };
}

function panel(reactive: readonly number[]): Panel {
  const levels = reactive.map((count, at) => ({
    concentration: 0.05 * 2 ** at,
    reactive: count,
    tested: 20,
  }));
  const found = detectionLimitOf(
    { levels, blank: null, lackOfFit: "ignore" },
    { level: 0.95, probabilities: [0.5, 0.95], shownBelow: 0.1 },
  );
  return {
    id: "dilution",
    title: "HBsAg dilution panel",
    analyte: "hbsag",
    kit: "KIT-Q",
    unit: "IU/mL",
    chance: 0.95,
    lackOfFit: "ignore",
    source: "invented",
    table: "panel.csv",
    rows: { used: reactive.length, blanks: 0 },
    devices: { tested: 20 * reactive.length, reactive: reactive.reduce((sum, one) => sum + one, 0) },
    values: found.values,
    lots: [],
    notes: [],
  };
}

/** Sites of which one finds far fewer: sensitivities 19/20 ×4 and 8/20. */
function pooled(): Pooled {
  const counts = [19, 19, 19, 19, 8];
  const labels = ["B", "O", "T", "K", "L"];
  const alone = (list: readonly number[], total: number) =>
    pooledProportion(
      {
        studies: list.map((count, at) => ({ label: labels[at] ?? "", count, total })),
        correction: "zero_cells",
      },
      { level: 0.95, points: 35 },
    ).values;
  return {
    ...CELL,
    reader: "R1",
    by: { stratum: "site", title: "Site" },
    covariate: null,
    people: 600,
    groups: counts.map((count, at) => ({
      label: labels[at] ?? "",
      level: null,
      people: 120,
      counts: { truePositives: count, falsePositives: 2, falseNegatives: 20 - count, trueNegatives: 98 },
      sensitivity: share(count, 20),
      specificity: share(98, 100),
    })),
    leftOut: [],
    together: { sensitivity: share(84, 100), specificity: share(490, 500) },
    preferred: { sensitivity: "univariate", specificity: "univariate" },
    bivariate: null,
    univariate: { sensitivity: alone(counts, 20), specificity: alone([98, 98, 98, 98, 98], 100) },
    influence: null,
    influenceCriterion: null,
    criteria: [],
    notes: [],
  };
}

function evaluation(): Evaluation {
  const cutoff = measured().chosen?.values;
  return {
    ...sampleEvaluation(),
    pooled: [pooled()],
    intensities: [measured()],
    panels: [panel([0, 2, 7, 14, 19, 20])],
    warnings: [
      {
        code: "cutoff_chosen_here",
        ...CELL,
        facts: {
          unit: "units",
          cutoff: cutoff?.cutoff.value ?? null,
          sensitivity: 1,
          specificity: 0.875,
          correctedSensitivity: 0.9,
          correctedSpecificity: 0.8,
        },
      },
      { code: "no_detection_limit", subject: "dilution", facts: { reason: "flat" } },
    ],
  };
}

const page = () => reportOf("measured", evaluation);
const textIn = async (id: string) => textOf(sectionOf(await page(), id) ?? "");

describe("sites, instrument and panel on the page", () => {
  test("headings skip no level and no number is missing", async () => {
    const levels = headingLevels(await page());
    levels.forEach((level, place) => {
      expect(level - (levels[place - 1] ?? 0)).toBeLessThanOrEqual(1);
    });
    expect(textOf(await page())).not.toMatch(/\bNaN\b|Infinity|undefined|\[object/);
  });

  test("the middle, another site, and that sites differ", async () => {
    const text = await textIn("sites");
    expect(text).toContain("In the middle of the five sites sensitivity is");
    expect(text).toContain("Another site of the same kind may see a true sensitivity anywhere from");
    expect(text).toMatch(/Sites differ more than chance explains in sensitivity/);
    expect(text).toMatch(/differ no more than chance explains in specificity/);
    expect(text).toContain("Mavenfold Liver Clinic");
  });

  test("the stated cutoff, the chosen one and what to expect of it elsewhere", async () => {
    const text = await textIn("intensity");
    // Pairs in which the reading of the positive is higher, counted one by one (Mann and Whitney).
    const pairs = POSITIVES.flatMap((one) => NEGATIVES.map((other) => Number(one > other)));
    const area = (100 * pairs.reduce((sum, won) => sum + won, 0)) / pairs.length;
    expect(text).toContain(`reads the first higher in ${area.toFixed(1)}`);
    expect(text).toContain("At the kit's cutoff");
    expect(text).toContain("chosen on these very people");
    expect(text).toContain("The same, in other people");
  });

  test("the concentration found with the chance asked, from the document", async () => {
    const text = await textIn("detection");
    const [limit] = evaluation().panels.flatMap(
      ({ values }) => values?.probit.concentrations.filter(({ probability }) => probability === 0.95) ?? [],
    );
    expect(text).toContain(`reactive at ${limit?.concentration.value?.toPrecision(3)} IU/mL`);
  });

  test("first page: what was chosen here and what can't be told, with the way to the evidence", async () => {
    const care = (await page()).match(/<section id="care"[\s\S]*?<\/section>/)?.[0] ?? "";
    expect(textOf(care)).toContain("A cutoff of the instrument was chosen on these very people");
    expect(textOf(care)).toContain("HBsAg dilution panel");
    expect(care).toContain('href="#intensity"');
    expect(care).toContain('href="#detection"');
  });

  test("a study without any of it has none of the sections", async () => {
    const html = await reportOf("sample", () => sampleEvaluation());
    for (const id of ["sites", "intensity", "detection"]) expect(sectionOf(html, id) ?? null).toBeNull();
  });
});
