import { readFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { beforeAll, describe, expect, it } from "vitest";
import { evaluateFolder } from "../../src/cli/read-folder.ts";
import type { Evaluation } from "../../src/evaluation/document.ts";

/**
 * The demo study is simulated: `truth.json` was written by its generator, which knows what became of
 * every person and never saw the readers, the tallies or the evaluation.
 */
interface TruthCell {
  readonly analyte: string;
  readonly specimen: string;
  readonly reader: string;
  readonly people: number;
  readonly tested: number;
  readonly firstInvalid: number;
  readonly finalInvalid: number;
  readonly crossTabulation: Evaluation["accuracy"][number]["crossTabulation"];
  readonly againstReference: Evaluation["accuracy"][number]["counts"];
}

const DEMO = resolve(import.meta.dirname, "../../data/demo");
const truth = JSON.parse(readFileSync(join(DEMO, "truth.json"), "utf8")) as {
  readonly enrolled: number;
  readonly cells: readonly TruthCell[];
  readonly lineWithoutControl: number;
  readonly interpretations: { readonly typed: number; readonly differing: number };
};

let evaluation: Evaluation;
beforeAll(async () => {
  ({ evaluation } = await evaluateFolder(DEMO, { step: () => {}, end: () => {} }));
});

const truthOf = (cell: { analyte: string; specimen: string; reader: string }) =>
  truth.cells.find(
    (known) =>
      known.analyte === cell.analyte && known.specimen === cell.specimen && known.reader === cell.reader,
  );

describe("the evaluation of the demo study", () => {
  it("has the two analytes and two specimen types of the primary reader, venous blood first", () => {
    expect(evaluation.accuracy.map((cell) => `${cell.analyte} ${cell.specimen} ${cell.reader}`)).toEqual([
      "hbsag venous_whole_blood R1",
      "hbsag fingerstick R1",
      "anti_hcv venous_whole_blood R1",
      "anti_hcv fingerstick R1",
    ]);
  });

  it("counts every cell as the generator knows it", () => {
    for (const cell of evaluation.accuracy) {
      const known = truthOf(cell);
      expect(cell.crossTabulation).toEqual(known?.crossTabulation);
      expect(cell.counts).toEqual(known?.againstReference);
    }
  });

  it("follows everybody from enrolment to the table", () => {
    for (const flow of evaluation.flows) {
      const known = truthOf(flow);
      expect(flow).toMatchObject({
        enrolled: truth.enrolled,
        eligible: known?.people,
        tested: known?.tested,
        firstInvalid: known?.firstInvalid,
      });
    }
    for (const invalid of evaluation.invalid) {
      const known = truthOf(invalid);
      expect(invalid.firstAttempt).toMatchObject({ count: known?.firstInvalid, total: known?.tested });
      expect(invalid.final.count).toBe(known?.finalInvalid);
    }
  });

  it("counts devices with a test line and no control line once, however many readers saw it", () => {
    expect(evaluation.participants.lineWithoutControl).toBe(truth.lineWithoutControl);
  });

  it("finds the typed results that differ from the lines", () => {
    const sum = (numbers: readonly number[]) => numbers.reduce((total, one) => total + one, 0);
    expect(sum(evaluation.interpretations.map((entry) => entry.typed))).toBe(truth.interpretations.typed);
    const differing = evaluation.interpretations.map((entry) => entry.typed - entry.agree);
    expect(sum(differing)).toBe(truth.interpretations.differing);
    expect(
      sum(evaluation.interpretations.flatMap((entry) => entry.misreadRule.map((one) => one.count))),
    ).toBe(truth.interpretations.differing);
  });

  it("gives no predictive values of its own, for an arm was enriched", () => {
    for (const cell of evaluation.accuracy) {
      expect(cell.refused).toBe("enriched_sample");
      expect(cell.ownPredictiveValues).toBeNull();
    }
    for (const predictive of evaluation.predictive) expect(predictive.programmes).toHaveLength(3);
  });

  it("gives the verdicts that exact limits give", () => {
    // R 4.2.2 binom.test, two-sided 95 %: 94/98 .8988-.9888; 1529/1539 .9881-.9969; 110/112 .9370-.9978;
    // 1499/1519 .9797-.9919; 110/117 .8806-.9756; 19/1656 .0069-.0179; 55/1671 .0249-.0426.
    expect(evaluation.answers.map(({ criterion, verdict }) => [criterion, verdict])).toEqual([
      ["hbsag-se", "undecided"],
      ["hbsag-sp", "met"],
      ["hcv-se", "undecided"],
      ["hcv-sp", "met"],
      ["hcv-se-finger", "not_met"],
      ["invalid-venous", "met"],
      ["invalid-finger", "met"],
    ]);
  });
});
