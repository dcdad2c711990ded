import { readdir, readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { stringify } from "yaml";
import { readPlanning } from "../../src/evaluation/plan/read.ts";
import { type PlanText, planText } from "../evaluation/plan/any-plan.ts";
import { fill, ownFolder, ROOT, run } from "./in-process.ts";

const folder = ownFolder();
const read = (...parts: string[]) => readFile(join(folder, ...parts), "utf8");

async function planIn(name: string, change: PlanText = {}, file = "plan.yaml"): Promise<string> {
  await fill(join(folder, name), { [file]: stringify(planText(change)) });
  return join(name, file);
}

const [CRITERION] = planText().criteria as [PlanText];

describe("plan", () => {
  it("writes page, document, tables and charts beside the plan file, and prints the answer", async () => {
    const { code, out } = await run(["plan", await planIn("plain", {}, "mine.yaml")], folder);
    expect(code).toBe(0);
    expect(out).toMatch(/^enrol \d+ people \(assurance 90 %\); Analyte one decides, by se$/m);
    expect(out).toMatch(
      /^se: Analyte one, sensitivity at least 80 %, 95 % expected: \d+ reference positive/m,
    );
    expect(out).toContain(`plan: ${join("plain", "fourfold-plan", "plan.html")}`);
    const names = (await readdir(join(folder, "plain", "fourfold-plan"))).sort();
    expect(names).toEqual(["figures", "plan.html", "planning.json", "tables"]);
    const planning = readPlanning(JSON.parse(await read("plain", "fourfold-plan", "planning.json")));
    expect(planning.provenance.inputs.map(({ name }) => name)).toEqual(["mine.yaml"]);
    expect(await read("plain", "fourfold-plan", "tables", "criteria.csv")).toContain("se,A1,sensitivity");
    expect((await readdir(join(folder, "plain", "fourfold-plan", "figures")))[0]).toMatch(/\.vl\.json$/);
  });

  it("takes a folder with plan.yaml, writes where asked, and the same bytes again", async () => {
    await planIn("again");
    const first = await run(["plan", "again", "--out", "out-again", "--json"], folder);
    const page = await read("out-again", "plan.html");
    const second = await run(["plan", "again", "--out", "out-again", "--json"], folder);
    expect([first.code, second.code]).toEqual([0, 0]);
    expect(await read("out-again", "plan.html")).toBe(page);
    const answer = JSON.parse(first.out);
    expect(answer).toMatchObject({
      plan: join("out-again", "plan.html"),
      study: null,
      answer: { criteria: { planned: 1 } },
    });
  });

  it("says what can't be planned, and why, and plans the rest", async () => {
    const criteria = [CRITERION, { ...CRITERION, id: "sp", measure: "specificity", expected: 0.7 }];
    const { code, out } = await run(["plan", await planIn("partly", { criteria })], folder);
    expect(code).toBe(0);
    expect(out).toMatch(/^this plan can't show sp as it stands/m);
    expect(out).toMatch(/^sp: .*: can't be planned: .*no number of people/m);
    expect(out).toMatch(/^enrol \d+ people/m);
  });

  it("says so where nothing can be planned", async () => {
    const { code, out } = await run(
      ["plan", await planIn("nothing", { criteria: [{ ...CRITERION, expected: 0.7 }] })],
      folder,
    );
    expect(code).toBe(0);
    expect(out).toMatch(/^enrol: no number can be given as the plan stands$/m);
  });

  it.each<[string, string[], 1 | 2, RegExp]>([
    ["no such file", ["plan", "nowhere.yaml"], 2, /no such file: nowhere\.yaml/],
    ["no plan in the folder", ["plan", "empty"], 1, /no plan\.yaml in/],
    [
      "a plan with faults",
      ["plan", "faulty"],
      1,
      /plan\.yaml: row \d+, column power: expected a probability above 0 and below 1 .* received 1/,
    ],
    [
      "a kit file that is not there",
      ["plan", "kitless"],
      1,
      /kit\.yaml: expected this file, received no such file/,
    ],
    [
      "a place that holds something else",
      ["plan", "sound", "--out", "foreign"],
      2,
      /foreign: holds precious\.txt/,
    ],
    [
      "a study folder that is there",
      ["plan", "sound", "--study", "foreign"],
      2,
      /foreign: the folder is not empty/,
    ],
  ])("refuses %s", async (_, words, code, message) => {
    await fill(join(folder, "empty"), { "other.txt": "x" });
    await fill(join(folder, "foreign"), { "precious.txt": "x" });
    await planIn("faulty", { power: 1 });
    await planIn("kitless", { kit: "kit.yaml" });
    await planIn("sound");
    const ran = await run(words, folder);
    expect(ran.code).toBe(code);
    expect(ran.err).toMatch(message);
    expect(await read("foreign", "precious.txt")).toBe("x");
  });

  it("makes a study folder that checks without a fault", async () => {
    const file = await planIn("to-study");
    const { code, out } = await run(["plan", file, "--study", "made-study"], folder);
    expect(code).toBe(0);
    expect(out).toContain("study folder to fill in: made-study");
    const checked = await run(["check", "made-study"], folder);
    expect(checked.code).toBe(0);
    expect(checked.out).toContain("0 errors, 8 warnings, 0 notes");
    expect((await run(["plan", file, "--study", "made-study"], folder)).code).toBe(2);
  });
});

describe("start --plan", () => {
  it("makes a plan that can be planned as it stands, in all its parts", async () => {
    const made = await run(["start", "my-plan", "--plan"], folder);
    expect(made.code).toBe(0);
    expect(made.out).toContain("fourfold plan my-plan");
    const { code, out } = await run(["plan", "my-plan", "--json"], folder);
    expect(code).toBe(0);
    const { answer } = JSON.parse(out);
    expect(answer).toMatchObject({ criteria: { planned: 2, out: [] }, out: [] });
    expect(answer.enrol).toBeGreaterThan(0);
    expect((await run(["start", "my-plan", "--plan"], folder)).code).toBe(2);
  });

  it("shows every part of a plan: the remarks read as fields too", async () => {
    const text = await readFile(join(ROOT, "data", "template-plan", "plan.yaml"), "utf8");
    // A remark that is a field begins with its name right after the sign, or is moved in below such a one.
    const shown = text.replaceAll(/^# (?=(?:together|comparisons|agreement|stopping):| {2,}[-\w]+)/gm, "");
    const kit = await readFile(join(ROOT, "data", "template", "kit.yaml"), "utf8");
    await fill(join(folder, "whole"), { "plan.yaml": shown, "kit.yaml": kit });
    expect((await run(["plan", "whole"], folder)).code).toBe(0);
    const { plan } = readPlanning(JSON.parse(await read("whole", "fourfold-plan", "planning.json")));
    const lists = [plan.widths, plan.comparisons, plan.agreement, plan.stopping, plan.what_if];
    expect(lists.map(({ length }) => length)).toEqual([1, 1, 1, 2, 1]);
    expect(plan.together).toBeDefined();
  });
});

describe("verify, of a plan's page", () => {
  const page = join("verified", "fourfold-plan", "plan.html");

  it("finds page, inputs and numbers unchanged, then the plan changed", async () => {
    await run(["plan", await planIn("verified")], folder);
    const same = await run(["verify", page, "--json"], folder);
    expect(same.code).toBe(0);
    expect(JSON.parse(same.out)).toMatchObject({
      holds: true,
      page: "same",
      inputs: [{ file: "plan.yaml", state: "unchanged" }],
      numbers: [],
    });
    await planIn("verified", { power: 0.9 });
    const changed = await run(["verify", page], folder);
    expect(changed.code).toBe(1);
    expect(changed.out).toContain("plan.yaml: changed");
    expect(changed.out).toMatch(/plan\.power: 0\.8 in the report, 0\.9 now/);
  });

  it("notices a page that was changed, alone and in its document", async () => {
    await run(["plan", await planIn("forged"), "--out", "forged-out"], folder);
    const whole = await read("forged-out", "plan.html");
    await writeFile(join(folder, "forged-out", "words.html"), whole.replace("A small plan", "A large plan"));
    const words = await run(["verify", join("forged-out", "words.html"), "--json"], folder);
    expect(words.code).toBe(1);
    expect(JSON.parse(words.out)).toMatchObject({ page: "different", inputs: null });
    await writeFile(join(folder, "forged-out", "cut.html"), whole.replace('"fourfold-planning"', '"x"'));
    const cut = await run(["verify", join("forged-out", "cut.html")], folder);
    expect(cut.code).toBe(1);
    expect(cut.err).toContain("not a plan's page that can be read back");
  });

  it("looks only at the page where no folder holds the plan", async () => {
    await run(["plan", await planIn("apart"), "--out", "apart-out"], folder);
    const alone = await run(["verify", join("apart-out", "plan.html"), "--json"], folder);
    expect(alone.code).toBe(0);
    expect(JSON.parse(alone.out)).toMatchObject({ page: "same", inputs: null, numbers: null });
    const beside = await run(
      ["verify", join("apart-out", "plan.html"), "--study", "apart", "--json"],
      folder,
    );
    expect(JSON.parse(beside.out)).toMatchObject({ holds: true, numbers: [] });
  });
});
