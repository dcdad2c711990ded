import { describe, expect, test } from "vitest";
import type { Evaluation } from "../../src/evaluation/document.ts";
import { reportOf, sectionOf, textOf } from "./html.ts";
import { sampleEvaluation, twoKitsEvaluation } from "./sample-evaluation.ts";

const text = async (id: string, name = "sample", evaluation: () => Evaluation = () => sampleEvaluation()) =>
  textOf(sectionOf(await reportOf(name, evaluation), id) ?? "");

describe("the answer", () => {
  test("says how the criteria are judged together, and the overall verdict", async () => {
    expect(await text("answer")).toMatch(
      /The kit needs all four primary criteria: taken together they are undecided \. Probability that all are truly reached: 0\.\d\d/,
    );
  });

  test("gives every comparison with a margin its line, difference, margin and verdict", async () => {
    const answer = await text("answer");
    expect(answer).toMatch(
      /fingerstick blood less venous whole blood −7\.2 −13\.3 – −3\.4 > −5 .*undecided non-inferior 0\.81/,
    );
    expect(answer).toContain("Fingerstick blood alone was right for 1, venous whole blood alone for 11.");
    expect(answer).not.toContain("different people");
  });

  test("says of a criterion judged otherwise how it is judged", async () => {
    const ruled = (rule: "point" | "one_sided") => () => {
      const evaluation = structuredClone(sampleEvaluation());
      for (const criterion of evaluation.study.criteria) criterion.rule = rule;
      return evaluation;
    };
    const point = await text("answer", "point", ruled("point"));
    expect(point).toContain("Judged by the estimate alone");
    expect(point).toContain("the estimate reaches the criterion");
    expect(point).not.toContain("even the lower limit");
    expect(await text("answer", "one-sided", ruled("one_sided"))).toContain(
      "Judged by one-sided 95 % limits",
    );
  });
});

describe("several kits", () => {
  test("are named wherever a table or sentence is about one of them", async () => {
    const answer = await text("answer", "twokits", twoKitsEvaluation);
    expect(answer).toContain("HBsAg sensitivity of Kit P");
    expect(answer).toContain("Kit Q, venous whole blood");
    expect(await text("accuracy", "twokits", twoKitsEvaluation)).toContain(
      "HBsAg, Kit P, venous whole blood",
    );
    expect(await text("answer")).not.toContain("Kit Q, venous");
  });

  test("are shown with what their instructions say, the main one first", async () => {
    const study = await text("study", "twokits", twoKitsEvaluation);
    expect(study).toContain("Kit Q is the main kit");
    expect(study.indexOf("Kit Q, instructions for use")).toBeLessThan(
      study.indexOf("Kit P, instructions for use"),
    );
  });
});

describe("the criteria together", () => {
  test("show adjusted p-values only where the error is shared", async () => {
    expect(await text("decision")).not.toContain("p together");
    expect(await text("decision", "twokits", twoKitsEvaluation)).toContain("p together");
  });

  test("say what more people would settle, by the estimate and by what is known", async () => {
    const decision = await text("decision");
    expect(decision).toContain("If the estimate holds 78 % 1 % 21 %");
    expect(decision).toContain("By what is known so far 66 % 5 % 29 %");
    expect(decision).toContain(
      "no number of further people that was tried gives a 90 % chance of meeting it",
    );
  });
});

describe("agreement between readers", () => {
  test("gives the counts of every pair, and the first pair of each analyte in full", async () => {
    const html = await reportOf("sample", () => sampleEvaluation());
    const section = sectionOf(html, "readers") ?? "";
    for (const pair of sampleEvaluation().agreement) {
      const counts = Object.values(pair.counts).map((devices) => devices.toLocaleString("en"));
      expect(textOf(section)).toContain(`${pair.first} and ${pair.second} ${counts.join(" ")}`);
    }
    expect(section.match(/<details class="aside">/g)).toHaveLength(2);
    expect(textOf(section)).toContain("Krippendorff's alpha 0.90; prevalence index −0.85, bias index 0.00");
  });

  test("explains a low kappa beside a high agreement where it bites, and only there", async () => {
    // 8, 11, 7 and 1,615: kappa 0.465 beside 98.9 % agreement, by Cohen's formula
    const section = await text("readers");
    expect(section.match(/Why is kappa/g)).toHaveLength(1);
    expect(section).toContain("Why is kappa 0.47 although they agree on 98.9 %?");
  });

  test("says where they disagree, faint lines first", async () => {
    const section = await text("readers");
    expect(section).toContain("Of the devices with a faint line 18 / 42 were read differently");
    expect(section).toMatch(/Line, as reader R1 saw it .*faint line 18 \/ 42 42\.9/);
    expect(section).toContain("is never called sensitivity or specificity");
  });
});

describe("comparisons", () => {
  test("cross the same people by right and wrong, and name interval and test", async () => {
    const section = await text("comparisons");
    expect(section).toMatch(/right 127 both sides 1 fingerstick blood only 128/);
    expect(section).toContain("Tango's score interval for paired proportions; p: McNemar's test, mid-p");
    expect(section).toContain("Different people: 1,648 with fingerstick blood");
    expect(section).toContain("Positive predictive value 92.3 93.3 −1.0");
  });
});

describe("clusters, time and prevalence", () => {
  test("plain and clustered intervals stand side by side, with what the design effect means", async () => {
    const section = await text("accuracy");
    expect(section).toMatch(/Plain, exact 98\.2 93\.8 – 99\.8 .*At the effective number of people 98\.2/);
    expect(section).toContain(
      "design effect 1.82. In precision, 113 people are worth about 62 independent ones.",
    );
    expect(section).toContain("Specificity: design effect 0.94, not above 1.");
  });

  test("differences, a chart over minutes and re-readings", async () => {
    const html = sectionOf(await reportOf("sample", () => sampleEvaluation()), "time") ?? "";
    expect(textOf(html)).toMatch(/Before the window Sensitivity −10\.1 −32\.1 – \+11\.9/);
    expect(html).toContain("<desc>Filled dots: sensitivity");
    expect(textOf(html)).toContain(
      "7 of 238 devices changed their result: 6 became reactive, 1 became non-reactive.",
    );
  });

  test("true prevalence beside the apparent one", async () => {
    expect(await text("prevalence")).toMatch(/Antenatal care 412 \/ 8,120 5\.1 4\.6 – 5\.6 4\.7 3\.8 – 5\.5/);
  });
});
