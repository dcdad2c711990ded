import { describe, expect, it } from "vitest";
import { judgedNow, trustAt } from "../../src/workbench/explore/live.ts";
import { lookingAt, withChange, withPeople } from "../../src/workbench/explore/looked-at.ts";
import { evenScale, ratioScale, thresholdScale } from "../../src/workbench/explore/scale.ts";
import type { Outside, Saved } from "../../src/workbench/state/core.ts";
import { workOf } from "../../src/workbench/state/state.ts";
import { createStore, type Store } from "../../src/workbench/state/store.ts";
import type { TypedCounts } from "../../src/workbench/study/typed-counts.ts";
import { en } from "../../src/workbench/words/en.ts";
import { Desk } from "../../src/workbench/work/desk.ts";

const TYPED: TypedCounts = {
  truePositives: 198,
  falsePositives: 8,
  falseNegatives: 2,
  trueNegatives: 392,
  kit: "Kit",
  condition: "Condition",
  specimen: "Specimen",
  reference: "Reference",
  role: "reference_standard",
  selection: "consecutive",
  sensitivityAtLeast: 0.95,
  specificityAtLeast: 0.95,
  interval: { method: "clopper_pearson", level: 0.95 },
};

const THRESHOLD = "criteria.sensitivity.at_least";
const PREVALENCE = "prevalences.looked-at.values.condition";

function bench() {
  const saved: Saved[] = [];
  const outside: Outside = {
    desk: new Desk(
      () => null,
      () => new Promise((resolve) => setTimeout(resolve, 0)),
    ),
    shelf: null,
    download: (file) => void saved.push(file),
    chooseFolder: undefined,
    picture: async () => new Uint8Array(8),
  };
  return { store: createStore(outside, en), saved };
}

function stands(store: Store): Promise<void> {
  return new Promise((resolve) => {
    const check = () => {
      const { shown, task, history } = store.get();
      if (task !== null || shown?.of !== history.present) return;
      end();
      resolve();
    };
    const end = store.subscribe(check);
    check();
  });
}

async function typedStudy(changes: Partial<TypedCounts> = {}) {
  const opened = bench();
  opened.store.actions.typeCounts({ ...TYPED, ...changes });
  await stands(opened.store);
  return opened;
}

const evaluationOf = (store: Store) => {
  const { shown } = store.get();
  if (shown === null) throw new Error("no report stands");
  return shown.evaluation;
};

const textOf = (saved: readonly Saved[], name: string) =>
  String(saved.findLast((file) => file.name === name)?.content);

describe("an exploration in the store", () => {
  it("is evaluated, marked, one step for all moves of one choice, and leaves the study file as it is", async () => {
    const { store } = await typedStudy();
    const { files } = workOf(store.get());
    const before = store.get().history.past.length;
    store.actions.explore("Sensitivity", [{ path: THRESHOLD, value: 0.98 }]);
    store.actions.explore("Sensitivity", [{ path: THRESHOLD, value: 0.97 }]);
    expect(store.get().history.past).toHaveLength(before + 1);
    await stands(store);
    // R 4.2.2: binom.test(198, 200)$conf.int = 0.9643 .. 0.9988: met at 95 %, undecided at 97 %
    expect(evaluationOf(store).answers[0]?.verdict).toBe("undecided");
    expect(evaluationOf(store).exploration?.changes).toEqual([
      { path: THRESHOLD, planned: 0.95, explored: 0.97 },
    ]);
    expect(workOf(store.get()).files).toBe(files);
    store.actions.backOne("Sensitivity", THRESHOLD);
    expect(workOf(store.get()).explored).toEqual([]);
    store.actions.undo();
    expect(workOf(store.get()).explored).toEqual([{ path: THRESHOLD, value: 0.97 }]);
    store.actions.undo();
    await stands(store);
    expect(evaluationOf(store).exploration).toBeNull();
    expect(evaluationOf(store).answers[0]?.verdict).toBe("met");
  });

  it("goes back to the plan as one step: what is saved then is what was saved before", async () => {
    const { store, saved } = await typedStudy();
    await store.actions.saveReport();
    const planned = textOf(saved, "report.html");
    store.actions.explore("Level", [
      { path: "interval.level", value: 0.9 },
      { path: PREVALENCE, value: 0.01 },
    ]);
    await stands(store);
    await store.actions.saveReport();
    const explored = textOf(saved, "report.html");
    expect(explored).toContain("An exploration, not the stated plan");
    expect(explored).toMatch(/Level: planned 95.% → 90.%/);
    expect(explored).toMatch(/@top-left\{content:"EXPLORATION/);
    expect(planned).not.toContain("xploration, not");
    store.actions.backToPlan();
    const steps = store.get().history.past.length;
    store.actions.backToPlan();
    expect(store.get().history.past).toHaveLength(steps);
    await stands(store);
    await store.actions.saveReport();
    expect(textOf(saved, "report.html")).toBe(planned);
    store.actions.undo();
    await stands(store);
    expect(evaluationOf(store).study.interval.level).toBe(0.9);
  });
});

describe("what follows a slider at once", () => {
  it("is what the report says later: predictive values, people per 10,000, verdicts", async () => {
    const { store } = await typedStudy();
    const evaluation = evaluationOf(store);
    const { study } = lookingAt(evaluation, []);
    const trust = trustAt(evaluation, study, "condition", 0.01);
    // .01 × .99 / (.01 × .99 + .99 × .02): two reactive results in three are false
    expect(trust?.ppv.value).toBeCloseTo(1 / 3, 12);
    expect([trust?.truePositives, trust?.falsePositives].map(Number)).toEqual([
      expect.closeTo(99, 9),
      expect.closeTo(198, 9),
    ]);
    store.actions.explore("x", [
      { path: PREVALENCE, value: 0.01 },
      { path: THRESHOLD, value: 0.97 },
    ]);
    await stands(store);
    const later = evaluationOf(store);
    const programme = later.predictive[0]?.programmes[0];
    expect({ ppv: trust?.ppv, npv: trust?.npv }).toEqual({ ppv: programme?.ppv, npv: programme?.npv });
    expect(trust?.falseNegatives).toBe(programme?.per10000.falseNegatives.value);
    const changed = lookingAt(evaluation, [{ path: THRESHOLD, value: 0.97 }]).study;
    const { estimate, verdict } = judgedNow(evaluation, changed, "sensitivity");
    const answer = later.answers[0];
    expect(verdict).toBe(answer?.verdict);
    expect(estimate).toEqual({
      value: answer?.estimate.value,
      lower: answer?.estimate.lower,
      upper: answer?.estimate.upper,
    });
  });

  it("is not said against a comparator, nor of a criterion that is not there", async () => {
    const { store } = await typedStudy({ role: "comparator" });
    const evaluation = evaluationOf(store);
    expect(trustAt(evaluation, evaluation.study, "condition", 0.1)).toBeNull();
    expect(trustAt(evaluation, evaluation.study, "other", 0.1)).toBeNull();
    expect(judgedNow(evaluation, evaluation.study, "none").verdict).toBe("not_estimable");
  });
});

describe("changes", () => {
  it("are of the plan even when the report is of an exploration", async () => {
    const { store } = await typedStudy();
    store.actions.explore("x", [{ path: THRESHOLD, value: 0.97 }]);
    await stands(store);
    const { planned, choices } = lookingAt(evaluationOf(store), []);
    expect(planned.criteria[0]?.at_least).toBe(0.95);
    const choice = choices.find(({ path }) => path === THRESHOLD);
    expect(choice).toMatchObject({ planned: 0.95, now: 0.95 });
  });

  it("take each other's place, go where they are the plan's, and look at people in one way at a time", () => {
    const level = { path: "interval.level", planned: 0.95 };
    const once = withChange([], level, 0.9);
    expect(withChange(once, level, 0.8)).toEqual([{ path: "interval.level", value: 0.8 }]);
    expect(withChange(once, level, 0.95)).toEqual([]);
    const north = withPeople(once, { path: "subset.site", value: "north" });
    const young = withPeople(north, { path: "subset.strata.age", value: "young" });
    expect(young).toEqual([...once, { path: "subset.strata.age", value: "young" }]);
    expect(withPeople(young, null)).toEqual(once);
  });
});

describe("scales", () => {
  it.each([
    ["even", evenScale(0.5, 1)],
    ["ratios", ratioScale(0.0005, 0.9)],
    ["of a threshold in the middle", thresholdScale(0.4)],
    ["of a small threshold", thresholdScale(0.05)],
  ])("%s: every position gives a share that never falls, and ends are ends", (_name, scale) => {
    const shares = Array.from({ length: scale.positions + 1 }, (_, position) => scale.toShare(position));
    expect(shares).toEqual([...shares].sort((one, other) => one - other));
    expect(scale.toPosition(-1)).toBe(0);
    expect(scale.toPosition(2)).toBe(scale.positions);
    expect(scale.toPosition(shares[0] as number)).toBe(0);
    expect(scale.toPosition(shares.at(-1) as number)).toBe(scale.positions);
  });

  it("even scales come back to the position they came from", () => {
    const scale = evenScale(0.5, 1);
    for (let position = 0; position <= scale.positions; position++) {
      expect(scale.toPosition(scale.toShare(position))).toBe(position);
    }
  });
});
