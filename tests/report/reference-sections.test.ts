import { describe, expect, test } from "vitest";
import type { Evaluation } from "../../src/evaluation/document.ts";
import { contentsOf } from "../../src/report/contents.ts";
import { renderFigures } from "../../src/report/render-figures.ts";
import { readEmbeddedEvaluation } from "../../src/report/render-report.tsx";
import { en } from "../../src/report/words/en.ts";
import { headingLevels, reportOf, sectionOf, textOf, visible } from "./html.ts";
import { likelihoodEvaluation, referenceEvaluation } from "./reference-sample.ts";
import { emptyEvaluation, sampleEvaluation } from "./sample-evaluation.ts";

/** The section on the reference says what the document says: numbers are taken from there, never from the page. */
const evaluation = referenceEvaluation();
const page = () => reportOf("reference", referenceEvaluation);
const section = async () => textOf(sectionOf(await page(), "reference") ?? "");
const percent = (share: number | null, decimals = 1) => ((share ?? Number.NaN) * 100).toFixed(decimals);
const only = <Item>(items: readonly Item[]): Item => {
  const [first] = items;
  if (first === undefined) throw new Error("nothing there");
  return first;
};

describe("the section on the reference", () => {
  test("stands after the criteria together, under its question", () => {
    const ids = contentsOf(evaluation, en).map(({ id }) => id);
    expect(ids.indexOf("reference")).toBe(Math.max(ids.indexOf("accuracy"), ids.indexOf("decision")) + 1);
    expect(en.sections.reference).toBe("How much does the reference matter?");
  });

  test.each([
    ["sample", () => sampleEvaluation()],
    ["empty", emptyEvaluation],
  ] as const)("is absent where the study says nothing of its reference: %s", async (name, of) => {
    expect(sectionOf(await reportOf(name, of), "reference")).toBeNull();
  });

  test("skips no heading, gives every id once, and leads everywhere it points", async () => {
    const html = visible(await page());
    for (const [place, level] of headingLevels(html).entries()) {
      expect(level - (headingLevels(html)[place - 1] ?? 0)).toBeLessThanOrEqual(1);
    }
    const ids = [...html.matchAll(/ id="([^"]*)"/g)].map((found) => found[1]);
    expect(new Set(ids).size).toBe(ids.length);
    const captions = [...html.matchAll(/<caption class="unseen">([^<]*)</g)].map((found) => found[1]);
    expect(new Set(captions).size).toBe(captions.length);
    const targets = [...html.matchAll(/href="#([^"]*)"/g)].map((found) => found[1]);
    expect(targets.filter((target) => !ids.includes(target))).toEqual([]);
  });

  test("has no number without words, and no script", async () => {
    expect(await section()).not.toMatch(/\bNaN\b|Infinity|undefined|\bnull\b|\[object|-0\.0\b/);
    expect(sectionOf(await page(), "reference")).not.toContain("<script");
  });

  test("travels with the report and can be read back", async () => {
    const { referenceErrors, verification, latentClass, discrepant } = readEmbeddedEvaluation(
      await page(),
    ) as Evaluation;
    expect({ referenceErrors, verification, latentClass, discrepant }).toEqual({
      referenceErrors: evaluation.referenceErrors,
      verification: evaluation.verification,
      latentClass: evaluation.latentClass,
      discrepant: evaluation.discrepant,
    });
  });
});

describe("a reference that errs", () => {
  const errors = only(evaluation.referenceErrors);

  test("shows the plain answer beside the corrected one", async () => {
    const { naive, corrected } = errors;
    const { count, total, value, lower, upper } = naive.sensitivity;
    const fixed = corrected.sensitivity;
    expect(await section()).toContain(
      `Sensitivity ${count} / ${total} ${percent(value)} ${percent(lower)} – ${percent(upper)} ` +
        `${percent(fixed.value)} ${percent(fixed.lower)} – ${percent(fixed.upper)}`,
    );
  });

  test("says at which reference the verdict turns, as one in so many people", async () => {
    const one = only(errors.criteria);
    const { at, verdict } = one.borders.referenceSpecificity.above;
    expect([one.believed, one.perfect, verdict]).toEqual(["met", "undecided", "undecided"]);
    const among = Number((1 / (1 - (at ?? 0))).toPrecision(3)).toLocaleString("en");
    expect(await section()).toContain(
      `Analyte one sensitivity ≥ 95 %: met with the reference as stated; undecided if it never erred. ` +
        `The verdict holds unless the reference falsely finds Analyte one in fewer than 1 in ${among} people without it (then undecided ). ` +
        "Within the range stated it changes.",
    );
  });

  test("gives each verdict in the answer, without errors, as stated, and over the range", async () => {
    const words = (verdict: string | null) => (verdict === null ? "changes" : verdict.replace("_", " "));
    for (const { measure, naive, perfect, believed, throughout, threshold } of errors.criteria) {
      const row = [naive, perfect, believed, throughout].map(words).join(" ");
      expect(await section()).toContain(`Analyte one ${measure} ≥ ${threshold * 100} % ${row}`);
    }
  });

  test("says what is stated, and whence", async () => {
    expect(await section()).toContain("96 % (90 to 99) of people with Analyte one");
    expect(await section()).toContain("none: they err independently");
    expect(await section()).toContain("made up, entered 1 January 2026");
  });

  test("draws the map open where the verdict hangs on it, folded where it does not", async () => {
    const html = sectionOf(await page(), "reference") ?? "";
    const map = (criterion: string) => html.indexOf(`Verdict by what is true of the reference: ${criterion}`);
    const fold = html.indexOf("which does not hang on the reference");
    expect(map("Analyte one sensitivity")).toBeGreaterThan(0);
    expect(map("Analyte one sensitivity")).toBeLessThan(fold);
    expect(map("Analyte one specificity")).toBeGreaterThan(fold);
  });

  test("turns the accuracy section's caution into a pointer", async () => {
    const text = textOf(sectionOf(await page(), "accuracy") ?? "");
    expect(text).toContain("corrected in section");
    expect(text).not.toContain("they are not corrected here");
  });
});

describe("people without a reference", () => {
  const partly = only(evaluation.verification);

  test("add up: the table's people and those set aside are all people", async () => {
    const { reactive, nonreactive } = partly.counted;
    const sum = [reactive, nonreactive].flatMap((one) => [one.diseased, one.nondiseased, one.unverified]);
    const aside = partly.setAside.reduce((total, { people }) => total + people, 0);
    expect(sum.reduce((total, one) => total + one, 0) + aside).toBe(partly.people);
    expect(await section()).toContain(
      `Reactive ${reactive.diseased} ${reactive.nondiseased} ${reactive.unverified}`,
    );
    expect(await section()).toContain(
      `Non-reactive ${nonreactive.diseased} ${nonreactive.nondiseased} ${nonreactive.unverified}`,
    );
    expect(await section()).toContain("Set aside: rapid result invalid 4.");
  });

  test("verified only, corrected and bounds stand side by side", async () => {
    const { naive, corrected, bounds } = partly;
    const { count, total, value, lower, upper } = naive.sensitivity;
    const fixed = corrected.sensitivity;
    expect(await section()).toContain(
      `Sensitivity ${count} / ${total} ${percent(value)} ${percent(lower)} – ${percent(upper)} ` +
        `${percent(fixed.value)} ${percent(fixed.lower)} – ${percent(fixed.upper)} ` +
        `${percent(bounds.sensitivity.lowest.value)} – ${percent(bounds.sensitivity.highest.value)}`,
    );
  });

  test("says what decided, how far the odds were looked at, and the worst and best case", async () => {
    expect(await section()).toContain("with the same result and the same site");
    expect(await section()).toContain(
      "That holds if people with the condition were 1/5 to 5 times as readily verified (in odds), but not whatever those without it have: at worst not met , at best undecided .",
    );
  });

  test("gives every point of the curve as data", async () => {
    const html = sectionOf(await page(), "reference") ?? "";
    const { points } = only(partly.criteria).axes.both;
    const body =
      /If who was verified hung on the condition itself: Analyte one sensitivity[\s\S]*?<\/table>/.exec(
        html.slice(html.indexOf("which does not hang on who was verified")),
      );
    expect(body?.[0].match(/<tr>/g)).toHaveLength(points.length + 1);
  });
});

describe("retests of those who disagree only", () => {
  test("are shown as a warning, with the demonstration's figures", async () => {
    const text = await section();
    const shown = evaluation.discrepant?.demonstration;
    expect(text).toContain("This is shown as a warning; it is never an analysis.");
    expect(text).toContain(
      `The first reference, nobody retested ${percent(shown?.unresolved.sensitivity ?? null)} ${percent(shown?.unresolved.specificity ?? null)}`,
    );
    expect(text).toContain("a retest that never errs");
  });
});

describe("a model in which no test is beyond doubt", () => {
  const model = only(evaluation.latentClass);

  test("says what it says of each test, with beliefs, beside the plain answer", async () => {
    const { sensitivity, specificity } = only(model.bayesian?.tests ?? []);
    const span = ({ median, lower, upper }: typeof sensitivity) =>
      `${percent(median)} % (${percent(lower)} to ${percent(upper)})`;
    expect(await section()).toContain(
      `Kit by eye: finds ${span(sensitivity)} of people with Analyte one, clears ${span(specificity)} of those without.`,
    );
    const naive = only(model.naive).sensitivity;
    expect(await section()).toContain(
      `with the condition, found ${naive.count} / ${naive.total} ${percent(naive.value)} ${percent(naive.lower)} – ${percent(naive.upper)} not estimable ${percent(sensitivity.median)}`,
    );
  });

  test("says that the answer rests on beliefs, whether the chains agree, and that the fit is poor", async () => {
    const text = await section();
    const { rank, unknowns } = model.bayesian?.identified ?? {};
    expect(rank).toBeLessThan(unknowns ?? 0);
    expect(text).toContain(`The counts alone tell ${rank} of ${unknowns} unknowns apart`);
    const { worstRHat, fewestEffective } = model.bayesian?.search ?? {};
    const apart = model.notes.some(
      ({ code, path }) => code === "not_converged" && path.startsWith("bayesian."),
    );
    expect(text).toContain(
      `${apart ? "The chains do not agree" : "The four chains agree"} (largest R-hat ${worstRHat?.toFixed(3)}, fewest effective draws ${Math.round(fewestEffective ?? 0).toLocaleString("en")})`,
    );
    expect(text).toContain("The model does not reproduce the table well (p < 0.001)");
  });

  test("names every unknown in the checks of the drawing, and shows the couplings", async () => {
    const text = await section();
    for (const name of [
      "Kit by eye: sensitivity",
      "Laboratory: specificity",
      "Share with the condition, North",
    ]) {
      expect(text).toContain(name);
    }
    expect(text).toContain("Covariance of");
    expect(text).toContain("Errors may go together for Kit by eye / Laboratory");
  });

  test("holds people expected against people seen, pattern by pattern", async () => {
    const patterns = model.bayesian?.check.patterns ?? [];
    const seen = patterns.reduce((sum, { observed }) => sum + (observed ?? 0), 0);
    expect(seen).toBe(model.people.counted);
    expect(await section()).toMatch(/reactive positive 120 [\d.]+ \(\d+ – \d+\)/);
  });

  test("speaks by likelihood alone where nothing was believed", async () => {
    const text = textOf(sectionOf(await reportOf("likelihood", likelihoodEvaluation), "reference") ?? "");
    expect(text).toContain("By maximum likelihood:");
    expect(text).toContain("The tests are taken to err independently");
    expect(text).not.toMatch(/chains|with beliefs/i);
  });
});

describe("the first page", () => {
  test("warns of every verdict and model in doubt, gravest first, each with its section", async () => {
    const care = textOf(sectionOf(await page(), "care") ?? "");
    const order = [
      "A verdict hangs on what is true of the reference: Analyte one sensitivity is met with the reference as stated, undecided if it never erred. Section",
      "Only people whose results differed were tested again",
      "rest on beliefs stated beforehand as well as on the data. Section",
      "does not reproduce the table it was fitted to. Section",
    ].map((text) => care.indexOf(text));
    expect(order.every((place) => place > 0)).toBe(true);
    expect(order).toEqual(order.toSorted((one, other) => one - other));
  });

  test("says a retest of the discrepant only once", async () => {
    const care = textOf(sectionOf(await page(), "care") ?? "");
    expect(care.match(/tested again/g)).toHaveLength(1);
  });

  test.each([
    [
      { naive: "met", corrected: "undecided" },
      "met by those who had the reference, undecided once corrected",
    ],
    [{ naive: "met", corrected: "met" }, "met, but not if verification hung on the condition itself"],
  ] as const)("tells what verification changes: %j", (facts, text) => {
    expect(en.referenceWarnings.partialVerification([{ name: "X", ...facts }])).toBe(
      `A verdict hangs on people who had no reference result: X is ${text}.`,
    );
  });
});

describe("the figures", () => {
  test("are one map and one curve a criterion, and three a model with beliefs", async () => {
    const names = (await renderFigures(evaluation)).map(({ name }) => name);
    expect(names.filter((name) => name.startsWith("tipping-"))).toHaveLength(2);
    expect(names.filter((name) => name.startsWith("verified-"))).toHaveLength(2);
    expect(names).toEqual(expect.arrayContaining(["beliefs-both", "traces-both", "ranks-both"]));
    expect(new Set(names).size).toBe(names.length);
  });
});

describe("the checklist", () => {
  test("points to the section for the choice of the reference and for missing results", async () => {
    const text = textOf(sectionOf(await page(), "checklist") ?? "");
    expect(text).toMatch(
      /11 Why this reference was chosen\. partly section \d+, How much does the reference matter\?/,
    );
    expect(text).toMatch(
      /16 How missing results were handled\. here section \d+, How much does the reference matter\?/,
    );
  });
});
