import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import {
  BEGINNINGS,
  type DraftKind,
  draftFrom,
  kitNameOf,
  pageAsk,
  pageDraftOf,
  withPageDraft,
} from "../../src/workbench/drafts/page-draft.ts";
import { drawPage } from "../../src/workbench/work/jobs/draw-page.ts";
import { ROOT } from "./opened.ts";

const file = (name: string) => readFileSync(join(ROOT, name), "utf8");
const bytes = (name: string) => new Uint8Array(readFileSync(join(ROOT, name)));
const silent = async () => {};

describe("the texts that a page can begin with", () => {
  it.each([
    ["plan", "template", "data/template-plan/plan.yaml", "data/template/kit.yaml"],
    ["plan", "example", "data/plan/plan.yaml", "data/plan/kit.yaml"],
    ["algorithms", "template", "data/template-algorithm/algorithm.yaml", null],
    ["algorithms", "example", "data/algorithm/algorithm.yaml", null],
  ] as const)("of the %s, %s, are the package's files", (kind, beginning, main, kit) => {
    const begun = BEGINNINGS[kind][beginning];
    expect(begun.file).toBe(file(main));
    expect(begun.kit).toBe(kit === null ? null : file(kit));
  });
});

describe("the texts of a page among the drafts", () => {
  const { example } = BEGINNINGS.plan;

  it("come back as they were put, and leave what lies beside them", () => {
    const drafts = withPageDraft({ methods: "a", "algorithms/name": "b" }, "plan", example);
    expect(pageDraftOf(drafts, "plan")).toEqual(example);
    expect(withPageDraft(drafts, "plan", null)).toEqual({ methods: "a", "algorithms/name": "b" });
  });

  it("know under which name the kit file is asked for", () => {
    expect(kitNameOf(example)).toBe("kit.yaml");
    expect(kitNameOf({ ...example, file: "format: [" })).toBe(null);
  });
});

describe("opened files", () => {
  const plan = { name: "folder/my-plan.yaml", bytes: bytes("data/plan/plan.yaml") };
  const kit = { name: "folder/kit.yaml", bytes: bytes("data/plan/kit.yaml") };
  const other = { name: "folder/algorithm.yaml", bytes: bytes("data/algorithm/algorithm.yaml") };

  it("give the plan, under its own name, with its kit file, whatever else is among them", () => {
    const { file: text, kit: kitText } = BEGINNINGS.plan.example;
    const found = draftFrom("plan", [kit, other, plan], null);
    expect(found).toEqual({ name: "my-plan.yaml", file: text, kit: kitText });
    expect(draftFrom("algorithms", [kit, other, plan], null)?.name).toBe("algorithm.yaml");
  });

  it("give a kit file alone to the plan that waits for it, and nothing where none does", () => {
    const before = { name: "my-plan.yaml", file: "kit: kit.yaml", kit: null };
    expect(draftFrom("plan", [kit], before)?.kit).toBe(BEGINNINGS.plan.example.kit);
    expect(draftFrom("plan", [kit], null)).toBe(null);
    expect(draftFrom("algorithms", [kit], before)).toBe(null);
  });

  it("keep their byte order mark, since the page says which bytes it was made from", () => {
    const marked = { name: "plan.yaml", bytes: new Uint8Array([0xef, 0xbb, 0xbf, ...plan.bytes]) };
    const found = draftFrom("plan", [marked], null);
    expect(found === null ? null : pageAsk("plan", found).file.bytes).toEqual(marked.bytes);
  });
});

describe("a file with faults", () => {
  it.each([
    ["plan", "power: 0.9", "power: 9", "power"],
    ["algorithms", "kits:", "kitz:", null],
  ] as const)("of the %s gives its faults and no page", async (kind: DraftKind, right, wrong, column) => {
    const { example } = BEGINNINGS[kind];
    const broken = { ...example, file: example.file.replace(right, wrong).replace("power: 0.8", "power: 9") };
    const { issues, page } = await drawPage(pageAsk(kind, broken), silent);
    expect(page).toBe(null);
    expect(issues.length).toBeGreaterThan(0);
    if (column !== null) expect(issues.map((issue) => issue.column)).toContain(column);
  });

  it("says so where a plan names a kit file that is not there", async () => {
    const { issues } = await drawPage(pageAsk("plan", { ...BEGINNINGS.plan.example, kit: null }), silent);
    expect(issues).toMatchObject([{ rule: "missing_file", file: "kit.yaml" }]);
  });
});
