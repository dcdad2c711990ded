import { describe, expect, it } from "vitest";
import type { Outside, Saved } from "../../src/workbench/state/core.ts";
import { workOf } from "../../src/workbench/state/state.ts";
import { STORAGE_KEY } from "../../src/workbench/state/storage.ts";
import { createStore, type Store } from "../../src/workbench/state/store.ts";
import { textOf } from "../../src/workbench/study/folder.ts";
import type { TypedCounts } from "../../src/workbench/study/typed-counts.ts";
import { en } from "../../src/workbench/words/en.ts";
import { Desk } from "../../src/workbench/work/desk.ts";

const TYPED: TypedCounts = {
  truePositives: 9,
  falsePositives: 1,
  falseNegatives: 1,
  trueNegatives: 9,
  kit: 'A kit: "quoted", # and more',
  condition: "Condition",
  specimen: "Specimen",
  reference: "Reference",
  role: "reference_standard",
  selection: "consecutive",
  sensitivityAtLeast: 0.5,
  specificityAtLeast: null,
  interval: { method: "clopper_pearson", level: 0.95 },
};

/** A shelf that holds so many characters. */
function shelf(room = Number.POSITIVE_INFINITY) {
  const held = new Map<string, string>();
  return {
    held,
    getItem: (key: string) => held.get(key) ?? null,
    setItem: (key: string, text: string) => {
      if (text.length > room) throw new DOMException("full", "QuotaExceededError");
      held.set(key, text);
    },
    removeItem: (key: string) => void held.delete(key),
  };
}

function benchWith(onShelf: Outside["shelf"] = shelf()) {
  const saved: Saved[] = [];
  const pause = () => new Promise<void>((resolve) => setTimeout(resolve, 0));
  const outside: Outside = {
    desk: new Desk(() => null, pause),
    shelf: onShelf,
    download: (file) => void saved.push(file),
    chooseFolder: async () => async (files) => void saved.push(...files),
    picture: async () => new Uint8Array(8),
  };
  return { store: createStore(outside, en), saved };
}

/** Waits until the state is so. */
function until(store: Store, so: (state: ReturnType<Store["get"]>) => boolean): Promise<void> {
  return new Promise((resolve) => {
    const check = () => {
      if (!so(store.get())) return;
      end();
      resolve();
    };
    const end = store.subscribe(check);
    check();
  });
}

const stands = (store: Store) =>
  until(store, ({ shown, task, history }) => task === null && shown?.of === history.present);

describe("the store", () => {
  it("makes a study of typed counts whose words and numbers come back unchanged", async () => {
    const { store } = benchWith();
    store.actions.typeCounts(TYPED);
    await stands(store);
    const { shown, reading, view } = store.get();
    expect(view).toBe("report");
    expect(reading?.issues).toEqual([]);
    expect(shown?.evaluation.kits[0]?.title).toBe(TYPED.kit);
    // R 4.2.2: binom.test(9, 10)$conf.int
    expect(shown?.evaluation.accuracy[0]?.sensitivity.lower).toBeCloseTo(0.554983882971805, 12);
    expect(shown?.evaluation.answers.map(({ verdict }) => verdict)).toEqual(["met"]);
  });

  it("evaluates anew after each step, undo included, and keeps the old report until then", async () => {
    const { store } = benchWith();
    store.actions.typeCounts(TYPED);
    await stands(store);
    const before = store.get().shown;
    const text = textOf(workOf(store.get()).files, "counts.csv") as string;
    store.actions.editFile("counts.csv", text.replace("9,1,1,9", "9,1,1,19"));
    expect(store.get().shown).toBe(before);
    await stands(store);
    expect(store.get().shown?.evaluation.accuracy[0]?.specificity.total).toBe(20);
    store.actions.undo();
    await stands(store);
    expect(store.get().shown?.evaluation).toEqual(before?.evaluation);
    expect(store.get().announced).not.toBe("");
  });

  it("a study that can't be read leaves the report, says so and names the faults", async () => {
    const { store } = benchWith();
    store.actions.typeCounts(TYPED);
    await stands(store);
    store.actions.removeFile("counts.csv");
    await until(store, ({ reading }) => reading?.readable === false);
    expect(store.get().reading?.issues.map(({ rule }) => rule)).toEqual(["missing_file"]);
    expect(store.get().shown).not.toBeNull();
    expect(store.get().view).toBe("study");
  });

  it("brings back what was kept, in the view it was left in", async () => {
    const kept = shelf();
    const first = benchWith(kept).store;
    first.actions.typeCounts(TYPED);
    await stands(first);
    await until(first, (state) => state.kept === "everything");
    const second = benchWith(kept).store;
    await second.actions.bringBack();
    await stands(second);
    expect(second.get().view).toBe("report");
    expect(second.get().shown?.evaluation).toEqual(first.get().shown?.evaluation);
  });

  it("says what does not fit, keeps what does, and nothing where it may not", async () => {
    const whole = shelf();
    const first = benchWith(whole).store;
    first.actions.typeCounts(TYPED);
    await until(first, (state) => state.kept === "everything");
    const room = (whole.held.get(STORAGE_KEY)?.length ?? 0) - 1;
    const small = benchWith(shelf(room)).store;
    small.actions.typeCounts(TYPED);
    await until(small, (state) => state.kept === "without_tables");
    const none = benchWith(null).store;
    none.actions.typeCounts(TYPED);
    await until(none, (state) => state.kept === "unable");
  });

  it("wipes everything", async () => {
    const kept = shelf();
    const { store } = benchWith(kept);
    store.actions.typeCounts(TYPED);
    await until(store, (state) => state.kept === "everything");
    store.actions.wipe();
    expect(kept.held.size).toBe(0);
    expect(workOf(store.get()).files.size).toBe(0);
    expect(store.get().history.past).toEqual([]);
  });

  it("does not take a damaged shelf for work", async () => {
    const kept = shelf();
    kept.setItem(
      STORAGE_KEY,
      '{"version":1,"files":[{"name":"a","squeezed":"?"}],"drafts":{},"explored":[]}',
    );
    const { store } = benchWith(kept);
    await store.actions.bringBack();
    expect(workOf(store.get()).files.size).toBe(0);
  });

  it("saves study and report into a chosen folder", async () => {
    const { store, saved } = benchWith();
    store.actions.typeCounts(TYPED);
    await stands(store);
    await store.actions.saveInto();
    const names = saved.map(({ name }) => name);
    expect(names.slice(0, 5)).toEqual([
      "study.yaml",
      "kit.yaml",
      "counts.csv",
      "fourfold-report/report.html",
      "fourfold-report/evaluation.json",
    ]);
  });
});
